/** A sub-plate bolted to the plate and the part on it: heights, mass, its own joint, and what does not hold. By hand. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { fetchList } from '../../../src-core/steps/fetchList.ts'
import { jobFaults } from '../../../src-core/job/faults.ts'
import type { Clamp, Fixture, Hardware, Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { heldBlock, stackOf, strapClamp } from '../../helpers/heldJobs.ts'
import { expectNear } from '../../helpers/near.ts'

const diagonal = (r: number, i: number) => ({
  x: r * Math.cos(Math.PI / 4 + (i * Math.PI) / 2),
  y: r * Math.sin(Math.PI / 4 + (i * Math.PI) / 2),
})
const stud = { thread: 'M12', class: '8.8', length: 'suit' } as const
const BOLTS = [0, 1, 2, 3].map((i) => ({
  at: { x: 110 * Math.round(Math.cos((i * Math.PI) / 2)), y: 110 * Math.round(Math.sin((i * Math.PI) / 2)) },
  stud,
  torque: 45,
}))

/** A ring of 250 by 60, 20 thick, with a tapped hole on each diagonal for the part's clamps. */
const subPlate = (more: Partial<Fixture> = {}): Fixture => ({
  id: 'F1',
  kind: 'fixture',
  form: 'subPlate',
  at: { x: 0, y: 0 },
  facing: 0,
  footprint: { circle: 250 },
  bore: 60,
  thickness: 20,
  holes: [0, 1, 2, 3].map((i) => ({ id: `H${i + 1}`, ...diagonal(68, i), diameter: 12, thread: 'M12' })),
  bolts: BOLTS,
  fixed: true,
  ...more,
})

const onPlate = (i: number, more: Partial<Clamp> = {}): Clamp =>
  strapClamp(`c${i}`, 1, { at: { on: 'F1', hole: `H${i}` }, facing: (i * 90 + 135) % 360, ...more })
const CLAMPS = [1, 2, 3, 4].map((i) => onPlate(i))

/** The block of `heldBlock`, turned so that its sides face the tapped holes. */
const setUp = (
  more: Parameters<typeof heldBlock>[0] = {},
  fixture: Fixture = subPlate(),
  others: readonly Hardware[] = CLAMPS,
): Job =>
  heldBlock({
    ...more,
    hardware: [fixture, ...others],
    setup: { turn: 45, seat: { on: 'F1' }, ...more?.setup },
  })

const of = (job: Job) => analyse(job, 'op10')
const joint = (job: Job, id: string) => of(job).joints.find((j) => j.id === id)!
const codes = (job: Job) =>
  of(job)
    .findings.filter((f) => f.effect !== 'none')
    .map((f) => f.code)

const STEEL = 7850e-9
const MASS = (Math.PI / 4) * (250 ** 2 - 60 ** 2 - 4 * 12 ** 2) * 20 * STEEL

