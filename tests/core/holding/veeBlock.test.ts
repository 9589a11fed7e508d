/** A loose vee block on an angle plate: its joint by hand, the size to set, laws, and what takes its hold away. */
import { describe, expect, test } from 'vitest'
import { clashFindings } from '../../../src-core/clearance/clashes.ts'
import { placeShelf } from '../../../src-core/holding/placeShelf.ts'
import { jobFaults } from '../../../src-core/job/faults.ts'
import { parseJob } from '../../../src-core/job/parse.ts'
import type { AnglePlate, Hardware, Job, Vee } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { shelfSize } from '../../../src-core/mounting/shelfSize.ts'
import { changed, turnedAbout, without } from '../../helpers/edited.ts'
import { expectNear } from '../../helpers/near.ts'
import { BOLTED } from '../../helpers/heldJobs.ts'
import { boreCut } from '../../helpers/jobs.ts'
import {
  CASTING,
  castingInBlock,
  fromShelf,
  OVER_SHELF,
  overCrown,
  VEE_BLOCK,
} from '../../helpers/shelfJobs.ts'
import { expectTurned, joint, of, said, STILL } from '../../helpers/judged.ts'

const G = 9.80665

const block = (change: Partial<Vee>, job = castingInBlock()): Job =>
  changed(job, 'V1', (h) => ({ ...(h as Vee), ...change }))
const lying = (along: number, out: number, job = castingInBlock()): Job =>
  block({ at: { on: 'A1', along, out } }, job)
/** Through its lands into the shelf's slots, which then run under it. */
const bolted = (job: Job): Job =>
  changed(block({ bolts: [-42, 42].map((x) => ({ at: { x, y: 60 }, ...BOLTED })) }, job), 'A1', (h) => {
    const plate = h as AnglePlate
    const under = [-42, 42].map((x, i) => ({ ...plate.slots[0]!, id: `U${i}`, x, y: 76, length: 40 }))
    return { ...plate, slots: [...plate.slots, ...under] }
  })

