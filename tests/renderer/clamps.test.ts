/** Clamps as whole things: put on four at a time, dragged, aimed, copied; what does not hold shows at once. */
import { describe, expect, test } from 'vitest'
import { rectRing, circleRing } from '../../src-core/geometry/edges.ts'
import { distanceToRegion } from '../../src-core/geometry/nearest.ts'
import { clashFindings } from '../../src-core/clearance/clashes.ts'
import { checkJob } from '../../src-core/job/parse.ts'
import { centredReach } from '../../src-core/hardware/straps.ts'
import { isStationed, type Box, type Clamp, type Job } from '../../src-core/job/schema.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { toeShortfall } from '../../src-core/holding/toeContact.ts'
import { toeLies } from '../../src-core/mounting/toeLies.ts'
import { sideScene } from '../../src-renderer/components/sideView.ts'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { USUAL_ANGLE_PLATES } from '../../src-core/hardware/shelves.ts'
import { clampOnPart, likeIt } from '../../src-renderer/editor/edits/putPiece.ts'
import { newAnglePlate, usualForm } from '../../src-renderer/editor/edits/shelves.ts'
import {
  putStraps,
  strapsWords,
  usualPattern,
  usualStrapOn,
} from '../../src-renderer/editor/edits/fourStraps.ts'
import { placeInSlot } from '../../src-renderer/editor/edits/clampPlace.ts'
import type { Piece } from '../../src-renderer/editor/edits/edit.ts'
import { newDowel, newStop } from '../../src-renderer/editor/edits/newHolds.ts'
import { removeHoleOf } from '../../src-renderer/editor/edits/fixtures.ts'
import { moveNose, movePiece, placeNose, turnPiece } from '../../src-renderer/editor/edits/hardware.ts'
import { setTurn } from '../../src-renderer/editor/edits/mounting.ts'
import { setPacking, newPacking, underPart } from '../../src-renderer/editor/edits/packingPlace.ts'
import { pressToClamp, unsaidOf } from '../../src-renderer/editor/edits/pressToClamp.ts'
import { addPiece } from '../../src-renderer/editor/edits/hardware.ts'
import { hitTest } from '../../src-renderer/editor/hitTest.ts'
import { describeWork } from '../../src-renderer/scene/work.ts'
import { blankJob, START } from '../../src-renderer/state/blankJob.ts'
import { bearingBlock, castingInVee } from '../helpers/shelfJobs.ts'
import { onSubPlate } from '../helpers/walkJobs.ts'
import { exampleJob } from './example.ts'

const four = (job: Job) => putStraps(job, 'op10', usualPattern(job, 'op10'))
const plain = blankJob(START)
const put = four(plain)
const mounted = mountSetup(put.job, 'op10')
const clampOf = (job: Job, id: string): Clamp => {
  const found = job.setups[0]!.hardware.find((h) => h.id === id)
  if (found?.kind !== 'clamp') throw new Error(`no clamp ${id}`)
  return found
}
/** `c1` moved along its slot until its toe is off the part. */
const at = clampOf(put.job, 'c1').at as { slot: string; radius: number }
const slidOut = movePiece(put.job, 'op10', 'c1', { slot: at.slot, radius: at.radius + 20 })

