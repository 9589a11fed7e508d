/** Joints as a setup's geometry makes them, by hand. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import type { Hardware, Job } from '../../../src-core/job/schema.ts'
import { findThread } from '../../../src-core/hardware/threads.ts'
import { washerMeanRadius } from '../../../src-core/hardware/washers.ts'
import { expectNear } from '../../helpers/near.ts'
import { SlipGroup } from '../../helpers/slipGroup.ts'
import { block, jobWith, partOf, piece } from '../../helpers/jobs.ts'
import { FOUR_CLAMPS, heldBlock, stackOf, strapClamp } from '../../helpers/heldJobs.ts'

const of = (job: Job) => analyse(job, 'op10')
const joint = (job: Job, id: string) => of(job).joints.find((j) => j.id === id)!
const found = (job: Job, code: string) => of(job).findings.filter((f) => f.code === code)
const stops = (job: Job) => of(job).findings.filter((f) => f.effect === 'stop')
const unknowns = (job: Job) => of(job).findings.filter((f) => f.effect === 'unknown')

const TAU = 2 * Math.PI
/** Low side of 45 N·m on M12: T/(K·D) less a quarter. N */
const LOW = (45_000 / (0.2 * 12)) * 0.75

describe('a block well held', () => {
  test('every joint over 2, the part first, nothing unknown', () => {
    const a = of(heldBlock())
    expect(a.joints.map((j) => j.id)).toEqual(['part', 'c1', 'c2', 'c3', 'c4'])
    for (const j of a.joints) expect(j.factor!).toBeGreaterThan(2)
    expect(a.clamping!.factor).toBe(a.joints[0]!.factor)
    expect(a.findings.filter((f) => f.effect !== 'none')).toEqual([])
  })

  test('the lowest joint sets the limit of holding', () => {
    const a = of(heldBlock())
    expect(a.limits.holding).toBe(Math.min(...a.joints.map((j) => j.rpm_at_2!)))
  })

  test('turned by hand, without a cut: sliding is grip over weight', () => {
    const job = heldBlock({ setup: { cuts: [], speed: null } })
    const mass = 0.1 * 0.1 * 0.03 * 7850
    const grip = 0.12 * of(job).clamping!.clamps.reduce((s, c) => s + c.work_force_N, 0)
    expectNear(joint(job, 'part').sliding!, grip / (mass * 9.80665), { rel: 1e-9 })
  })
})

describe('a clamp’s own strap', () => {
  test('grip of the whole bolt against its pull, weight and spin-up', () => {
    const job = heldBlock()
    const { sliding } = joint(job, 'c1')
    const omega = (TAU * 110) / 60
    // Masses of steel 7850: strap, stud, nuts and washer from the mounted piece; the heel goes with it.
    const term = of(job).terms.find((t) => t.item === 'c1')!
    const packing = 0.03 * 0.03 * 0.012 * 7850
    const mass = term.mass_kg - packing
    const reach = (term.unbalance_g_mm.x / 1000 - packing * 42) / mass
    const pull = (mass * omega ** 2 * reach) / 1000
    const spin = (mass * (omega / 2) * reach) / 1000
    // Oiled steel on iron. Weight and spin-up turn it about its bolt, against the weaker of toe (30 mm) and heel (45 mm).
    const arm = 26 + 45
    const weaker = 0.1 * LOW * (30 / 75)
    const across = mass * 9.80665 + spin
    const rough = 1 / ((pull + across) / (0.1 * LOW) + (across * Math.abs(reach - 68)) / (weaker * arm))
    // Its own spin about its centre lowers it a little more.
    expect(sliding!).toBeLessThanOrEqual(rough * (1 + 1e-9))
    expect(sliding!).toBeGreaterThan(0.95 * rough)
  })
})