describe('a casting in a loose block', () => {
  const job = castingInBlock()

  test('is sound, held, and clashes with nothing', () => {
    expect(jobFaults(job)).toEqual([])
    expect(parseJob(JSON.stringify(job)).ok).toBe(true)
    expect(of(job).joints.map((j) => [j.id, j.what])).toEqual([
      ['part', 'the part in V1'],
      ['A1', 'angle plate A1 on the plate'],
      ['V1', 'vee V1 on the shelf of A1'],
      ['c1', 'clamp c1 itself'],
      ['c2', 'clamp c2 itself'],
    ])
    for (const j of of(job).joints) expect([j.id, j.factor! > 2]).toEqual([j.id, true])
    const against = of(job).findings.filter((f) => f.effect !== 'none')
    expect([...new Set(against.map((f) => f.code))]).toEqual(['unbalance-over-limit', 'speed-above-ceiling'])
    expect(clashFindings(mountSetup(job, 'op10'))).toEqual([])
  })

  test('stands where shelf and block put it', () => {
    const mounted = mountSetup(job, 'op10')
    const [lands, shelf] = mounted.shelves!
    expect([lands!.shelf!.item.id, shelf!.shelf!.item.id]).toEqual(['V1', 'A1'])
    // The lands lie as high over the shelf as the block is deep.
    expectNear(lands!.shelf!.pose.origin.y - shelf!.shelf!.pose.origin.y, VEE_BLOCK.size[1], { abs: 1e-9 })
    const v1 = mounted.pieces.find((p) => p.item.id === 'V1')!
    expect([v1.shelf, v1.z0, v1.z1]).toEqual(['A1', 16, 106])
    const depth = 31
    const area = 100 * 50 - 31 * depth
    expectNear(v1.mass, area * 90 * 7200e-9, { rel: 1e-12 })
    // Of what is left of a rectangle less a triangle, from the shelf.
    const up = (100 * 50 * 25 - 31 * depth * (50 - depth / 3)) / area
    expectNear(v1.massCentre.y, CASTING.off - OVER_SHELF + up, { abs: 1e-9 })
    expectNear(v1.massCentre.z, 61, { abs: 1e-9 })
  })

  test('looks as its shelf does, whatever it says', () => {
    for (const facing of [0, 77, 180]) expect(of(block({ facing })).joints).toEqual(of(job).joints)
  })

  test('at rest: friction of both straps against the weight of all that lies there, which pulls across', () => {
    const loose = castingInBlock([], STILL)
    const v1 = mountSetup(loose, 'op10').pieces.find((p) => p.item.id === 'V1')!
    const { mass_kg: part, centroid_mm: centre } = of(loose).part
    const mass = part + v1.mass
    // Part from 12 to 112, block from 16 to 106: the straps as far before the middle of both as behind it.
    const middle = (part * 62 + v1.mass * 61) / mass
    const still = changed(loose, 'c2', (h) => fromShelf(h.id, -1, 2 * middle - 34))
    const pressing = of(still).clamping!.clamps.reduce((sum, c) => sum + c.work_force_N, 0)
    expectNear(joint(still, 'V1').sliding!, (0.1 * pressing) / (mass * G), { rel: 2e-3 })
    // Over a long side of the block, 50 from its middle: weight pulls off there, and across at its own height; the toes
    // end 6 beyond the crown, so that one presses as much nearer to the edge as the other further off.
    const shelf = CASTING.off - OVER_SHELF
    const heights = v1.mass * (v1.massCentre.y - shelf) + part * (centre[1] + CASTING.off - shelf)
    const arm = Math.hypot(50, heights / mass)
    expectNear(joint(still, 'V1').tipping!, (pressing * 50) / (mass * G * arm), { rel: 2e-3 })
  })

  test('straps hold the round by its flanks as those on its own lands do', () => {
    const still = castingInBlock([], STILL)
    const pressing = of(still).clamping!.clamps.reduce((sum, c) => sum + c.work_force_N, 0)
    const { mass_kg: mass, centroid_mm: at } = of(still).part
    // Two flanks of F/(2 sin 45°) each, no strap rubbing: μ·F·D/2 over sin 45°·(1 + μ²).
    const grip = (0.1 * pressing * (CASTING.diameter / 2)) / (Math.SQRT1_2 * (1 + 0.1 ** 2))
    expectNear(joint(still, 'part').sliding!, grip / (mass * G * Math.hypot(at[0], at[1])), { rel: 2e-3 })
  })

  test('the angle plate carries block, part and straps', () => {
    const heavier = joint(block({ mass: 12 }), 'A1').factor!
    expect(heavier).toBeLessThan(joint(job, 'A1').factor!)
    const short = changed(job, 'c1', (h) => ({ ...h, mass: 6 }) as Hardware)
    expect(joint(short, 'A1').factor!).toBeLessThan(joint(job, 'A1').factor!)
  })
})

describe('turned about the axis, part, fixture and plate together', () => {
  test.each([30, 90, 217])('by %d degrees changes no figure but angles', (by) => {
    const job = castingInBlock()
    expectTurned(job, turnedAbout(job, by), by)
  })
})