describe('four straps', () => {
  test('hold from all round, each toe wholly on the part, none where a place is refused', () => {
    expect(put.ids).toEqual(['c1', 'c2', 'c3', 'c4'])
    expect(checkJob(JSON.parse(serialiseJob(put.job))).ok).toBe(true)
    for (const piece of mounted.pieces) {
      const { pad, rest } = piece.toe!
      expect(rest!.z).toBe(32)
      for (const v of pad) expect(distanceToRegion(mounted.bodies[0]!.regions[0]!, v)).toBe(0)
    }
    const used = new Set(put.ids.map((id) => (clampOf(put.job, id).at as { slot: string }).slot))
    for (const r of put.refused) expect(used).not.toContain(r.where.replace('slot ', ''))
  })
  test('none is put over the edge of a round weight that is there', () => {
    const turned = setTurn(plain, 'op10', 90)
    const slot = plain.plate.slots.find((s) => s.angle === 0)!
    const bare = mountSetup(turned, 'op10')
    const pattern = usualPattern(turned, 'op10')
    const free = placeInSlot(bare, slot, pattern)
    if (!('clamp' in free)) throw new Error(free.reason)
    // Its middle is beside the strap, its edge comes under it.
    const weight: Piece<Box> = {
      kind: 'counterweight',
      mass: 1,
      at: { x: (free.clamp.at as { radius: number }).radius, y: -free.clamp.strap.width / 2 - 20 },
      footprint: { circle: 60 },
      base: 0,
      height: 60,
      fixed: true,
    }
    const weighted = addPiece(turned, 'op10', weight).job
    const place = placeInSlot(mountSetup(weighted, 'op10'), slot, pattern)
    if (!('clamp' in place)) return expect(place.reason).toBe('other hardware is in the way')
    const { job } = addPiece(weighted, 'op10', place.clamp)
    const clashes = clashFindings(mountSetup(job, 'op10')).filter((c) => c.code === 'hardware-clash')
    expect(clashes).toEqual([])
  })
  test('over a pocket, an edge or the bore a place is refused with the reason', () => {
    const part = plain.part
    const body = part.bodies[0]!
    const pocket = (outline: ReturnType<typeof rectRing>): Job => ({
      ...plain,
      part: {
        ...part,
        bodies: [body, { id: 'pocket', effect: 'removes', outline, holes: [], base: 5, thickness: 15 }],
      },
    })
    const pocketed = four(pocket(rectRing({ x: 0, y: 0 }, 136, 86, 0)))
    expect(pocketed.ids).toEqual([])
    expect(strapsWords(pocketed)).toMatch(/^No strap holds here\. Refused: .*(over a pocket|in the way)/)
    // A ring 7 mm wide, a toe 8 mm long.
    const ring = { ...body, outline: circleRing({ x: 35, y: 0 }, 84) } as typeof body
    const bores = part.bores.map((b) => ({ ...b, diameter: 70 }))
    const bored = four({ ...plain, part: { ...part, bores, bodies: [ring] } })
    expect(bored.ids).toEqual([])
    expect(strapsWords(bored)).toContain('over bore A')
    expect(put.refused.some((r) => r.reason === 'the toe would lie over an edge of the part')).toBe(true)
  })
})