describe('weights', () => {
  const weighted = (more = {}, speed = 110) =>
    heldBlock({ hardware: [...FOUR_CLAMPS, stackOf('w1', 1, 128, more)], setup: { speed } })

  test('one stud: force over grip and moment over grip times the mean radius of the washer', () => {
    const job = heldBlock({ hardware: [...FOUR_CLAMPS, stackOf('w1', 2, 105)] })
    const { sliding } = joint(job, 'w1')
    const term = of(job).terms.find((t) => t.item === 'w1')!
    const mass = term.mass_kg
    const omega = (TAU * 110) / 60
    const low = (40_000 / (0.2 * 12)) * 0.75
    const radius = 0.105
    const across = mass * (omega ** 2 * radius + 9.80665) + mass * (omega / 2) * radius
    // Spin-up turns it about its own axis too: J of a 60 mm disc of 0.62 kg, the stud's own being small.
    const spin = ((0.62 * 30 ** 2) / 2) * (omega / 2) * 1e-3
    // Plain washer of M12: ISO 7089, 13 to 24 mm.
    const arm = (24 + 13) / 4
    expectNear(washerMeanRadius(findThread('M12')!, 24), arm, { rel: 1e-12 })
    const rough = 1 / (across / (0.1 * low) + spin / (0.1 * low * arm))
    expectNear(sliding!, rough, { rel: 5e-3 })
  })

  test('loose nut or no torque: stop, and not judged', () => {
    const loose = weighted({ torque: 0.4 })
    expect(found(loose, 'joint-slides').map((f) => f.item)).toEqual(['w1'])
    expect(stops(loose).length).toBeGreaterThan(0)
    const without = weighted({ torque: null })
    expect(joint(without, 'w1').factor).toBeNull()
    expect(found(without, 'joint-not-judged').map((f) => f.item)).toEqual(['w1'])
  })

  test('a cure that fits: the torque that gives a factor of 2', () => {
    const message = found(weighted({ torque: 0.4 }), 'joint-slides')[0]!.message
    const torque = Number(/Tighten to ([\d.]+) N·m/.exec(message)![1])
    expectNear(joint(weighted({ torque }), 'w1').factor!, 2, { rel: 5e-3 })
  })

  test('a tall stack on a narrow foot tips over its rim', () => {
    const tall = heldBlock({
      hardware: [...FOUR_CLAMPS, stackOf('w1', 1, 130, { stack: [{ stock: 'W1', count: 9 }], torque: 20 })],
      setup: { speed: 440 },
    })
    // 24 mm across and 252 high: its middle is farther out than the friction of 0.1 is wide.
    const job = { ...tall, stock: [{ ...tall.stock[0]!, footprint: { circle: 24 } }] }
    expect(joint(job, 'w1').mode).toBe('tipping')
    expect(joint(job, 'w1').factor!).toBeLessThan(2)
    // Over the outer edge.
    expect(joint(job, 'w1').at!.x).toBeGreaterThan(140)
  })
})

describe('boxes', () => {
  test('a bracket of 7 kg at 540 rpm on one M12 stud: 2.5 kN of pull against 1.4 kN of grip', () => {
    const held = (torque: number): Hardware[] => [
      ...FOUR_CLAMPS,
      piece(
        'b1',
        7,
        { slot: 'S1', radius: 110 },
        {
          kind: 'bracket',
          footprint: { rect: [60, 60] },
          height: 40,
          held: [{ stud: { thread: 'M12', class: '8.8', length: 'suit' }, torque }],
        },
      ),
    ]
    const job = heldBlock({ hardware: held(45), setup: { speed: 540, cuts: [] } })
    const omega = (TAU * 540) / 60
    const pull = 7 * omega ** 2 * 0.11
    expect(pull).toBeGreaterThan(2400)
    expect(joint(job, 'b1').factor!).toBeLessThan((0.1 * LOW) / pull)
    expect(found(job, 'joint-slides').map((f) => f.item)).toContain('b1')
  })

  test('nothing said of how it is bolted: not judged', () => {
    const job = heldBlock({ hardware: [...FOUR_CLAMPS, piece('b1', 1, { slot: 'S1', radius: 120 })] })
    expect(joint(job, 'b1').factor).toBeNull()
    expect(unknowns(job).map((f) => f.item)).toContain('b1')
  })
})

/** On the plate's face, without packing. */
const flat = (clamp: (typeof FOUR_CLAMPS)[number]) => ({ ...clamp, packing: null })

