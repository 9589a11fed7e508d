/** Nuts, washers, heels and pins that read go however thin, narrow or loose they were. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { besideSlot } from '../../../src-core/holding/nutBears.ts'
import { strapOnHeel } from '../../../src-core/holding/heelStand.ts'
import { polar } from '../../../src-core/geometry/angles.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import type { Clamp, Hardware, Job, Prism, StockItem } from '../../../src-core/job/schema.ts'
import { withHardware } from '../../helpers/edited.ts'
import { FOUR_CLAMPS, heldBlock, stackOf, strapClamp } from '../../helpers/heldJobs.ts'
import { pumpBody } from '../../helpers/turnersJobs.ts'
import { gunmetalStrap } from '../../helpers/turnersOtherJobs.ts'
import { twinJob } from '../../helpers/twinJobs.ts'

const STRONG = FOUR_CLAMPS.map((c): Clamp => ({ ...c, strap: { ...c.strap, steel: '42CrMo4+QT' } }))
const stops = (job: Job): string[] => [
  ...new Set(analyse(job, 'op10').findings.flatMap((f) => (f.effect === 'stop' ? [f.code] : []))),
]
const all = (change: (c: Clamp) => Partial<Clamp>): Job =>
  heldBlock({ hardware: STRONG.map((c): Clamp => ({ ...c, ...change(c) })) })
/** With a weight of one piece of stock. */
const weight = (
  stock: Partial<StockItem>,
  more: Partial<Extract<Hardware, { kind: 'weight' }>> = {},
): Job => {
  const job = heldBlock({ hardware: [...STRONG, stackOf('w1', 1, 128, more)] })
  return { ...job, stock: job.stock.map((s) => ({ ...s, ...stock })) }
}

describe('the nut', () => {
  const nut = (flats: number, height: number) => stops(all(() => ({ nut: { acrossFlats: flats, height } })))
  test('a full nut of M12 is 9.6 high, a thin one 5.4; a narrow one 15 across', () => {
    expect(nut(18, 10.8)).toEqual([])
    expect(nut(18, 9.6)).toEqual([])
    expect(nut(18, 5)).toContain('nut-unfit')
    expect(nut(18, 0.5)).toContain('nut-unfit')
    expect(nut(15, 10.8)).not.toContain('nut-unfit')
    expect(nut(12.1, 10.8)).toContain('nut-unfit')
  })
  test('a thin nut carries 380 N/mm² on 84.3 mm², which 45 N·m stays below and 80 does not', () => {
    // T/(0.2·12 mm)·1.3 is 24.4 and 43.3 kN against 32.0.
    const thin = (torque: number) => stops(all(() => ({ torque, nut: { acrossFlats: 18, height: 6 } })))
    expect(thin(45)).toEqual([])
    expect(thin(80)).toContain('nut-unfit')
  })
  test('of a weight as well', () => {
    expect(stops(weight({}))).not.toContain('nut-unfit')
    expect(stops(weight({}, { nut: { acrossFlats: 18, height: 1 } }))).toContain('nut-unfit')
  })
})

describe('the washer', () => {
  const washer = (diameter: number, thickness: number, nut = 18) =>
    stops(all(() => ({ washer: { diameter, thickness }, nut: { acrossFlats: nut, height: 10.8 } })))
  test('beside a slot a disc keeps two segments', () => {
    // By hand: r 12, half the slot 7: 2·(144·acos(7/12) − 7·√95).
    expect(besideSlot(24, 14)).toBeCloseTo(2 * (144 * Math.acos(7 / 12) - 7 * Math.sqrt(95)), 9)
    expect(besideSlot(24, 0)).toBeCloseTo(Math.PI * 144, 9)
    expect(besideSlot(24, 30)).toBe(0)
  })
  test('hardly wider than its opening it sinks in', () => {
    expect(washer(24, 2.5)).toEqual([])
    expect(washer(14.3, 2.5)).toContain('washer-too-small')
  })
  test('a thin one does not bridge an opening that the nut falls through', () => {
    // A slot of 14 and a nut of 15: with 0.1 of washer the load spreads to 15.2, with 4 to 23.
    expect(washer(24, 4, 15)).toEqual([])
    expect(washer(24, 0.1, 15)).toContain('washer-too-small')
  })
  test('on a weight that its hole leaves little or nothing of', () => {
    const wide = { washer: { diameter: 80, thickness: 3 } }
    expect(stops(weight({ hole: 70, footprint: { circle: 60 } }, wide))).toContain('washer-too-small')
    expect(stops(weight({ footprint: { circle: 14 }, mass: 0.03 }))).toContain('washer-off')
    expect(stops(weight({ footprint: { circle: 20 }, mass: 0.05 }))).not.toContain('washer-off')
    const message = analyse(weight({ hole: 70 }, wide), 'op10').findings.find((f) =>
      f.message.includes('Nothing is left'),
    )
    expect(message?.message).toMatch(/^Nothing is left of w1 round its stud/)
  })
  test('under a stop no wider than its stud', () => {
    const stop = (across: number): Hardware => ({
      id: 's1',
      kind: 'stop',
      at: { slot: 'S1', radius: 128 },
      facing: 180,
      size: [across, across, 20],
      stud: { thread: 'M12', class: '8.8', length: 'suit' },
      torque: 45,
      fixed: true,
    })
    const withStop = (across: number) => stops(heldBlock({ hardware: [...STRONG, stop(across)] }))
    expect(withStop(30)).not.toContain('washer-too-small')
    expect(withStop(11)).toContain('washer-off')
  })
})