describe('a clamp is one thing', () => {
  test('slid along its slot it goes with heel, stud and packing, and its toe is short by as much as it hangs over', () => {
    const before = mounted.pieces.find((p) => p.item.id === 'c1')!
    const out = mountSetup(slidOut, 'op10')
    const after = out.pieces.find((p) => p.item.id === 'c1')!
    for (const [i, s] of after.solids.entries()) {
      const was = before.solids[i]!.massCentre
      expect(Math.hypot(s.massCentre.x - was.x, s.massCentre.y - was.y)).toBeCloseTo(20, 9)
    }
    expect(toeLies(out, after.toe!)).not.toBeNull()
    // Its pad's inner end stood `inside` mm from the edge; slid out by 20 mm it lacks 20 − inside + the pad's length.
    const region = out.bodies[0]!.regions[0]!
    const short = toeShortfall(out, after)!
    const moved = after.toe!.pad.map((v) => ({
      x: v.x + short * Math.cos((after.facing * Math.PI) / 180),
      y: v.y + short * Math.sin((after.facing * Math.PI) / 180),
    }))
    const off = Math.max(...moved.map((v) => distanceToRegion(region, v)))
    expect(off).toBeLessThan(0.15)
    expect(Math.max(...after.toe!.pad.map((v) => distanceToRegion(region, v)))).toBeCloseTo(short, 0)
  })
  test('the picture and the side view show it red at once, and plain again when it is put back', () => {
    const roles = (job: Job) =>
      describeWork(mountSetup(job, 'op10'), { selection: null, hover: null }, new Map())
        .filter((i) => i.id === 'piece:c1')
        .map((i) => i.role)
    const kinds = (job: Job) =>
      sideScene(mountSetup(job, 'op10'))
        .boxes.filter((b) => b.id === 'c1')
        .map((b) => b.kind)
    expect(roles(slidOut)).toEqual(['strap-off'])
    expect(kinds(slidOut)).toContain('strap-off')
    const back = movePiece(slidOut, 'op10', 'c1', at)
    expect(roles(back)).toEqual(['clamp'])
    expect(new Set(kinds(back))).toEqual(new Set(['packing', 'heel', 'clamp', 'stud', 'nut']))
    expect(clampOf(back, 'c1')).toEqual(clampOf(put.job, 'c1'))
  })
  test('the side view has every solid at its own heights', () => {
    const piece = mounted.pieces[0]!
    const boxes = sideScene(mounted).boxes.filter((b) => b.id === piece.item.id)
    const sorted = (list: readonly { z0: number; z1: number }[]) => list.map((b) => [b.z0, b.z1]).sort()
    expect(sorted(boxes)).toEqual(sorted(piece.solids))
    const heel = boxes.find((b) => b.kind === 'heel')!
    expect([heel.z0, heel.z1]).toEqual([0, mounted.partFront])
  })
  test('its toe turns it about its bolt, whose place stays', () => {
    const c1 = mounted.pieces.find((p) => p.item.id === 'c1')!
    const aim = { x: c1.at.x - 30, y: c1.at.y - 30 }
    const turned = clampOf(moveNose(put.job, 'op10', 'c1', aim), 'c1')
    expect(turned.facing).toBeCloseTo(225, 9)
    expect(turned.at).toEqual(clampOf(put.job, 'c1').at)
    expect(clampOf(turnPiece(put.job, 'op10', 'c1', 15), 'c1').facing).toBe(
      (clampOf(put.job, 'c1').facing + 15) % 360,
    )
  })
  test('a bolt slid along its slot keeps what the toe points at; in another slot it turns along', () => {
    const aslant = moveNose(put.job, 'op10', 'c1', { x: 20, y: 30 })
    const toe = mountSetup(aslant, 'op10').pieces.find((p) => p.item.id === 'c1')!
    const end = (() => {
      const c = clampOf(aslant, 'c1')
      const a = (c.facing * Math.PI) / 180
      return { x: toe.at.x + c.strap.boltFrom * Math.cos(a), y: toe.at.y + c.strap.boltFrom * Math.sin(a) }
    })()
    const slid = movePiece(aslant, 'op10', 'c1', { slot: at.slot, radius: at.radius + 15 })
    const bolt = mountSetup(slid, 'op10').pieces.find((p) => p.item.id === 'c1')!.at
    const wanted = (Math.atan2(end.y - bolt.y, end.x - bolt.x) * 180) / Math.PI
    expect(clampOf(slid, 'c1').facing).toBeCloseTo((wanted + 360) % 360, 0)
    const hopped = clampOf(movePiece(put.job, 'op10', 'c1', { slot: 'S1', radius: 100 }), 'c1')
    const turnOf = (id: string) => plain.plate.slots.find((s) => s.id === id)!.angle
    const before = clampOf(put.job, 'c1').facing - turnOf(at.slot)
    expect((hopped.facing - turnOf('S1') - before + 720) % 360).toBeCloseTo(0, 6)
  })
  test('it is taken hold of by its heel too', () => {
    const c1 = mounted.pieces.find((p) => p.item.id === 'c1')!
    const { massCentre } = c1.solids.find((s) => s.role === 'heel')!
    expect(hitTest(mounted, null, massCentre, 2)).toEqual({ kind: 'piece', id: 'c1' })
  })
})

describe('packing is a place under the part', () => {
  test('as high as the setup is packed up, whatever that is changed to', () => {
    const { job } = addPiece(plain, 'op10', newPacking({ x: -50, y: 0 }, 12))
    const higher = setPacking(job, 'op10', 20)
    expect(higher.setups[0]!.hardware[0]).toMatchObject({ height: 20, mass: expect.closeTo(0.0981, 3) })
  })
  test('beside the part the nearest place under it is known', () => {
    expect(underPart(mounted, { x: -50, y: 0 })).toEqual({ under: true, nearest: { x: -50, y: 0 } })
    expect(underPart(mounted, { x: -50, y: 80 })).toEqual({ under: false, nearest: { x: -50, y: 45 } })
  })
})