describe('the part', () => {
  test('7 kg off the axis at 540 rpm on one M12 bolt: 4 kN of pull against 1.7 kN of grip', () => {
    const job = jobWith({
      part: partOf([
        block('body', { x: 0, y: 0 }, [100, 100, 90], { holes: [circleRing({ x: 0, y: 0 }, 13)] }),
      ]),
      plate: {
        diameter: 600,
        slots: [{ id: 'S1', angle: 0, from: 55, to: 250, width: 14, kind: 'through' }],
      },
      lathe: { startTime: 5, brakeTime: 5 },
      setup: {
        centre: { x: -180, y: 0 },
        packing: 0,
        speed: 540,
        hardware: [
          {
            id: 'b1',
            kind: 'bolt',
            throughPart: { x: 0, y: 0 },
            stud: { thread: 'M12', class: '8.8', length: 'suit' },
            torque: 45,
            fixed: false,
          },
        ],
      },
    })
    const mass = of(job).part.mass_kg
    expectNear(mass, 7, { rel: 0.02 })
    const pull = mass * ((TAU * 540) / 60) ** 2 * 0.18
    expect(pull).toBeGreaterThan(3900)
    expect(0.12 * LOW).toBeLessThan(1700)
    expect(joint(job, 'part').factor!).toBeLessThan((0.12 * LOW) / pull)
    expect(found(job, 'joint-slides').map((f) => f.item)).toEqual(['setup'])
  })

  test('sliding under the cut is that of a group of friction clamps under its force and torque', () => {
    // So slow to start and stop that neither counts.
    const job = heldBlock({ lathe: { startTime: 3600, brakeTime: 3600 } })
    const { clamping, cutting, part } = of(job)
    const points = clamping!.clamps.map((c) => ({ at: c.nose, capacity: 0.12 * c.work_force_N }))
    const group = new SlipGroup(points, {
      mass: part.mass_kg,
      centre: { x: 0, y: 0 },
      force: Math.hypot(1, 0.5) * cutting!.cuts[0]!.tangential_force_N!,
      torque: 1000 * cutting!.cuts[0]!.torque_N_m!,
    })
    expectNear(joint(job, 'part').sliding!, group.factor((TAU * 110) / 60), { rel: 1e-3 })
  })

  test('a tower on a row of pads 16 mm wide tips over the long side of the row', () => {
    // No cut: the pull of 4 mm of eccentricity across the row, its middle 200 mm up.
    const job = jobWith({
      part: partOf([block('body', { x: 0, y: 0 }, [100, 60, 400])]),
      lathe: { startTime: 5, brakeTime: 5 },
      setup: {
        centre: { x: 0, y: -4 },
        packing: 20,
        speed: 440,
        hardware: [
          ...[-40, 0, 40].map((x) =>
            piece(`p${x}`, 0.05, { x, y: 0 }, { kind: 'packing', footprint: { rect: [24, 16] } }),
          ),
          ...(['1', '3'] as const).map((slot) =>
            strapClamp(`c${slot}`, Number(slot) as 1 | 3, { packing: null }),
          ),
        ],
      },
    })
    const part = joint(job, 'part')
    expect(part.mode).toBe('tipping')
    expect(part.factor!).toBeLessThan(2)
    expectNear(part.at!.y, 8, { abs: 0.3 })
    expect(found(job, 'joint-tips').map((f) => f.item)).toEqual(['setup'])
  })

  test('no clamp: stop', () => {
    const job = heldBlock({ hardware: [] })
    expect(found(job, 'no-clamp').map((f) => f.severity)).toEqual(['stop'])
    const onPlate = heldBlock({ hardware: [], setup: { packing: 0 } })
    expect(joint(onPlate, 'part').factor).toBe(0)
    expect(of(onPlate).limits.holding).toBe(0)
  })

  test('clamps of which nothing is known: not judged, no stop of the joint', () => {
    const job = heldBlock({ hardware: FOUR_CLAMPS.map((c) => ({ ...c, torque: null })) })
    expect(joint(job, 'part').factor).toBeNull()
    expect(found(job, 'joint-not-judged').map((f) => f.item)).toEqual(['setup'])
    expect(found(job, 'no-clamp')).toEqual([])
  })

  test('one of four unknown counts as nothing for the part, and may fly off itself', () => {
    const [c1, ...others] = FOUR_CLAMPS
    const three = heldBlock({ hardware: others.concat({ ...c1!, torque: null }) })
    const without = heldBlock({
      hardware: [
        ...others,
        piece('p1', 0.05, { x: 42, y: 0 }, { kind: 'packing', footprint: { rect: [30, 30] }, height: 12 }),
      ],
    })
    expectNear(joint(three, 'part').factor!, joint(without, 'part').factor!, { rel: 1e-9 })
    expect(joint(three, 'part').factor!).toBeGreaterThan(2)
    expect(
      unknowns(three)
        .filter((f) => f.fromRpm <= 110)
        .map((f) => f.code),
    ).toEqual(['clamp-not-judged'])
  })

  test('an unknown clamp that presses beyond what carries the part: not judged', () => {
    const job = heldBlock({
      hardware: [
        ...FOUR_CLAMPS.map((c) => ({ ...flat(c), torque: c.id === 'c1' ? null : 45 })),
        ...[
          [-25, -25],
          [25, -25],
          [25, 25],
          [-25, 25],
        ].map(([x, y], i) =>
          piece(
            `p${i}`,
            0.05,
            { x: x!, y: y! },
            { kind: 'packing', footprint: { rect: [20, 20] }, height: 12 },
          ),
        ),
      ],
    })
    expect(joint(job, 'part').factor).toBeNull()
    expect(found(job, 'joint-not-judged')[0]!.message).toContain('c1')
  })

  test('presses beyond what carries the part take from it', () => {
    const pads = (at: number) =>
      [
        [-at, -at],
        [at, -at],
        [at, at],
        [-at, at],
      ].map(([x, y], i) =>
        piece(
          `p${i}`,
          0.05,
          { x: x!, y: y! },
          { kind: 'packing', footprint: { rect: [10, 10] }, height: 12 },
        ),
      )
    const on = (at: number) => heldBlock({ hardware: [...FOUR_CLAMPS.map(flat), ...pads(at)] })
    expect(joint(on(40), 'part').factor!).toBeGreaterThan(joint(on(30), 'part').factor!)
  })

  test('without packing its own face less the plate’s bore and slots carries it', () => {
    const job = heldBlock({ hardware: FOUR_CLAMPS.map(flat), setup: { packing: 0 } })
    expect(joint(job, 'part').factor!).toBeGreaterThan(2)
    expect(found(job, 'part-not-carried')).toEqual([])
  })

  test('packing that is not listed: not judged', () => {
    const job = heldBlock({ hardware: FOUR_CLAMPS.map(flat) })
    expect(joint(job, 'part').factor).toBeNull()
    expect(found(job, 'joint-not-judged')[0]!.message).toContain('packing')
  })

  test('a material whose cutting force is not known: not judged; without a cut it is', () => {
    const job = heldBlock()
    const other = { ...job, part: { ...job.part, material: 'unobtainium' } }
    expect(joint(other, 'part').factor).toBeNull()
    const idle = { ...other, setups: other.setups.map((s) => ({ ...s, cuts: [] })) }
    expect(joint(idle, 'part').factor!).toBeGreaterThan(2)
    expect(found(idle, 'no-cut')).toEqual([])
    const unsaid = { ...other, setups: other.setups.map((s) => ({ ...s, cuts: null })) }
    expect(found(unsaid, 'no-cut').map((f) => f.effect)).toEqual(['unknown'])
  })

  test('start and stop that are not given are taken as half a second, said so', () => {
    const job = heldBlock({ lathe: { startTime: null, brakeTime: null }, setup: { speed: 440 } })
    const given = heldBlock({ lathe: { startTime: 0.5, brakeTime: 0.5 }, setup: { speed: 440 } })
    expect(joint(job, 'part').factor).toBe(joint(given, 'part').factor)
    expect(found(job, 'start-stop-assumed')).toHaveLength(1)
    expect(found(given, 'start-stop-assumed')).toEqual([])
    const slow = heldBlock({ lathe: { startTime: 0.5, brakeTime: 8 }, setup: { speed: 440 } })
    expect(joint(slow, 'part').factor!).toBeGreaterThan(joint(given, 'part').factor!)
  })

  test('tall packing counts with no more friction than tips it', () => {
    const low = heldBlock()
    const tall = heldBlock({
      hardware: FOUR_CLAMPS.map((c) => ({ ...c, packing: { size: [14, 30] as const } })),
      setup: { packing: 120 },
    })
    expect(found(low, 'packing-tall')).toEqual([])
    expect(found(tall, 'packing-tall').map((f) => f.item)).toEqual(['c1', 'c2', 'c3', 'c4'])
    const grip = (job: Job) => joint(job, 'part').sliding!
    // 14 / (2·120) instead of 0.12, on all four of them.
    const wider = heldBlock({
      hardware: FOUR_CLAMPS.map((c) => ({ ...c, packing: { size: [30, 30] as const } })),
      setup: { packing: 120 },
    })
    expectNear(grip(tall) / grip(wider), 14 / 240 / 0.12, { rel: 1e-6 })
  })
})