describe('the size to set', () => {
  test('is that of the angle plate through the block, to the hundredth; the block goes under the round', () => {
    const off = lying(
      4,
      16,
      changed(castingInBlock(), 'A1', (h) => ({ ...h, at: { x: 0, y: -70 } }) as Hardware),
    )
    expect(said(off, 'part-off-vee')[0]).toMatch(
      /^The round of 80 mm does not lie in V1: .* Set the shelf of A1 63\.57 mm from the axis/,
    )
    expect(of(off).verdict.state).toBe('stop')
    const { job, size, misses } = placeShelf(off, 'op10')!
    expect([size, misses]).toEqual([63.57, []])
    expect(said(job, 'part-off-vee')).toEqual([])
    const [a1, v1] = job.setups[0]!.hardware as [AnglePlate, Vee]
    expectNear((a1.at as { y: number }).y, -63.57, { abs: 1e-6 })
    expect(v1.at).toEqual({ on: 'A1', along: 0, out: 16 })
    // By hand: 40/sin 45° less 31 of the vee, 50 of the block, less 12 that the bore lies off.
    const view = mountSetup(castingInBlock(), 'op10').shelves![0]!
    expectNear(shelfSize(view)!.wanted!, 40 * Math.SQRT2 - 31 + 50 - 12, { abs: 1e-9 })
    expect(shelfSize(view)!.of.id).toBe('A1')
  })

  test('follows the block: a deeper one wants the shelf lower by as much', () => {
    expect(placeShelf(block({ size: [100, 57.5, 90] }), 'op10')!.size).toBe(71.07)
  })

  test('says when a bolt of the block then misses the slots', () => {
    const off = lying(9, 16, bolted(castingInBlock()))
    expect(placeShelf(off, 'op10')!.misses).toEqual([])
    const beside = lying(
      9,
      16,
      block({ bolts: [{ at: { x: 34, y: 60 }, ...BOLTED }] }, bolted(castingInBlock())),
    )
    expect(placeShelf(beside, 'op10')!.misses[0]).toMatch(
      /^V1 is bolted through solid plate: no slot or hole of the shelf of A1/,
    )
  })
})

