import { describe, expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { jobFaults } from '../../src-core/job/faults.ts'
import { massOf, nameOf, usualChoice } from '../../src-core/hardware/choice.ts'
import { findThread } from '../../src-core/hardware/threads.ts'
import { collect, copyIntoJob, offers } from '../../src-core/shop/use.ts'
import { EMPTY_LIBRARY } from '../../src-core/shop/schema.ts'
import { placed } from '../../src-renderer/editor/edits/putPiece.ts'
import type { AnglePlate, Job, Prism, Setup, Vee } from '../../src-core/job/schema.ts'
import { partMass } from '../../src-core/mass/part.ts'
import { flatsOf, outerRounds } from '../../src-core/mounting/flats.ts'
import { findSetup, mountSetup } from '../../src-core/mounting/mount.ts'
import { shelfSize } from '../../src-core/mounting/shelfSize.ts'
import { blockFault, makeBlock, usualBlock } from '../../src-renderer/editor/edits/bearingBlock.ts'
import { editPiece, editSetup } from '../../src-renderer/editor/edits/edit.ts'
import { addPiece, movePiece, removePiece } from '../../src-renderer/editor/edits/hardware.ts'
import { newStop } from '../../src-renderer/editor/edits/newHolds.ts'
import { basePlaces, boltBase, moveOnShelf, strapVee } from '../../src-renderer/editor/edits/onShelf.ts'
import {
  flatLaid,
  layFlat,
  moveToPlace,
  newAnglePlate,
  newVee,
  standCopied,
} from '../../src-renderer/editor/edits/shelves.ts'
import { boltsAnew } from '../../src-renderer/editor/edits/shelfBolts.ts'
import { removeHoleOf } from '../../src-renderer/editor/edits/fixtures.ts'
import { putStraps, usualPattern, usualStrapOn } from '../../src-renderer/editor/edits/fourStraps.ts'
import { putVeeBlock, strapBlock, strapOverRound } from '../../src-renderer/editor/edits/veeBlock.ts'
import { moveInSide } from '../../src-renderer/editor/edits/sideMoves.ts'
import type { PointerInput, ToolPort } from '../../src-renderer/editor/port.ts'
import { FlatTool } from '../../src-renderer/editor/tools/flatTool.ts'
import { sideScene } from '../../src-renderer/components/sideView.ts'
import { ringMoments } from '../../src-core/geometry/ringMoments.ts'
import { sideHit } from '../../src-renderer/editor/tools/sideTool.ts'
import { offToes } from '../../src-renderer/scene/offToes.ts'
import { shelfExtent } from '../../src-renderer/scene/shelfFace.ts'
import { shelfView } from '../../src-renderer/state/shownView.ts'
import type { SceneItem } from '../../src-renderer/scene/items.ts'
import { describeShelfSizes } from '../../src-renderer/scene/shelfSizes.ts'
import type { Target } from '../../src-renderer/editor/target.ts'
import { describeSideWork } from '../../src-renderer/scene/side.ts'
import { setApart } from '../../src-renderer/scene/tagPlaces.ts'
import { shippedJob } from './example.ts'
import { bearingBlock, CASTING, castingInBlock, castingInVee, CENTRE_HEIGHT } from '../helpers/shelfJobs.ts'

/** The same plate and part with nothing on it. */
const bare = (job: Job, setup: Partial<Setup> = {}): Job => ({
  ...job,
  setups: job.setups.map((s) => ({ ...s, hardware: [], seat: null, turn: 37, ...setup })),
})
const id = (job: Job) => job.setups[0]!.id
const setupOf = (job: Job) => findSetup(job, id(job))
const seatView = (job: Job) => mountSetup(job, id(job)).shelves![0]!
const plateOf = (j: Job) => setupOf(j).hardware.find((h): h is AnglePlate => h.kind === 'anglePlate')!
const shelfIn = (job: Job) => setupOf(job).hardware.find((h) => h.kind === 'anglePlate' || h.kind === 'vee')!

describe('flats of a part', () => {
  const flats = flatsOf(bearingBlock().part)

  test('are what can lie on a shelf, the base first, each with how far off it is', () => {
    expect(flats[0]!.direction).toBeCloseTo(270, 9)
    expect(flats[0]!.distance).toBeCloseTo(CENTRE_HEIGHT, 9)
    expect(flats[0]!.length).toBeCloseTo(150, 9)
    expect(flats[0]!.bodies).toEqual(['base'])
    const [a, b] = flats[0]!.ends
    expect([a.y, b.y]).toEqual([expect.closeTo(-CENTRE_HEIGHT, 9), expect.closeTo(-CENTRE_HEIGHT, 9)])
  })

  test('are no edges that something stands out over', () => {
    // The web's underside lies on the base; the base's upper side lies below the boss.
    expect(flats.map((f) => Math.round(f.direction)).sort((a, b) => a - b)).toEqual([0, 180, 270])
  })

  test('a round has none, and says its diameter', () => {
    const { part } = castingInVee()
    expect(flatsOf(part)).toEqual([])
    expect(outerRounds(part).map((r) => r.diameter)).toEqual([expect.closeTo(CASTING.diameter, 9)])
  })
})

describe('an angle plate put on', () => {
  const start = bare(bearingBlock())
  const { job } = addPiece(start, id(start), newAnglePlate(start))

  test('takes the part by its longest flat and stands where that lies on it', () => {
    expect(setupOf(job).seat?.on).toBe('A1')
    expect(flatLaid(job, setupOf(job))?.distance).toBeCloseTo(CENTRE_HEIGHT, 9)
    const size = shelfSize(seatView(job))!
    expect(size.stands).toBeCloseTo(CENTRE_HEIGHT, 6)
    expect(size.wanted).toBeCloseTo(CENTRE_HEIGHT, 6)
    expect(jobFaults(job)).toEqual([])
  })

  test('is bolted where slots of the plate are, and no bolt misses', () => {
    const shelf = shelfIn(job)
    expect('bolts' in shelf && shelf.bolts.length).toBeGreaterThanOrEqual(2)
    const codes = analyse(job, id(job))
      .findings.filter((f) => f.item === 'A1')
      .map((f) => f.code)
    expect(codes).not.toContain('bolt-in-solid')
  })

  test('its bolts stand clear of its webs', () => {
    const job = bare(bearingBlock())
    const { webs, bolts } = newAnglePlate(job)
    const clear = 175 / 2 - webs.thickness
    expect(bolts.length).toBeGreaterThan(1)
    for (const { at } of bolts) expect(Math.abs(at!.y) + 12).toBeLessThan(clear)
  })

  test('another flat turns the part, and the shelf goes after it', () => {
    const side = flatsOf(job.part).find((f) => Math.round(f.direction) === 0)!
    const laid = layFlat(job, id(job), side)
    expect(shelfSize(seatView(laid))!.stands).toBeCloseTo(side.distance, 6)
    expect(flatLaid(laid, setupOf(laid))?.direction).toBeCloseTo(side.direction, 6)
  })

  test('moved off it goes back by one press; its bolts are put anew where they miss', () => {
    const off = moveInSide(job, id(job), { kind: 'piece', id: 'A1' }, { out: 0, up: -7 }, 90)
    expect(shelfSize(seatView(off))!.stands).toBeCloseTo(CENTRE_HEIGHT + 7, 6)
    expect(shelfSize(seatView(moveToPlace(off, id(off))))!.stands).toBeCloseTo(CENTRE_HEIGHT, 6)
    const astray = editPiece(job, id(job), 'A1', (p) => {
      if (p.kind === 'anglePlate') p.bolts = [{ ...p.bolts[0]!, at: { x: -50, y: 31 } }]
    })
    const misses = (j: Job) =>
      analyse(j, id(j)).findings.some((f) => f.item === 'A1' && f.code === 'bolt-in-solid')
    expect(misses(astray)).toBe(true)
    expect(misses(boltsAnew(astray, id(astray), 'A1'))).toBe(false)
  })
})

describe('what stands on a shelf', () => {
  const held = bearingBlock()
  const free = editSetup(held, id(held), (s) => {
    s.hardware = s.hardware.filter((h) => h.kind !== 'bolt')
  })

  test('bolts go through the holes of the base that have a slot below, each once', () => {
    const places = basePlaces(seatView(free))
    expect(places.map((p) => Math.abs(p.x))).toEqual([56, 56])
    const { job, ids } = boltBase(free, id(free), seatView(free))
    expect(ids).toHaveLength(2)
    expect(analyse(job, id(job)).verdict.state).toBe(analyse(held, id(held)).verdict.state)
    expect(boltBase(job, id(job), seatView(job)).ids).toEqual([])
  })

  test('no bolt goes where the shelf is solid', () => {
    const solid = editPiece(free, id(free), 'A1', (p) => {
      if (p.kind === 'anglePlate') p.slots = []
    })
    expect(boltBase(solid, id(solid), seatView(solid)).ids).toEqual([])
  })

  test('it is moved along and out, and back to where it was', () => {
    const view = seatView(held)
    const b1 = view.pieces.find((p) => p.item.id === 'b1')!
    const moved = moveOnShelf(held, id(held), view, 'b1', { x: b1.at.x, y: b1.at.y + 4 })
    expect(seatView(moved).pieces.find((p) => p.item.id === 'b1')!.at.y).toBeCloseTo(b1.at.y + 4, 6)
    const back = moveInSide(moved, id(moved), { kind: 'piece', id: 'b1' }, { out: -4, up: 0 }, 90)
    expect(setupOf(back).hardware).toEqual(setupOf(held).hardware)
  })

  test('the part is moved out, never into the plate', () => {
    const out = (by: number) =>
      setupOf(moveInSide(held, id(held), { kind: 'part' }, { out: by, up: 0 }, 90)).seat?.standOff
    expect(out(3)).toBe((setupOf(held).seat?.standOff ?? 0) + 3)
    expect(out(-999)).toBe(0)
  })
})

describe('a vee put on', () => {
  // Its core lies between the flanks: the wall over both is thick.
  const start = bare(castingInVee(), { turn: 0 })
  const { job } = addPiece(start, id(start), newVee(start))

  test('takes the round, and straps from its lands hold it', () => {
    expect(setupOf(job).seat).toMatchObject({ on: 'V1', diameter: CASTING.diameter })
    expect(seatView(job).shelf?.round?.lies).toBe(true)
    const vee = shelfIn(job)
    if (vee.kind !== 'vee') throw new Error('vee')
    const { job: strapped, ids } = strapVee(job, id(job), vee)
    expect(ids).toHaveLength(2)
    expect(jobFaults(strapped)).toEqual([])
    const joint = (j: Job) => analyse(j, id(j)).joints.find((x) => x.id === 'part')?.factor ?? 0
    expect(joint(job)).toBe(0)
    expect(joint(strapped)).toBeGreaterThan(2)
    expect(strapVee(strapped, id(strapped), vee).ids).toEqual([])
  })
})

describe('a vee block laid on an angle plate', () => {
  const held = castingInBlock()
  const blockOf = (j: Job) => setupOf(j).hardware.find((h): h is Vee => h.kind === 'vee')!
  const start = editSetup(held, id(held), (s) => {
    s.hardware = s.hardware.filter((h) => h.kind === 'anglePlate')
    s.seat = { on: 'A1' }
  })
  const { job } = putVeeBlock(start, id(start), plateOf(start))
  const view = (j: Job) => shelfView(mountSetup(j, id(j)))!

  test('takes the part, lies wholly on the shelf, and the angle plate goes where the round lies in it', () => {
    expect(setupOf(job).seat).toMatchObject({ on: 'V1', diameter: CASTING.diameter })
    expect(blockOf(job)).toMatchObject({ at: { on: 'A1', along: 0 }, foot: { length: 0 }, bolts: [] })
    expect(seatView(job).shelf?.round?.lies).toBe(true)
    expect(jobFaults(job)).toEqual([])
    const codes = analyse(job, id(job)).findings.map((f) => f.code)
    expect(codes).toContain('block-loose')
    for (const code of ['block-overhangs', 'part-off-vee', 'bolt-in-solid']) expect(codes).not.toContain(code)
  })

  test('straps from the shelf press it by one press, each place once', () => {
    const { job: strapped, ids } = strapBlock(job, id(job), view(job))
    expect(ids).toHaveLength(2)
    const codes = analyse(strapped, id(strapped)).findings.map((f) => f.code)
    for (const code of [
      'block-loose',
      'no-clamp',
      'toe-off',
      'hardware-clash',
      'part-clash',
      'bolt-in-solid',
    ])
      expect(codes).not.toContain(code)
    const joints = analyse(strapped, id(strapped)).joints
    expect(joints.every((j) => (j.factor ?? 0) > 0)).toBe(true)
    expect(strapBlock(strapped, id(strapped), view(strapped)).ids).toEqual([])
    // Asked for by number they are the same.
    expect(putStraps(job, id(job), usualPattern(job, id(job))).ids).toHaveLength(ids.length)
  })

  test('the usual strap is one for the slots of the shelf below it, and stands there over the round', () => {
    const thread = usualStrapOn(job, setupOf(job)).thread
    expect(findThread(thread)!.diameter).toBeLessThanOrEqual(plateOf(job).slots[0]!.width)
    const strap = strapOverRound(job, id(job), mountSetup(job, id(job)))!
    const one = addPiece(job, id(job), strap).job
    expect(analyse(one, id(one)).findings.map((f) => f.code)).not.toContain('block-loose')
    // As the clamp that stands there already.
    const { stud } = usualPattern(one, id(one))
    expect(stud).toEqual(strap.stud)
    const next = strapOverRound(one, id(one), mountSetup(one, id(one)))!
    expect(
      strapOverRound(
        addPiece(one, id(one), next).job,
        id(one),
        mountSetup(addPiece(one, id(one), next).job, id(one)),
      ),
    ).toBeNull()
    expect(newStop(job, id(job), mountSetup(job, id(job))).at).toMatchObject({ on: 'A1' })
  })

  test('no strap goes where a heel has no room', () => {
    const short = editPiece(job, id(job), 'A1', (p) => {
      if (p.kind === 'anglePlate') p.size[0] = 170
    })
    expect(strapBlock(short, id(short), view(short)).ids).toEqual([])
  })

  test('is moved along and out in both views, and in the side view the angle plate is caught at its size', () => {
    const along = moveOnShelf(job, id(job), view(job), 'V1', { x: 7, y: 20 })
    expect(blockOf(along).at).toEqual({ on: 'A1', along: 7, out: 20 })
    const out = moveInSide(along, id(job), { kind: 'piece', id: 'V1' }, { out: 3, up: 9 }, 90)
    expect(blockOf(out).at).toEqual({ on: 'A1', along: 7, out: 23 })
    const low = moveInSide(job, id(job), { kind: 'piece', id: 'A1' }, { out: 0, up: -4 }, 90)
    expect(seatView(low).shelf?.round?.lies).toBe(false)
    expect(shelfSize(seatView(moveToPlace(low, id(low))))!.of.id).toBe('A1')
    expect(seatView(moveToPlace(low, id(low))).shelf?.round?.lies).toBe(true)
  })

  test('the view square to a shelf is that of the shelf which it lies on', () => {
    expect(view(job).shelf?.item.id).toBe('A1')
    expect(view(job).pieces.map((p) => p.item.id)).toContain('V1')
  })

  test('a vee of the plate put on a shelf loses its foot; one whose shelf is taken off stands where it lay', () => {
    const bolted = addPiece(start, id(start), newVee(start)).job
    const moved = movePiece(bolted, id(bolted), 'V1', { on: 'A1', along: 0, out: 5 })
    expect(blockOf(moved)).toMatchObject({ foot: { length: 0 }, bolts: [] })
    const freed = removePiece(job, id(job), 'A1')
    expect(jobFaults(freed)).toEqual([])
    const lands = seatView(job).shelf!.pose.origin
    expect(blockOf(freed)).toMatchObject({
      at: { x: expect.closeTo(lands.x, 3) as number, y: expect.closeTo(lands.y, 3) as number },
      facing: 90,
    })
  })
})

describe('a bearing block by sizes', () => {
  const sizes = usualBlock(60)

  test('in its usual proportions nothing is wrong with it, at any size', () => {
    for (const height of [20, 40, 63.5, 120, 300]) expect(blockFault(usualBlock(height))).toBeNull()
  })

  test('sizes that make no block are named', () => {
    expect(blockFault({ ...sizes, boss: { ...sizes.boss, diameter: 200 } })).toMatch(/Boss and base meet/)
    expect(blockFault({ ...sizes, bore: { diameter: 200, start: 0 } })).toMatch(/no smaller than its boss/)
    expect(blockFault({ ...sizes, slots: { ...sizes.slots, apart: 500 } })).toMatch(/leave the base/)
  })

  test('weighs what base, web and boss weigh together, and leaves no fault', () => {
    const start = bearingBlock()
    const job = makeBlock(start, id(start), sizes)
    expect(jobFaults(job)).toEqual([])
    const { base, slots, boss, bore, web, height } = sizes
    const slot = slots.width * (slots.length - slots.width) + (Math.PI / 4) * slots.width ** 2
    const foot = (base.along * base.deep - 2 * slot) * base.thickness
    const ring = (Math.PI / 4) * (boss.diameter ** 2 - bore.start ** 2) * boss.length
    const radius = boss.diameter / 2
    const half = Math.min(web / 2, 0.7 * radius)
    const meets = Math.sqrt(radius ** 2 - half ** 2)
    const trapeze = ((web + 2 * half) / 2) * (height - base.thickness - meets)
    const turn = 2 * Math.asin(half / radius)
    // What the boss takes of the trapeze: the segment over its upper side.
    const segment = (radius ** 2 / 2) * (turn - Math.sin(turn))
    const deep = 0.75 * Math.min(base.deep, boss.length)
    const volume = foot + ring + (trapeze - segment) * deep
    expect(partMass(job.part, []).computedMass).toBeCloseTo(volume * job.part.density * 1e-9, 3)
  })
})

test('a click near a flat lays it on the shelf, one beside every flat does not', () => {
  const start = bearingBlock()
  let job = start
  let put = 0
  const port: ToolPort = {
    get job() {
      return job
    },
    setupId: id(start),
    mounted: null,
    selection: null,
    select: () => undefined,
    show: () => undefined,
    hover: () => undefined,
    guide: () => undefined,
    pan: () => undefined,
    begin: () => undefined,
    replace: (next) => void (job = next),
    commit: () => undefined,
    cancel: () => undefined,
    length: String,
  }
  const tool = new FlatTool(port, () => void put++)
  const at = (x: number, y: number): PointerInput => ({
    world: { x, y },
    screen: { x: 0, y: 0 },
    pxPerMm: 2,
    shift: false,
    alt: false,
    touch: false,
    time: 0,
  })
  tool.up(at(0, 100))
  expect([job, put]).toEqual([start, 0])
  tool.up(at(76, -50))
  expect(flatLaid(job, setupOf(job))?.direction).toBeCloseTo(0, 6)
  expect(put).toBe(1)
})

type TagItem = Extract<SceneItem, { kind: 'text' }>

describe('the side view', () => {
  const mounted = mountSetup(bearingBlock(), id(bearingBlock()))

  test('finds the part, what stands on its shelf and the shelf', () => {
    expect(sideHit(mounted, { x: 50, y: 30 }, 4)).toEqual({ kind: 'part' })
    expect(sideHit(mounted, { x: 118, y: -70 }, 4)).toEqual({ kind: 'piece', id: 'A1' })
    expect(sideHit(mounted, { x: 200, y: 90 }, 4)).toBeNull()
  })

  test('a body that lies across and leans is seen by its own outline, in the small picture too', () => {
    const job = bearingBlock()
    const rib: Prism = {
      id: 'rib',
      effect: 'adds',
      across: 0,
      base: -10,
      thickness: 20,
      holes: [],
      outline: [
        { x: 41, y: 0 },
        { x: 71, y: 0 },
        { x: 41, y: 60 },
      ],
    }
    const ribbed = mountSetup({ ...job, part: { ...job.part, bodies: [...job.part.bodies, rib] } }, id(job))
    const large = describeSideWork(ribbed, { selection: null, hover: null }, new Map()).find(
      (i) => i.id === 'side-body:rib',
    )
    const rings = large?.kind === 'region' ? large.rings : []
    const small = sideScene(ribbed).boxes.find((b) => b.id === 'rib')!
    // Extruded along x, it is the triangle that it is drawn as: 900 mm², 14 out from the plate.
    for (const seen of [rings, small.outlines!]) {
      expect(seen.map((r) => r.length)).toEqual([3])
      expect(Math.abs(ringMoments(seen[0]!).area)).toBeCloseTo(900, 6)
    }
    expect([small.z0, small.z1]).toEqual([14, 74])
    // The webs of the angle plate, of which boxes were squares.
    const webs = sideScene(ribbed).boxes.filter((b) => b.id === 'A1' && b.outlines?.[0]?.length === 3)
    expect(webs).toHaveLength(2)
    // In the empty half of its box nothing is taken hold of.
    expect(sideHit(ribbed, { x: 20, y: 60 }, 4)).toEqual({ kind: 'part' })
    expect(sideHit(ribbed, { x: 66, y: 66 }, 4)).toBeNull()
  })

  test('square to the shelf the sizes stand: how far out the part is, and where the chosen piece stands', () => {
    const view = seatView(bearingBlock())
    const texts = (selection: Target | null) =>
      describeShelfSizes(view, selection, null, (mm) => mm.toFixed(2)).flatMap((i) =>
        i.kind === 'text' ? [i.text] : [],
      )
    expect(texts(null)).toEqual(['14.00'])
    // b1 goes through the base 56 from its middle and 40 from the part's back.
    expect(texts({ kind: 'piece', id: 'b1' })).toEqual(['56.00', '54.00'])
    const dragged = describeShelfSizes(view, null, { at: { x: 0, y: 0 }, text: 'x', snapped: false }, String)
    expect(dragged.flatMap((i) => (i.kind === 'text' ? [i.text] : []))).toEqual(['x'])
  })

  test('has every item once', () => {
    const ids = describeSideWork(mounted, { selection: null, hover: null }, new Map()).map((i) => i.id)
    expect(new Set(ids).size).toBe(ids.length)
  })

  test('has the names of pieces that stand one behind the other beside each other, the selected one in its place', () => {
    const job = shippedJob('flat-link')
    const pointed = { selection: { kind: 'piece', id: 'c4' }, hover: null } as const
    const items = describeSideWork(mountSetup(job, id(job)), pointed, new Map())
    const camera = { scale: 1.2, at: { x: 30, y: 0 }, turn: 0 }
    // As they are painted: letters of at most 8 px, 17 px high.
    const place = ({ at, offset, text }: TagItem) => ({
      x: 1.2 * at.x + (offset?.x ?? 0),
      y: -1.2 * at.y + (offset?.y ?? 0),
      w: 8 * text.length + 8,
    })
    const isTag = (i: SceneItem): i is TagItem => i.kind === 'text' && i.role === 'tag'
    const hidden = (all: readonly TagItem[]) =>
      all.flatMap((a, i) =>
        all.slice(i + 1).flatMap((b) => {
          const [p, q] = [place(a), place(b)]
          const over = Math.abs(p.x - q.x) < (p.w + q.w) / 2 && Math.abs(p.y - q.y) < 17
          return over ? [`${a.text} ${b.text}`] : []
        }),
      )
    const tags = items.filter(isTag)
    expect(hidden(tags)).not.toEqual([])
    const moved = setApart(items, camera)
    expect(moved.filter((i) => !isTag(i))).toEqual(items.filter((i) => !isTag(i)))
    const apart = moved.filter(isTag)
    expect(apart.map((t) => t.text)).toEqual(tags.map((t) => t.text))
    expect(hidden(apart)).toEqual([])
    const c4 = (all: readonly TagItem[]) => place(all.find((t) => t.text === 'c4')!)
    expect(c4(apart).x).toBeCloseTo(c4(tags).x, 9)
    expect(c4(apart).y).toBeCloseTo(c4(tags).y, 9)
  })
})

describe('the view square to a shelf', () => {
  test('does not paint a strap across the crown of a round as off the part', () => {
    const view = seatView(castingInVee())
    expect(view.pieces.some((p) => p.toe)).toBe(true)
    expect([...offToes(view)]).toEqual([])
  })

  test('shows all of a part that reaches beyond the shelf', () => {
    const job = bare(shippedJob('flat-link'))
    const view = seatView(addPiece(job, id(job), newAnglePlate(job)).job)
    const x = view.bodies.flatMap((b) => b.regions.flatMap((r) => r.outline.map((p) => p.x)))
    const { x0, x1 } = shelfExtent(view)
    expect(Math.max(...x)).toBeGreaterThan(0.75 * view.shelf!.item.size[0])
    expect(x0).toBeLessThanOrEqual(Math.min(...x))
    expect(x1).toBeGreaterThanOrEqual(Math.max(...x))
  })
})

describe('out of the catalogue and the library', () => {
  const start = bare(bearingBlock())
  const put = (job: Job, kind: 'anglePlate' | 'vee', index: number) => {
    const piece = placed(usualChoice(kind, 'mm', index), job, id(job), mountSetup(job, id(job)))!
    return addPiece(job, id(job), piece).job
  }

  test.each([
    ['anglePlate', 2, bearingBlock()],
    ['vee', 2, castingInVee()],
  ] as const)(
    '%s: put on, it carries the part, is named, weighs what it says, and comes back the same',
    (kind, index, like) => {
      const before = bare(like)
      const job = put(before, kind, index)
      expect(jobFaults(job)).toEqual([])
      const item = shelfIn(job)
      expect(setupOf(job).seat?.on).toBe(item.id)
      const choice = usualChoice(kind, 'mm', index)
      expect(item.name).toBe(nameOf(choice))
      const own = mountSetup(job, id(job)).pieces.find((p) => p.item.id === item.id)!
      const mass = own.solids.filter((s) => s.role === 'fixture').reduce((sum, s) => sum + s.mass, 0)
      expect(mass).toBeCloseTo(massOf(choice)!, 3)
      // Into the shop's library, and out of it into another job.
      const { library } = collect(job, EMPTY_LIBRARY)
      const kept = library.hardware.find((h) => h.value.kind === kind)!
      expect(kept.name).toBe(item.name)
      const copied = standCopied(copyIntoJob(before, id(before), 'hardware', kept), id(before))
      expect(jobFaults(copied)).toEqual([])
      const { id: newId, ...again } = shelfIn(copied)
      const { id: oldId, ...was } = item
      expect(newId).not.toBe(oldId)
      expect(again).toEqual(was)
      expect(setupOf(copied).seat?.on).toBe(newId)
      expect(offers(copied, library)).toEqual([])
    },
  )

  test('of another material it is named and weighed so; a second one leaves the part where it is', () => {
    const steel = { ...usualChoice('anglePlate', 'mm'), material: 'mild steel' }
    expect(nameOf(steel)).toContain('mild steel')
    const job = put(start, 'anglePlate', 1)
    const two = addPiece(job, id(job), placed(steel, job, id(job), null)!).job
    expect(setupOf(two).seat?.on).toBe('A1')
    expect(setupOf(two).hardware.at(-1)).toMatchObject({ id: 'A2', density: 7850 })
  })

  test('what is put down in inches measures whole sixteenths, and weighs what its catalogue says', () => {
    const inch = { ...bare(bearingBlock()), displayUnits: 'in' as const }
    const sixteenths = (mm: number) => (mm / 25.4) * 16
    const plate = newAnglePlate(inch)
    const on = addPiece(inch, id(inch), plate)
    const block = findSetup(putVeeBlock(on.job, id(inch), plateOf(on.job)).job, id(inch)).hardware.at(
      -1,
    ) as Vee
    const vee = newVee(inch, 63.5)
    const sized = usualBlock(2.5 * 25.4, 'in')
    const stands = block.at as { along: number; out: number }
    for (const mm of [
      ...plate.size,
      plate.thickness,
      ...plate.slots.flatMap((s) => [s.x, s.y, s.length, s.width]),
      ...block.size,
      block.opening,
      block.foot.thickness,
      stands.out,
      ...vee.size,
      vee.opening,
      vee.foot.length,
      vee.foot.thickness,
      ...vee.holes.flatMap((h) => [h.x, h.y]),
      sized.base.along,
      sized.base.deep,
      sized.base.thickness,
      sized.slots.apart,
      sized.slots.width,
      sized.web,
      sized.boss.diameter,
      sized.boss.length,
      sized.bore.diameter,
      sized.bore.start,
    ])
      // prettier-ignore
      expect(Math.abs(sixteenths(mm) - Math.round(sixteenths(mm))), `${mm} mm`).toBeLessThan(1e-3)
    expect(blockFault(sized)).toBeNull()
    const choice = usualChoice('vee', 'in', 1)
    const put = placed(choice, inch, id(inch), null) as Vee
    const foot = put.foot.length * put.foot.thickness * put.size[0]
    const mouth = (put.opening * put.opening) / 4
    const volume = (put.size[0] * put.size[1] - mouth) * put.size[2] + foot
    expect(massOf(choice)).toBeCloseTo(volume * put.density! * 1e-9, 3)
  })

  test('a hole of an angle plate that is taken out is gone', () => {
    const at = addPiece(start, id(start), newAnglePlate(start))
    const bored = editPiece(at.job, id(start), at.id, (p) => {
      if (p.kind === 'anglePlate') p.holes = [{ id: 'H1', x: 0, y: 40, diameter: 12, thread: 'M12' }]
    })
    const next = removeHoleOf(bored, id(start), at.id, 'H1')
    expect(plateOf(bored).holes).toHaveLength(1)
    expect(plateOf(next).holes).toEqual([])
  })

  test('usual vees have room for their studs from the least round on, in both units', () => {
    for (const round of [10, 25, 33, 40, 63.5, 90, 200])
      for (const displayUnits of ['mm', 'in'] as const) {
        const job = { ...start, displayUnits }
        expect(jobFaults(addPiece(job, id(job), newVee(job, round)).job), `${round} ${displayUnits}`).toEqual(
          [],
        )
      }
  })
})