describe('a part on a sub-plate', () => {
  test('stands higher by its thickness, and all of it is held', () => {
    const job = setUp()
    const mounted = mountSetup(job, 'op10')
    expect([mounted.ground, mounted.seat, mounted.partFront]).toEqual([20, 32, 62])
    expect(jobFaults(job)).toEqual([])
    expect(codes(job)).toEqual([])
    expect(of(job).joints.map((j) => j.id)).toEqual(['part', 'F1', 'c1', 'c2', 'c3', 'c4'])
    for (const j of of(job).joints) expect(j.factor!).toBeGreaterThan(2)
  })

  test('clamps in its holes stand on it: heel, packing and stud', () => {
    const c1 = mountSetup(setUp(), 'op10').pieces.find((p) => p.item.id === 'c1')!
    const solid = (role: string) => c1.solids.find((s) => s.role === role)!
    expect([solid('heel').z0, solid('heel').z1]).toEqual([20, 62])
    expect([solid('packing').z0, solid('packing').z1]).toEqual([20, 32])
    // A diameter deep in the tapped hole.
    expect(c1.fastenings[0]!.back).toBe(20 - 12)
    expectNear(c1.at.x, 68 * Math.SQRT1_2, { rel: 1e-12 })
  })

  test('mass by sizes, density or weighed; off the axis it pulls', () => {
    const solidOf = (fixture: Fixture) =>
      mountSetup(setUp({}, fixture), 'op10').pieces[0]!.solids.find((s) => s.role === 'fixture')!
    expectNear(solidOf(subPlate()).mass, MASS, { rel: 1e-9 })
    expectNear(solidOf(subPlate({ density: 7200 })).mass, (MASS / 7850) * 7200, { rel: 1e-9 })
    expect(solidOf(subPlate({ mass: 6 })).mass).toBe(6)
    const moved = of(setUp({}, subPlate({ at: { x: 3, y: 0 }, mass: 6, bolts: [] }))).terms.find(
      (t) => t.item === 'F1',
    )!
    expectNear(moved.unbalance_g_mm.x, 6000 * 3, { rel: 1e-6 })
  })
})

describe('its own joint', () => {
  /** Low side of 45 N·m on M12: T/(K·D) less a quarter. N */
  const LOW = (45_000 / (0.2 * 12)) * 0.75

  test('at rest: grip over the weight of all that it carries, and its overturning about the plate', () => {
    const job = setUp({ setup: { cuts: null, speed: null } })
    const { sliding, tipping } = joint(job, 'F1')
    const terms = of(job).terms.filter((t) => t.item !== 'plate')
    const mass = terms.reduce((s, t) => s + t.mass_kg, 0)
    // Weight across at the common centre, nothing else: steel on iron, oiled, 0.10.
    expectNear(sliding!, (0.1 * 4 * LOW) / (mass * 9.80665), { rel: 1e-3 })
    const over = terms.reduce((s, t) => s + t.mass_kg * t.centre_mm.z, 0) * 9.80665
    // A disc of 125: the nearest edge of its hull is that far from the middle, less its chord.
    expectNear(tipping!, (4 * LOW * 125) / over, { rel: 5e-3 })
  })

  test('takes the cut: it lowers the factor, and so does a heavier part', () => {
    const bare = joint(setUp({ setup: { cuts: null } }), 'F1').factor!
    const cut = joint(setUp(), 'F1').factor!
    expect(cut).toBeLessThan(bare)
    const high = setUp({ height: 120 })
    expect(joint(high, 'F1').factor!).toBeLessThan(cut)
  })

  test('a clamp from the plate presses it too, one in its own hole does not', () => {
    const plain = setUp({ setup: { cuts: null, speed: null } })
    const through = setUp(
      { setup: { cuts: null, speed: null, turn: 0, packing: 0 } },
      subPlate({
        footprint: { circle: 116 },
        holes: [],
        bolts: BOLTS.map((b) => ({ ...b, at: { x: b.at.x / 2.75, y: b.at.y / 2.75 }, sunk: 18 })),
      }),
      [1, 2, 3, 4].map((i) => strapClamp(`c${i}`, i as 1, { packing: null })),
    )
    const press = of(through).clamping!.clamps.reduce((s, c) => s + c.work_force_N, 0)
    const carried = of(through)
      .terms.filter((t) => ['part', 'F1'].includes(t.item))
      .reduce((s, t) => s + t.mass_kg, 0)
    expect(press).toBeGreaterThan(0)
    expectNear(joint(through, 'F1').sliding!, (0.1 * (4 * LOW + press)) / (carried * 9.80665), { rel: 1e-3 })
    expect(joint(plain, 'F1').sliding!).toBeLessThan(joint(through, 'F1').sliding!)
  })

  test('loose, of unknown torque, or with a bolt less', () => {
    const bolts = (change: (b: (typeof BOLTS)[number]) => object) =>
      setUp({}, subPlate({ bolts: BOLTS.map((b) => ({ ...b, ...change(b) })) }))
    expect(codes(bolts(() => ({ torque: 1 })))).toContain('joint-slides')
    expect(codes(bolts(() => ({ torque: null })))).toContain('joint-not-judged')
    expect(codes(setUp({}, subPlate({ bolts: [] })))).toContain('joint-not-judged')
    expect(joint(setUp({}, subPlate({ bolts: BOLTS.slice(1) })), 'F1').factor!).toBeLessThan(
      joint(setUp(), 'F1').factor!,
    )
  })
})