describe('what takes its hold away', () => {
  const factor = (job: Job) => joint(job, 'V1').factor ?? 0
  const base = factor(castingInBlock())

  test('no strap: nothing presses it', () => {
    const bare = without(castingInBlock(), 'c1', 'c2')
    expect(said(bare, 'block-loose')).toEqual([
      'Nothing presses vee V1 on the shelf of A1: it lies there loose. Put a strap that stands on the shelf of A1 over the round, or bolt it through its lands.',
    ])
    expect([joint(bare, 'V1').factor, of(bare).verdict.state]).toEqual([null, 'stop'])
  })

  test('one strap less, less torque, more speed and a heavier block hold less', () => {
    expect(factor(without(castingInBlock(), 'c2'))).toBeLessThan(base)
    expect(factor(changed(castingInBlock(), 'c1', (h) => ({ ...h, torque: 40 }) as Hardware))).toBeLessThan(
      base,
    )
    expect(factor(castingInBlock([], { speed: 360 }))).toBeLessThan(base)
    expect(factor(block({ mass: 15 }))).toBeLessThan(base)
  })

  test('the torque that its finding asks for is one that cures it', () => {
    const torqued = (job: Job, torque: number) =>
      ['c1', 'c2'].reduce((j, id) => changed(j, id, (h) => ({ ...h, torque }) as Hardware), job)
    const loose = torqued(castingInBlock(), 0.95 * 2 * (60 / base))
    const words = said(loose, 'joint-slides').find((m) => m.startsWith('Vee V1'))!
    const [, c1, c2] = /Tighten c1 to (\S+) N·m, c2 to (\S+) N·m/.exec(words)!
    expect(c1).toBe(c2)
    expect(factor(torqued(loose, Number(c1)))).toBeGreaterThan(1.99)
    // Where the studs do not bear it nothing is promised.
    const small = torqued(castingInBlock([], { cuts: [boreCut('A', { depth: 3 })] }), 60)
    const unpromised = said(small, 'joint-slides').find((m) => m.startsWith('Vee V1'))!
    expect(unpromised).toMatch(/Tighten its straps within the proof load.* or take a lighter cut\./)
  })

  test('straps on its own lands hold the part in it, not it on the shelf', () => {
    const wide = block({
      size: [240, 50, 90],
      holes: [-1, 1].map((side, i) => ({
        id: `H${i + 1}`,
        x: side * 48,
        y: 20 + 50 * i,
        diameter: 12,
        thread: 'M12',
      })),
    })
    const one = changed(wide, 'c1', () => overCrown('c1', 'H1', 0))
    const job = changed(one, 'c2', () => overCrown('c2', 'H2', 180))
    expect(joint(job, 'part').factor!).toBeGreaterThan(0)
    expect(said(job, 'block-loose')[0]).toMatch(/What stands on its own lands holds the part in it/)
    expect(of(job).verdict.state).toBe('stop')
    // Bolts of its own do.
    const held = bolted(job)
    expect(said(held, 'block-loose')).toEqual([])
    expect(joint(held, 'V1').factor!).toBeGreaterThan(0)
  })

  test('a strap of which too little is known is no hold and no loose block', () => {
    const known = castingInBlock()
    for (const id of ['c1', 'c2']) {
      const unsure = changed(known, id, (h) => ({ ...h, torque: null }) as Hardware)
      expect(factor(unsure)).toBeLessThan(base)
      expect(said(unsure, 'joint-not-judged').join()).toMatch(/V1/)
      expect(of(unsure).verdict.state).not.toBe('go')
    }
    const none = changed(
      changed(known, 'c1', (h) => ({ ...h, torque: null }) as Hardware),
      'c2',
      (h) => ({ ...h, torque: null }) as Hardware,
    )
    expect([joint(none, 'V1').factor, said(none, 'block-loose')]).toEqual([null, []])
    expect(said(none, 'joint-not-judged').join()).toMatch(/how hard anything presses it is not known/)
  })

  test('a strap on the plate presses neither', () => {
    const job = changed(
      castingInBlock(),
      'c1',
      (h) => ({ ...h, at: { slot: 'S4', radius: 100 } }) as Hardware,
    )
    expect(said(job, 'clamp-off-seat')).toHaveLength(1)
    expect(factor(job)).toBeLessThan(base)
  })

  test('half off the shelf, at its end and at its side, with how far and which way', () => {
    expect(said(lying(0, 80), 'block-overhangs')).toEqual([
      'Vee V1 does not lie wholly on the shelf of A1: it hangs 45 mm over the outer edge. Move it 45 mm nearer to the plate.',
    ])
    expect(said(lying(140, 16), 'block-overhangs')[0]).toMatch(
      /hangs 50 mm over the end that it is nearer to\. Move it 50 mm back along it\.$/,
    )
    expect(said(lying(0, -3), 'block-overhangs')[0]).toMatch(/^Vee V1 reaches 3 mm into the plate/)
    for (const job of [lying(0, 80), lying(140, 16), lying(0, -3)]) expect(of(job).verdict.state).toBe('stop')
  })

  test('wider or longer than its shelf, with what would do', () => {
    expect(said(block({ size: [300, 50, 90] }), 'block-overhangs')[0]).toMatch(
      /it hangs 10 mm over an end\. It is wider than that is long: use a narrower block, or an angle plate of at least 300 mm along\.$/,
    )
    expect(said(block({ size: [100, 50, 130] }), 'block-overhangs')[0]).toMatch(
      /It is longer than that stands out: use a shorter block, or an angle plate that stands out at least 130 mm\.$/,
    )
  })

  test('with a foot it does not lie flat', () => {
    expect(said(block({ foot: { length: 30, thickness: 20 } }), 'block-on-foot')[0]).toMatch(
      /^Vee V1 does not lie flat on the shelf of A1: it has a foot of 30 mm/,
    )
  })

  test('too small and too large for the round', () => {
    expect(said(block({ opening: 40 }), 'part-off-vee')[0]).toMatch(/^The vee V1 is too small/)
    expect(said(block({ opening: 90, size: [100, 48, 90] }), 'part-off-vee')[0]).toMatch(
      /^The vee V1 is too large for a round of 80 mm that is turned about this axis: .* Use a smaller vee, or turn the part\.$/,
    )
  })

  test('bolts that have nothing of it under their nuts are not believed', () => {
    const inMouth = block({ bolts: [{ ...BOLTED }] }, without(castingInBlock(), 'c1', 'c2'))
    expect(joint(inMouth, 'V1').factor).toBeNull()
    expect(of(inMouth).verdict.state).toBe('stop')
  })

  test('a block that meets a heel, or a stud that goes down through it', () => {
    const wide = block({ size: [150, 50, 90] })
    expect(said(wide, 'hardware-clash').join()).toMatch(/V1/)
    expect(of(wide).verdict.state).toBe('stop')
  })
})

