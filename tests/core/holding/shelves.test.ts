/** A part on an angle plate and a round in a vee: their joints by hand, laws, and what does not hold. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { circleRing, rectRing } from '../../../src-core/geometry/edges.ts'
import { placeShelf } from '../../../src-core/holding/placeShelf.ts'
import { jobFaults } from '../../../src-core/job/faults.ts'
import type { AnglePlate, Clamp, Hardware, Job, Vee } from '../../../src-core/job/schema.ts'
import { partStand } from '../../../src-core/holding/stand.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { shelfSize } from '../../../src-core/mounting/shelfSize.ts'
import { changed, turnedAbout, withHardware } from '../../helpers/edited.ts'
import { block, SHELF_EXAMPLES, shelfExample } from '../../helpers/jobs.ts'
import { expectNear } from '../../helpers/near.ts'
import {
  ANGLE_PLATE,
  BEARING_BLOCK,
  bearingBlock,
  CASTING,
  castingInVee,
  CENTRE_HEIGHT,
  overCrown,
} from '../../helpers/shelfJobs.ts'
import { expectTurned, joint, of, said, STILL } from '../../helpers/judged.ts'

const G = 9.80665
/** Low side of 60 N·m on M12: T/(K·D) less a quarter. N */
const LOW = (60_000 / (0.2 * 12)) * 0.75

const shelfAt = (job: Job, y: number): Job =>
  changed(job, job.setups[0]!.hardware[0]!.id, (h) => ({ ...(h as AnglePlate), at: { x: 0, y } }))

describe('a bearing block on an angle plate', () => {
  const job = bearingBlock([], STILL)

  test('is sound and held', () => {
    expect(jobFaults(job)).toEqual([])
    expect(of(bearingBlock()).joints.map((j) => j.id)).toEqual(['part', 'A1'])
    for (const j of of(bearingBlock()).joints) expect(j.factor!).toBeGreaterThan(2)
    const against = of(bearingBlock()).findings.filter((f) => f.effect !== 'none')
    // Nothing but the weight that nothing balances yet.
    expect([...new Set(against.map((f) => f.code))]).toEqual(['unbalance-over-limit', 'speed-above-ceiling'])
  })

  test('at rest: two bolts along the shelf’s normal against weight that pulls across and off the shelf', () => {
    const mass = of(job).part.mass_kg
    const { sliding, tipping, at } = joint(job, 'part')
    // Weight and bolts at one distance from the plate: no turning about the normal.
    expectNear(sliding!, (0.1 * 2 * LOW) / (mass * G), { rel: 2e-3 })
    // Over an end of the base, 75 from the middle: pulled off there and pushed across at its own height.
    const height = CENTRE_HEIGHT + of(job).part.centroid_mm[1]
    expectNear(tipping!, (2 * LOW * 75) / (mass * G * Math.hypot(75, height)), { rel: 2e-3 })
    expect(at!.y).toBeCloseTo(-CENTRE_HEIGHT, 6)
  })

  test('its bolts stand where they go through the part, along the shelf’s normal', () => {
    const mounted = mountSetup(job, 'op10')
    const b1 = mounted.pieces.find((p) => p.item.id === 'b1')!
    const stud = b1.solids.find((s) => s.role === 'stud')!
    // Seen against the shelf's normal x points left: −56 is right of the axis.
    expect(b1.at.x).toBeCloseTo(56, 9)
    expect(stud.massCentre.x).toBeCloseTo(56, 9)
    expect([stud.z0, stud.z1]).toEqual([14 + 40 - 6, 14 + 40 + 6])
    expect(stud.lies!.z0).toBeLessThan(-ANGLE_PLATE.thickness)
    // Of 20 of the base the washer lies on top.
    const washer = b1.solids.find((s) => s.role === 'washer')!
    expect(washer.lies!.z0).toBeCloseTo(20, 6)
    expect(mounted.shelves!.map((s) => s.shelf!.item.id)).toEqual(['A1'])
  })

  test('the angle plate is foot, shelf and webs: mass and centre by hand', () => {
    const a1 = mountSetup(job, 'op10').pieces.find((p) => p.item.id === 'A1')!
    const own = a1.solids.filter((s) => s.role === 'fixture')
    const iron = 7200e-9
    const [foot, shelf] = [175 * 100 * 16, 175 * 16 * (125 - 16)]
    const webs = 2 * 14 * ((100 - 16) * (125 - 16)) * 0.5
    expectNear(
      own.reduce((m, s) => m + s.mass, 0),
      (foot + shelf + webs) * iron,
      { rel: 1e-12 },
    )
    const z = (foot * 8 + shelf * (16 + 109 / 2) + webs * (16 + 109 / 3)) / (foot + shelf + webs)
    const centre = own.reduce((sum, s) => sum + s.mass * s.massCentre.z, 0)
    expectNear(centre / own.reduce((m, s) => m + s.mass, 0), z, { rel: 1e-12 })
  })

  test('more torque, less speed and a lighter part never lower its factor', () => {
    const at = (torque: number) =>
      joint(
        changed(bearingBlock(), 'b1', (h) => ({ ...h, torque }) as Hardware),
        'part',
      ).factor!
    expect(at(70)).toBeGreaterThan(at(60))
    expect(joint(bearingBlock([], { speed: 240 }), 'part').factor!).toBeLessThanOrEqual(
      joint(bearingBlock([], { speed: 110 }), 'part').factor!,
    )
  })
})