describe('what does not go', () => {
  test('the part said to stand on the plate, or on a sub-plate that is not under it', () => {
    expect(codes(setUp({ setup: { seat: null } }))).toContain('part-clash')
    const aside = setUp(
      { setup: { packing: 0 } },
      subPlate({ footprint: { rect: [20, 20] }, bore: 0, holes: [], at: { x: 110, y: 0 } }),
      [],
    )
    expect(codes(aside)).toContain('part-not-carried')
  })

  test('a stud of another thread, a hole too shallow, a bolt through solid plate', () => {
    expect(
      codes(setUp({}, subPlate(), [onPlate(1, { stud: { ...stud, thread: 'M10' } }), ...CLAMPS.slice(1)])),
    ).toContain('stud-does-not-fit')
    expect(codes(setUp({}, subPlate({ thickness: 10 })))).toContain('stud-does-not-fit')
    const solid = subPlate({ bolts: BOLTS.map((b) => ({ ...b, at: diagonal(110, 0) })).slice(0, 1) })
    expect(codes(setUp({}, solid))).toContain('bolt-in-solid')
  })

  test('a drill that comes through into it, unless it has room', () => {
    const at = (bore: number) =>
      codes(
        setUp(
          { setup: { packing: 0 } },
          subPlate({ bore }),
          CLAMPS.map((c) => ({ ...c, packing: null })),
        ),
      )
    expect(at(60)).not.toContain('breakthrough-packing')
    expect(at(0)).toContain('breakthrough-packing')
  })

  test('its own nut under the part, a heel of another clamp and a stud through it', () => {
    const bolt = { at: { x: 35, y: 0 }, stud, torque: 45 }
    const low = { setup: { packing: 0 } }
    expect(codes(setUp(low, subPlate({ bolts: [bolt] })))).toContain('part-clash')
    expect(codes(setUp({}, subPlate(), [...CLAMPS, stackOf('w1', 1, 70)]))).toContain('hardware-clash')
    const through = heldBlock({
      hardware: [
        subPlate(),
        { id: 't1', kind: 'bolt', throughPart: { x: 40, y: 0 }, stud, torque: 45, fixed: true },
      ],
      setup: { seat: { on: 'F1' } },
    })
    expect(codes(through)).toContain('hardware-clash')
  })

  test('names that point nowhere, holes that meet', () => {
    const faults = (job: Job) => jobFaults(job).map((f) => f.path)
    expect(faults(heldBlock({ setup: { seat: { on: 'F9' } } }))).toEqual(['setups[0].seat.on'])
    expect(faults(setUp({}, subPlate(), [onPlate(1, { at: { on: 'F1', hole: 'H9' } })]))).toEqual([
      'setups[0].hardware[1].at.hole',
    ])
    expect(faults(setUp({}, subPlate({ bore: 300 }), []))).toEqual(['setups[0].hardware[0].bore'])
    expect(faults(setUp({}, subPlate({ bore: 130 }), []))).toHaveLength(4)
  })
})

test('the list to fetch names it with bore and threads', () => {
  const words = fetchList(setUp(), 'op10').map((i) => i.words)
  expect(words.filter((w) => w.startsWith('sub-plate'))).toEqual([
    expect.stringMatching(/^sub-plate, 250 mm diameter × 20 mm, 60 mm bore, tapped M12, /),
  ])
})