describe('nothing is kept that another place of it changes', () => {
  const fresh = (job: Job): Job => structuredClone(job)
  const moves: readonly (readonly [string, (job: Job) => Job])[] = [
    ['along', (job) => lying(2, 16, job)],
    ['out', (job) => lying(0, 20, job)],
    ['the block deeper', (job) => block({ size: [100, 55, 90] }, job)],
    ['another angle', (job) => block({ angle: 100 }, job)],
    ['the shelf lower', (job) => changed(job, 'A1', (h) => ({ ...h, at: { x: 0, y: -65 } }) as Hardware)],
    [
      'a strap out',
      (job) => changed(job, 'c1', (h) => ({ ...h, at: { on: 'A1', along: 60, out: 50 } }) as Hardware),
    ],
    ['a strap tighter', (job) => changed(job, 'c1', (h) => ({ ...h, torque: 30 }) as Hardware)],
    [
      'another friction',
      (job) => ({ ...job, setups: job.setups.map((s) => ({ ...s, frictionState: 'dry' as const })) }),
    ],
    ['the shelf turned', (job) => changed(job, 'A1', (h) => ({ ...h, facing: 95 }) as Hardware)],
  ]
  test.each(moves)('%s', (_, move) => {
    const job = castingInBlock()
    of(job)
    const [there, back] = [move(job), job]
    const told = (a: ReturnType<typeof of>) => [a.joints, a.findings.map((f) => f.message)]
    expect(told(of(there))).toEqual(told(of(fresh(there))))
    expect(told(of(back))).toEqual(told(of(fresh(back))))
  })

  test('a stop on the shelf is no more help than none', () => {
    const stop: Hardware = {
      id: 's1',
      kind: 'stop',
      at: { on: 'A1', along: 60, out: 62 },
      facing: 180,
      size: [30, 30, 80],
      ...BOLTED,
      fixed: true,
    }
    const base = castingInBlock()
    const backed = castingInBlock([stop])
    for (const id of ['part', 'V1'])
      expect(joint(backed, id).factor!).toBeLessThanOrEqual(joint(base, id).factor! * (1 + 1e-9))
  })
})

describe('faults of a job', () => {
  const faults = (change: Partial<Vee>) => jobFaults(block(change)).map((f) => `${f.path} ${f.message}`)
  const at = 'setups[0].hardware[1].at'

  test('a block stands on an angle plate, by a place', () => {
    expect(faults({ at: { on: 'A9', along: 0, out: 0 } })[0]).toBe(
      `${at}.on there is no fixture to stand on "A9"`,
    )
    expect(faults({ at: { on: 'V1', along: 0, out: 0 } })[0]).toBe(
      `${at}.on there is no fixture to stand on "V1"`,
    )
    expect(faults({ at: { on: 'A1', hole: 'H1' } })).toEqual([
      `${at} names a hole: give how far along the shelf and out the block lies`,
    ])
  })

  test('an angle plate stands on none', () => {
    const job = changed(
      castingInBlock(),
      'A1',
      (h) => ({ ...h, at: { on: 'V1', along: 0, out: 0 } }) as Hardware,
    )
    expect(jobFaults(job).map((f) => f.path)).toContain('setups[0].hardware[0].at.on')
  })
})