test('a bolt through a hole of the part that its washer hardly bridges', () => {
  const at = (hole: number): string[] => {
    const job = pumpBody()
    const [flange, ...rest] = job.part.bodies as [Prism, ...Job['part']['bodies']]
    const holes = [45, 135, 225, 315].map((a) => circleRing(polar(90, a), hole))
    return stops({ ...job, part: { ...job.part, bodies: [{ ...flange, holes }, ...rest] } })
  }
  expect(at(14)).toEqual([])
  // π/4·(23² − 22²) is 35 mm² under 38 kN.
  expect(at(22)).toContain('washer-too-small')
})

test('a bolt too near to the edge of a sub-plate, or of a weight', () => {
  const on = (across: number): string[] => {
    const narrowed = (h: Hardware) => (h.kind === 'fixture' ? { ...h, footprint: { circle: across } } : h)
    return stops(withHardware(gunmetalStrap(), narrowed))
  }
  // Its bolts stand at 78, a washer reaches 10 further.
  expect(on(190)).toEqual([])
  expect(on(176)).toEqual([])
  expect(on(158)).toContain('washer-off')
  const bar = (from: number) =>
    [from, 60].flatMap((x) =>
      x === from
        ? [{ x, y: -25 }]
        : [
            { x, y: -25 },
            { x, y: 25 },
            { x: from, y: 25 },
          ],
    )
  expect(stops(weight({ footprint: { outline: bar(-30) } }))).not.toContain('washer-off')
  expect(stops(weight({ footprint: { outline: bar(-2) } }))).toContain('washer-off')
})

test('a twin on one bolt alone is not judged', () => {
  const job = twinJob()
  const one = withHardware(job, (h) => (h.kind === 'twin' ? { ...h, bolts: h.bolts.slice(0, 1) } : h))
  const said = (j: Job) =>
    analyse(j, 'op10')
      .findings.filter((f) => f.code === 'one-clamp')
      .map((f) => f.effect)
  expect(said(job)).toEqual([])
  expect(said(one)).toEqual(['unknown'])
})

describe('the heel', () => {
  const heel = (size: readonly [number, number], slotted = 0) =>
    stops(
      all((c) => ({
        strap: { ...c.strap, slotted },
        heel: { kind: 'block', size: [...size], height: 'suit' },
      })),
    )
  test('what of the strap lies on it', () => {
    const clamp = strapClamp('c1', 1)
    // 30 by 30 flush with a tail 60 behind the bolt, its middle 45 behind it.
    expect(strapOnHeel(clamp, 45)).toBeCloseTo(900, 9)
    // A slot of 14 that ends 40 behind the bolt runs 10 over it.
    const slotted = { ...clamp, strap: { ...clamp.strap, slotted: 33 } }
    expect(strapOnHeel(slotted, 45)).toBeCloseTo(900 - 14 * 10, 9)
  })
  test('a sliver is crushed; one as narrow as the slot over it carries nothing', () => {
    expect(heel([30, 30])).toEqual([])
    expect(heel([0.5, 30])).toContain('pressed-beyond-yield')
    expect(heel([30, 30], 40)).toEqual([])
    expect(heel([30, 14], 60)).toContain('heel-not-carried')
  })
})

test('a pin with play falls out of its hole', () => {
  const pin = (diameter: number): Job => {
    const job = heldBlock({
      hardware: [
        ...STRONG,
        { id: 'd1', kind: 'dowel', at: { hole: 'D' }, diameter, length: 20, fixed: true },
      ],
    })
    return { ...job, plate: { ...job.plate, holes: [{ id: 'D', x: 85, y: 85, diameter: 10 }] } }
  }
  expect(stops(pin(10))).toEqual([])
  expect(stops(pin(9.6))).toEqual([])
  expect(stops(pin(5))).toEqual(['stud-does-not-fit'])
})

test('a hole wider than its thread has none', () => {
  const at = (diameter: number): Job => {
    const job = heldBlock({ hardware: [...STRONG, stackOf('w1', 1, 128, { at: { hole: 'T' }, torque: 40 })] })
    const holes = [{ id: 'T', x: 90, y: 90, diameter, thread: 'M12' }]
    return { ...job, plate: { ...job.plate, holes } }
  }
  expect(stops(at(10.2))).not.toContain('stud-does-not-fit')
  expect(stops(at(12))).not.toContain('stud-does-not-fit')
  expect(stops(at(24))).toContain('stud-does-not-fit')
})

test('friction above all that fixture makers reckon with counts as their highest', () => {
  const at = (frictionCoefficient: number) =>
    analyse(heldBlock({ hardware: STRONG, setup: { frictionCoefficient } }), 'op10')
  const factor = (mu: number) => at(mu).joints.find((j) => j.id === 'part')!.factor!
  expect(factor(2)).toBe(factor(0.3))
  expect(factor(0.29)).toBeLessThan(factor(0.3))
  expect(at(2).findings.find((f) => f.code === 'friction-bold')!.message).toMatch(/It counts as 0\.3\.$/)
})

test('in inches what bears too little is told in inches and psi', () => {
  const said = (job: Job) =>
    analyse({ ...job, displayUnits: 'in' }, 'op10')
      .findings.filter((f) => /sinks in|is crushed/.test(f.message))
      .map((f) => f.message)
  const heel = said(all(() => ({ heel: { kind: 'block', size: [0.5, 30], height: 'suit' } })))
  const washer = said(all(() => ({ washer: { diameter: 14.3, thickness: 2.5 } })))
  // 0.5 mm × 30 mm is 0.02325 in²; 225 and 490 N/mm² are 32 633 and 71 068 psi.
  expect(heel[0]).toMatch(/on 0\.0233 in²\. .* mild steel yields at 32630 psi\.$/)
  expect(washer[0]).toMatch(/ in²\. .* mild steel bears 71070 psi\.$/)
  expect([...heel, ...washer].join()).not.toMatch(/mm/)
})