describe('what a job of the older form could not say', () => {
  test('every press and every box without bolts is named; a press becomes a clamp where and as it stood', () => {
    const job = exampleJob()
    const hardware = job.setups[0]!.hardware
    const presses = hardware.filter((h) => h.kind === 'press')
    expect(presses.length).toBeGreaterThan(0)
    const missing = unsaidOf(job).filter((u) => u.setup === 'op10')
    expect(missing.filter((u) => u.lacks === 'press').map((u) => u.id)).toEqual(presses.map((p) => p.id))
    const [press] = presses
    if (press?.kind !== 'press') throw new Error('no press')
    const next = pressToClamp(job, 'op10', press.id)
    const clamp = clampOf(next, press.id)
    expect(clamp).toMatchObject({ at: press.at, torque: press.press!.torque, name: press.name })
    expect(clamp.stud).toMatchObject({ thread: press.press!.thread, class: press.press!.class })
    expect(clamp.facing).toBeCloseTo(press.facing!, 6)
    expect(next.setups[0]!.hardware.map((h) => h.id)).toEqual(hardware.map((h) => h.id))
    expect(unsaidOf(next).some((u) => u.setup === 'op10' && u.id === press.id)).toBe(false)
    expect(checkJob(JSON.parse(serialiseJob(next))).ok).toBe(true)
  })
  test('a press without a nose gets one a strap’s reach nearer the axis, and faces it, in one step', () => {
    const job = exampleJob()
    const [setup] = job.setups
    const pressed = (at: Box['at'], size: number): Box => {
      const bare = {
        ...setup!.hardware.find((h) => h.kind === 'press')!,
        id: 'c9',
        at,
        footprint: { rect: [size, 40] },
        press: null,
      } as Box
      const next = placeNose({ ...job, setups: [{ ...setup!, hardware: [bare] }] }, setup!.id, bare)
      expect(checkJob(JSON.parse(serialiseJob(next))).ok).toBe(true)
      return next.setups[0]!.hardware[0] as Box
    }
    const reach = centredReach(100)
    expect(pressed({ x: 0, y: 150 }, 100)).toMatchObject({
      facing: 270,
      press: { nose: { x: 0, y: Math.round(150 - reach) } },
    })
    // On the axis there is no way inward: any direction does.
    const { press } = pressed({ x: 0, y: 0 }, 100)
    expect(Math.hypot(press!.nose!.x, press!.nose!.y)).toBeCloseTo(reach, 0)
  })
})

describe('a hole of a sub-plate', () => {
  test('is taken out in one step with what stood in it left where it was, now at a plain point', () => {
    const job = onSubPlate()
    const { id: setupId, hardware } = job.setups[0]!
    const held = hardware.filter(
      (h) => isStationed(h) && 'on' in h.at && 'hole' in h.at && h.at.hole === 'H1',
    )
    expect(held.length).toBeGreaterThan(0)
    const before = new Map(mountSetup(job, setupId).pieces.map((p) => [p.item.id, p.at]))
    const next = removeHoleOf(job, setupId, 'F1', 'H1')
    const fixture = next.setups[0]!.hardware.find((h) => h.id === 'F1')!
    expect(fixture.kind === 'fixture' && fixture.holes.map((h) => h.id)).toEqual(['H2', 'H3', 'H4'])
    for (const piece of mountSetup(next, setupId).pieces) {
      expect(piece.at.x).toBeCloseTo(before.get(piece.item.id)!.x, 2)
      expect(piece.at.y).toBeCloseTo(before.get(piece.item.id)!.y, 2)
    }
    for (const { id } of held) {
      const piece = next.setups[0]!.hardware.find((h) => h.id === id)!
      expect(Object.keys(isStationed(piece) ? piece.at : {})).toEqual(['x', 'y'])
    }
    expect(checkJob(JSON.parse(serialiseJob(next))).ok).toBe(true)
  })
})