test('the examples that come with the program may run', () => {
  for (const name of SHELF_EXAMPLES) {
    const job = shelfExample(name)
    const a = analyse(job, job.setups[0]!.id)
    expect([name, a.verdict.state]).toEqual([name, 'go'])
    expect(a.findings.filter((f) => f.effect !== 'none')).toEqual([])
    expect(a.joints.every((j) => (j.factor ?? 0) >= 2)).toBe(true)
  }
})

describe('turned about the axis, part, fixture and plate together', () => {
  test.each([
    ['an angle plate', bearingBlock()],
    ['a vee', castingInVee()],
  ])('changes no figure but angles: %s', (_, job) => {
    expectTurned(job, turnedAbout(job, 41), 41)
  })
})

describe('what does not lie on its shelf', () => {
  test('a shelf too low or too high is told with the size to set', () => {
    expect(said(shelfAt(bearingBlock(), -64.5), 'part-off-shelf')[0]).toBe(
      'The part stands 1.00 mm off the shelf of A1. Set the shelf 63.50 mm from the axis; it stands at 64.50 mm.',
    )
    const high = shelfAt(bearingBlock(), -60)
    expect(said(high, 'part-off-shelf')[0]).toMatch(/^The part reaches 3\.50 mm into the shelf of A1/)
    expect(said(high, 'part-clash').length).toBeGreaterThan(0)
    expect(of(high).verdict.state).toBe('stop')
  })

  test('each has its place on the plate, and no other finding sends one elsewhere', () => {
    const turnedAlone = bearingBlock([], { turn: 3 })
    const cases = [
      [shelfAt(bearingBlock(), 15), 'shelf-above-axis'],
      [shelfAt(bearingBlock(), 15), 'part-off-shelf'],
      [shelfAt(bearingBlock(), -64.5), 'part-off-shelf'],
      [turnedAlone, 'part-off-shelf'],
      [shelfAt(castingInVee(), 15), 'part-off-vee'],
    ] as const
    for (const [job, code] of cases) {
      const found = of(job).findings.find((f) => f.code === code)!
      const shelf = job.setups[0]!.hardware[0]! as AnglePlate
      expect([code, found.at]).toEqual([code, shelf.at])
      for (const clash of said(job, 'part-clash')) expect(clash).toMatch(/First let the part lie on [AV]1\.$/)
    }
    // Its base lies at a slant then: no size would lay it down.
    expect(said(turnedAlone, 'part-off-shelf')[0]).toMatch(
      /^The part does not lie flat on the shelf of A1: .* Turn the part or the angle plate until its base faces the shelf\.$/,
    )
  })

  test('no size to set drives a shelf into a base that lies at a slant to it', () => {
    const job = bearingBlock([], { turn: 3 })
    const size = shelfSize(partStand(mountSetup(job, job.setups[0]!.id)))!
    // The corner of a base of 150 that stands 63.5 from the bore.
    const [c, s] = [Math.cos((3 * Math.PI) / 180), Math.sin((3 * Math.PI) / 180)]
    expect(size.wanted).toBeCloseTo(63.5 * c + 75 * s, 6)
  })

  test('a vee whose lands would stand beyond the axis is too large, no size to set', () => {
    const job = withHardware(castingInVee(), (h) =>
      h.kind === 'vee' ? { ...h, opening: 120, size: [240, 70, 110] } : h,
    )
    // The round's middle lies 60 − 40/sin 45° below the lands, the bore 12 mm below that.
    expect(said(job, 'part-off-vee')[0]).toMatch(
      /the lands would stand 15\.43 mm beyond the axis\. Use a smaller vee/,
    )
  })

  test('a shelf above the axis, with what it would cost', () => {
    expect(said(shelfAt(bearingBlock(), 5), 'shelf-above-axis')[0]).toMatch(
      /^The shelf of A1 stands above the axis: its face lies 5 mm beyond it/,
    )
  })

  test('a part that is turned off the shelf touches along an edge alone', () => {
    const job = bearingBlock([], { turn: 7 })
    const foot = { ...block('foot', { x: 0, y: -53.5 }, [150, 20, 80]) }
    const bodies = [foot, ...BEARING_BLOCK.slice(1)]
    const turned = placeShelf({ ...job, part: { ...job.part, bodies } }, 'op10')!.job
    expect(of(turned).verdict.state).toBe('stop')
    expect(joint(turned, 'part').factor ?? 0).toBeLessThan(1)
  })

  test('a foot over the rim and over the bore', () => {
    const moved = (facing: number, y: number) =>
      changed(bearingBlock(), 'A1', (h) => ({ ...(h as AnglePlate), facing, at: { x: 0, y } }))
    expect(said(moved(90, -110), 'foot-overhangs')[0]).toMatch(
      /^Angle plate A1 hangs over the plate's rim\. Move it onto solid plate/,
    )
    expect(said(moved(90, 20), 'foot-overhangs')[0]).toMatch(/the plate's bore/)
  })

  test('an angle plate without bolts is not judged', () => {
    const bare = changed(bearingBlock(), 'A1', (h) => ({ ...(h as AnglePlate), bolts: [] }))
    expect(joint(bare, 'A1').factor).toBeNull()
    expect(said(bare, 'joint-not-judged')[0]).toMatch(/how it is bolted to the plate is not given/)
  })

  test('bolts beside the slots of the shelf hold nothing', () => {
    const off = changed(bearingBlock(), 'A1', (h) => ({
      ...(h as AnglePlate),
      slots: (h as AnglePlate).slots.slice(1),
    }))
    expect(said(off, 'bolt-in-solid')[0]).toMatch(/no slot or hole of the shelf of A1 lies behind its bolt/)
    expect(of(off).verdict.state).toBe('stop')
  })

  test('a bolt through solid base is told', () => {
    const solid = bearingBlock()
    const bodies = solid.part.bodies.map((b) => (b.id === 'base' ? { ...b, holes: [] } : b))
    const { findings } = of({ ...solid, part: { ...solid.part, bodies } })
    const codes = findings.map((f) => f.code)
    expect(codes).toContain('bolt-covered')
    expect(codes).toContain('joint-slides')
    // Places as seen from in front have no height.
    for (const { at } of findings) expect(Object.keys(at ?? { x: 0, y: 0 })).toEqual(['x', 'y'])
  })

  test('a clamp that stands on the plate does not press the part on the shelf', () => {
    const strap = overCrown('c9', 'x', 270, { at: { slot: 'S4', radius: 100 } })
    const job = bearingBlock([strap])
    expect(said(job, 'clamp-off-seat')[0]).toMatch(/^c9 does not press the part on the shelf of A1/)
    expect(of(job).verdict.state).toBe('stop')
  })

  test('a body at a slant to the shelf leaves it not judged', () => {
    const job = bearingBlock()
    const rib = {
      ...block('rib', { x: 0, y: 0 }, [1, 1, 6]),
      across: 120,
      base: 41,
      outline: rectRing({ x: 0, y: 40 }, 10, 10, 0),
    }
    const slanted = { ...job, part: { ...job.part, bodies: [...job.part.bodies, rib] } }
    expect(said(slanted, 'body-slanted')).toHaveLength(1)
    expect(['stop', 'not-judged']).toContain(of(slanted).verdict.state)
  })

  test('a round part lies on a shelf along a line: nothing to stand on', () => {
    const job = bearingBlock()
    const round = {
      ...block('round', { x: 0, y: 0 }, [1, 1, 80]),
      outline: circleRing({ x: 0, y: 0 }, 2 * CENTRE_HEIGHT),
    }
    const rolled = { ...job, part: { ...job.part, bodies: [round, BEARING_BLOCK[1]!] } }
    expect(joint(rolled, 'part').factor ?? 0).toBeLessThan(1)
  })
})

describe('the size to set', () => {
  test('is worked out to the hundredth, and the shelf goes there', () => {
    const off = shelfAt(bearingBlock(), -70.123)
    const { job, size, misses } = placeShelf(off, 'op10')!
    expect(size).toBe(63.5)
    expect(misses).toEqual([])
    expect(said(job, 'part-off-shelf')).toEqual([])
    expect(of(job).joints[0]!.factor).toBeCloseTo(of(bearingBlock()).joints[0]!.factor!, 9)
  })

  test('says when its bolts then miss the slots', () => {
    const wide = changed(shelfAt(bearingBlock(), -70), 'A1', (h) => ({
      ...(h as AnglePlate),
      bolts: [{ ...(h as AnglePlate).bolts[0]!, at: { x: -45, y: 40 } }],
    }))
    const { misses } = placeShelf(wide, 'op10')!
    expect(misses[0]).toMatch(/^A1 is bolted through solid plate/)
  })

  test('of a vee brings its middle under the round too', () => {
    const off = changed(castingInVee(), 'V1', (h) => ({ ...(h as Vee), at: { x: 3, y: -20 } }))
    expect(said(off, 'part-off-vee')[0]).toMatch(/Set the lands 13\.57 mm from the axis/)
    const { job, size } = placeShelf(off, 'op10')!
    expect(size).toBe(13.57)
    expect(said(job, 'part-off-vee')).toEqual([])
  })

  test('is none where nothing is seated on a shelf', () => {
    expect(placeShelf(bearingBlock([], { seat: null }), 'op10')).toBeNull()
  })
})

describe('a round in a vee', () => {
  const still = castingInVee([], STILL)
  /** Low side of both straps at their toes. N */
  const pressing = (job: Job) => of(job).clamping!.clamps.reduce((sum, c) => sum + c.work_force_N, 0)

  test('is sound and held', () => {
    expect(jobFaults(castingInVee())).toEqual([])
    expect(of(castingInVee()).joints.map((j) => j.id)).toEqual(['part', 'V1', 'c1', 'c2'])
    for (const j of of(castingInVee()).joints) expect(j.factor!).toBeGreaterThan(2)
  })

  test('at rest it holds against turning by its flanks alone', () => {
    const { mass_kg: mass, centroid_mm: centre } = of(still).part
    // Weight of what is off the round's middle turns it; nothing acts along the vee.
    const moment = mass * G * Math.hypot(centre[0], centre[1])
    const half = Math.PI / 4
    const grip = (0.1 * pressing(still) * (CASTING.diameter / 2)) / (Math.sin(half) * (1 + 0.1 ** 2))
    expectNear(joint(still, 'part').sliding!, grip / moment, { rel: 2e-3 })
  })

  test('too small and too large a vee, and a round that is not there', () => {
    const vee = (change: Partial<Vee>) => changed(castingInVee(), 'V1', (h) => ({ ...(h as Vee), ...change }))
    expect(said(vee({ opening: 40 }), 'part-off-vee')[0]).toMatch(
      /^The vee V1 is too small for a round of 80 mm/,
    )
    expect(said(vee({ opening: 220, size: [300, 130, 110] }), 'part-off-vee')[0]).toMatch(
      /^The vee V1 is too large for a round of 80 mm: that sinks/,
    )
    const seat = (diameter: number | null) => castingInVee([], { seat: { on: 'V1', standOff: 12, diameter } })
    expect(said(seat(70), 'part-off-vee')[0]).toMatch(/^No round of 70 mm is drawn/)
    expect(of(seat(null)).verdict.state).not.toBe('go')
    expect(said(seat(null), 'vee-unjudged')).toHaveLength(1)
  })

  test('a strap whose toe misses the crown holds nothing', () => {
    const short = changed(castingInVee(), 'c1', (h) => ({ ...h, facing: 90 }) as Hardware)
    expect(of(short).verdict.state).toBe('stop')
    expect(joint(short, 'part').factor!).toBeLessThan(joint(castingInVee(), 'part').factor!)
  })

  test('a strap on a flat beside the crown leaves it not judged', () => {
    const job = castingInVee()
    const ledge = block('ledge', { x: -27, y: 45 }, [26, 30, 100])
    const beside = changed(
      { ...job, part: { ...job.part, bodies: [...job.part.bodies, ledge] } },
      'c2',
      (h) => ({ ...h, strap: { ...(h as Clamp).strap, boltFrom: 26, length: 102 } }) as Hardware,
    )
    expect(joint(beside, 'part').factor).toBeNull()
    expect(['stop', 'not-judged']).toContain(of(beside).verdict.state)
  })

  test('without straps nothing holds', () => {
    const job = castingInVee()
    const bare = {
      ...job,
      setups: job.setups.map((s) => ({ ...s, hardware: s.hardware.filter((h) => h.kind !== 'clamp') })),
    }
    expect(joint(bare, 'part').factor).toBe(0)
    expect(said(bare, 'no-clamp')).toHaveLength(1)
  })
})