describe('straps on the shelf that carries the part', () => {
  /** A bored block of 140 along and `deep` out, on an angle plate of 250 with slots at a third of that. */
  const onShelf = (deep: number, more: { slots?: [] } = {}): Job => {
    const job = bearingBlock([], { seat: null, hardware: [] })
    const outline = rectRing({ x: 0, y: 0 }, 140, 80, 0)
    const body = { id: 'block', effect: 'adds' as const, outline, holes: [circleRing({ x: 0, y: 0 }, 38)] }
    const part = { ...job.part, bodies: [{ ...body, base: 0, thickness: deep }] }
    const plated = { ...job, part }
    const [, , usual] = USUAL_ANGLE_PLATES
    const shelf = { ...newAnglePlate(plated), ...usualForm(usual!, 'mm'), ...more }
    return addPiece(plated, 'op10', shelf).job
  }
  const factorOf = (job: Job) => analyse(job, 'op10').joints.find((j) => j.id === 'part')?.factor ?? 0

  test('hold by the checks, each standing on the shelf with its toe on the part', () => {
    const job = onShelf(150)
    const put = four(job)
    expect(put.ids).toEqual(['c1', 'c2', 'c3', 'c4'])
    expect(checkJob(JSON.parse(serialiseJob(put.job))).ok).toBe(true)
    expect(factorOf(job)).toBe(0)
    expect(factorOf(put.job)).toBeGreaterThan(2)
    const against = analyse(put.job, 'op10').findings.filter(
      (f) => put.ids.includes(f.item) && f.effect !== 'none',
    )
    expect(against).toEqual([])
    for (const id of put.ids) expect(clampOf(put.job, id).at).toMatchObject({ on: 'A1' })
    const alongs = put.ids.map((id) => (clampOf(put.job, id).at as { along: number }).along)
    expect(alongs.filter((a) => a > 0)).toHaveLength(2)
  })
  test('one more of the usual strap goes there too, and a copy of it', () => {
    const job = onShelf(150)
    const strap = clampOnPart(usualStrapOn(job, job.setups[0]), job, 'op10', mountSetup(job, 'op10'))!
    expect(strap.at).toMatchObject({ on: 'A1' })
    const one = addPiece(job, 'op10', strap)
    const more = likeIt(clampOf(one.job, one.id), one.job, 'op10', mountSetup(one.job, 'op10'))
    expect('at' in more && more.at).toMatchObject({ on: 'A1' })
    expect(factorOf(addPiece(one.job, 'op10', more).job)).toBeGreaterThan(factorOf(one.job))
  })
  test('a stop and a dowel go there too, and their copies to its other side', () => {
    const job = onShelf(150)
    const mounted = mountSetup(job, 'op10')
    const stop = newStop(job, 'op10', mounted)
    expect(stop).toMatchObject({ at: { on: 'A1', along: -83.5 }, facing: 0 })
    expect(newDowel(job, 'op10', mounted).at).toMatchObject({ on: 'A1' })
    const one = addPiece(job, 'op10', stop)
    const item = one.job.setups[0]!.hardware.find((h) => h.id === one.id)!
    expect(likeIt(item, one.job, 'op10', mounted)).toMatchObject({
      at: { on: 'A1', along: 83.5 },
      facing: 180,
    })
    expect(checkJob(JSON.parse(serialiseJob(one.job))).ok).toBe(true)
  })
  test('where none fits that is said with the reason, slot by slot', () => {
    const covered = four(bare(bearingBlock()))
    expect(covered.ids).toEqual([])
    expect(strapsWords(covered)).toBe(
      'No strap holds on A1. Refused: slot G1: its bolt has no room beside the part; slot G2: its bolt has no room beside the part.',
    )
    expect(strapsWords(four(onShelf(60, { slots: [] })))).toBe(
      'No strap holds on A1. Its shelf has no slots.',
    )
  })
  test('none is put through what stands on the plate', () => {
    const job = onShelf(150)
    const first = mountSetup(four(job).job, 'op10').pieces.find((p) => p.item.id === 'c1')!
    // A post in front of the plate, where that strap would lie.
    const { x, y, z } = first.massCentre
    const post: Piece<Box> = {
      kind: 'other',
      mass: 1,
      at: { x, y },
      footprint: { circle: 10 },
      base: z - 5,
      height: 10,
      fixed: true,
    }
    const put = four(addPiece(job, 'op10', post).job)
    const clashes = clashFindings(mountSetup(put.job, 'op10'))
    expect(put.ids.length).toBeGreaterThan(0)
    expect(clashes.filter((c) => c.code === 'hardware-clash')).toEqual([])
  })
  test('over a vee they go where its lands have holes', () => {
    const put = four(bare(castingInVee(), 'clamp'))
    expect(put.ids).toHaveLength(2)
    expect(factorOf(put.job)).toBeGreaterThan(2)
    expect(strapsWords(four(put.job))).toMatch(/^No strap holds on V1\. No free hole of V1/)
  })
})

/** Without the pieces that hold the part. */
function bare(job: Job, kind: 'bolt' | 'clamp' = 'bolt'): Job {
  return {
    ...job,
    setups: job.setups.map((s) => ({ ...s, hardware: s.hardware.filter((h) => h.kind !== kind) })),
  }
}
