/** Stops and dowels of a setup: where they touch, what they bear, and that they never lie. Places by hand. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { capacityAt, pinCapacity } from '../../../src-core/holding/backing.ts'
import { backingsOf } from '../../../src-core/holding/backings.ts'
import type { Dowel, Hardware, Job, Plate, StopBlock } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { assemble } from '../../../src-core/unbalance/assembly.ts'
import { uncertaintiesOf } from '../../../src-core/doubt/defaults.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import { dowelPin, FOUR_CLAMPS, heldBlock, stopBlock } from '../../helpers/heldJobs.ts'
import { block, bore, disc, partOf } from '../../helpers/jobs.ts'
import { expectNear } from '../../helpers/near.ts'

/** Beside the straps, its front hard against x = 50. */
const stop = (more: Partial<StopBlock> = {}) => stopBlock({ x: 70, y: 35 }, [40, 24, 24], more)
const dowel = (more: Partial<Dowel> = {}) => dowelPin({ hole: 'P' }, 30, more)

/** The block of four straps on a plate with a slot for the stop's stud and a hole for a pin. */
function jobOf(
  hardware: readonly Hardware[],
  more: { plate?: Partial<Plate>; part?: Job['part'] } = {},
): Job {
  const job = heldBlock({ hardware: [...FOUR_CLAMPS, ...hardware], setup: { speed: 280 } })
  const plate = {
    ...job.plate,
    slots: [
      ...job.plate.slots,
      { id: 'S5', angle: 26.565, from: 60, to: 110, width: 14, kind: 'through' as const },
    ],
    holes: [{ id: 'P', x: -56, y: 30, diameter: 12 }],
    ...more.plate,
  }
  return { ...job, plate, ...(more.part ? { part: more.part } : {}) }
}

const of = (job: Job) => analyse(job, 'op10')
const note = (job: Job, code: string) => of(job).findings.filter((f) => f.code === code)
const partOfJob = (job: Job) => of(job).joints[0]!
const capacity = (job: Job) => {
  const mounted = mountSetup(job, 'op10')
  const [backed] = backingsOf(mounted, assemble(mounted, uncertaintiesOf(job)).pieces)
  return backed?.backing ? capacityAt(backed.backing, 280) : 0
}

describe('a stop hard against an edge', () => {
  const job = jobOf([stop()])

  test('bears what its own friction leaves when its own loads count double', () => {
    expect(note(job, 'stop-not-counted')).toEqual([])
    expect(note(job, 'stop-bears')[0]!.message).toMatch(/^Stop s1 keeps the part from sliding towards /)
    // 0.1 of the low side of 45 N·m on M12, less twice its pull, weight and spin-up: about 0.44 kg at 78 mm.
    const grip = 0.1 * (45_000 / (0.2 * 12)) * 0.75
    const mass = of(job).terms.find((t) => t.item === 's1')!.mass_kg
    const omega = (2 * Math.PI * 280) / 60
    const pull = mass * (omega ** 2 * Math.hypot(70, 35) * 1e-3 + 9.80665 + (omega / 2) * 78.3e-3)
    const bears = capacity(job)
    expect(bears).toBeLessThan(grip - 2 * pull * 0.9)
    expect(bears).toBeGreaterThan(0.7 * (grip - 2 * pull))
  })

  test('off the middle of its front it bears less, for the push turns it about its stud', () => {
    // Only 8 mm of its 24 lie against the edge that ends at y = 50.
    expect(
      capacity(
        jobOf([stop({ at: { x: 70, y: 54 }, size: [40, 24, 24] })], {
          plate: {
            slots: [
              ...job.plate.slots,
              { id: 'S6', angle: 37.65, from: 60, to: 120, width: 14, kind: 'through' },
            ],
          },
        }),
      ),
    ).toBeLessThan(0.8 * capacity(job))
  })

  test('the part slides less easily towards it', () => {
    const [with_, without] = [backed({ off: 0, y: 35, torque: 45 }), pulled([])]
    expect(partOfJob(with_).sliding!).toBeGreaterThan(1.02 * partOfJob(without).sliding!)
    expect(partOfJob(with_).rpm_at_2!).toBeGreaterThan(partOfJob(without).rpm_at_2!)
  })

  test('the factor at the speed that is said is 2', () => {
    const with_ = backed({ off: 0, y: 35, torque: 45 })
    const rpm = partOfJob(with_).rpm_at_2!
    const there = { ...with_, setups: with_.setups.map((s) => ({ ...s, speed: rpm })) }
    const { factor } = partOfJob(there)
    expect(factor!).toBeGreaterThanOrEqual(2 * (1 - 1e-3))
    expect(factor!).toBeLessThan(2 * 1.01)
  })
})

/** The block 3 mm off the axis with a lump on it, lightly held, so that it pulls towards +x; nothing is bored. */
function pulled(hardware: readonly Hardware[]): Job {
  const job = jobOf(hardware)
  const lump = disc('lump', { x: 20, y: 0 }, 60, 100, { base: 30 })
  return {
    ...job,
    part: partOf([block('body', { x: 0, y: 0 }, [100, 100, 30]), lump]),
    setups: job.setups.map((s) => ({
      ...s,
      centre: { x: -3, y: 0 },
      cut: null,
      speed: 440,
      hardware: s.hardware.map((h) => (h.kind === 'clamp' ? { ...h, torque: 8 } : h)),
    })),
  }
}

/** Against its side at x = 53, the stud in a slot that is there for it. */
function backed({ off, y, torque }: { off: number; y: number; torque: number }): Job {
  const job = pulled([stop({ at: { x: 73 + off, y }, torque })])
  const angle = (Math.atan2(y, 73 + off) * 180) / Math.PI
  const slot = { id: 'S9', angle, from: 40, to: 120, width: 14, kind: 'through' as const }
  return { ...job, plate: { ...job.plate, slots: [...job.plate.slots, slot] } }
}

describe('counts nothing, and says so', () => {
  const cases: readonly (readonly [string, Job, RegExp])[] = [
    [
      '3 mm off',
      jobOf([stop({ at: { x: 73, y: 35 } })]),
      /^Stop s1 stands 3(\.0)? mm off the part: it holds nothing\. Bring it/,
    ],
    ['facing away', jobOf([stop({ facing: 0 })]), /faces no edge of the part: it holds nothing/],
    ['a corner only', jobOf([stop({ at: { x: 70, y: 61.5 } })]), /with a corner only/],
    ['lower than the packing', jobOf([stop({ size: [40, 24, 12] })]), /is too low/],
    ['its torque not given', jobOf([stop({ torque: null })]), /not held for certain/],
    [
      'through solid plate',
      jobOf([stop()], { plate: { slots: jobOf([]).plate.slots.slice(0, 4) } }),
      /not held for certain/,
    ],
    ['nearly loose', jobOf([stop({ torque: 0.2 })]), /does not bear twice its own loads/],
    [
      'above a step that stands back',
      jobOf([stop()], {
        part: partOf(
          [
            block('foot', { x: 0, y: 0 }, [90, 90, 8]),
            block('top', { x: 0, y: 0 }, [100, 100, 22], { base: 8 }),
          ],
          [bore('A', { x: 0, y: 0 }, 30, { start: 20 })],
        ),
      }),
      /only above its seat/,
    ],
    [
      'a pin beside the part',
      jobOf([dowel()], { plate: { holes: [{ id: 'P', x: -60, y: 30, diameter: 12 }] } }),
      /^Dowel d1 stands 4(\.0)? mm off/,
    ],
    ['a pin loose in the plate', jobOf([dowel({ diameter: 11.5 })]), /is loose by 0\.5 mm in hole P/],
    ['a pin in solid plate', jobOf([dowel({ at: { x: -56, y: 20 } })]), /no hole of the plate/],
    ['a pin too short', jobOf([dowel({ length: 12 })]), /too low/],
  ]
  test.each(cases)('%s', (_, job, words) => {
    const notes = note(job, 'stop-not-counted')
    expect(notes.map((f) => f.message).join()).toMatch(words)
    expect(note(job, 'stop-bears')).toEqual([])
    const without = { ...job, setups: job.setups.map((s) => ({ ...s, hardware: s.hardware.slice(0, 4) })) }
    expectNear(partOfJob(job).sliding!, partOfJob(without).sliding!, { rel: 1e-12 })
  })
})

describe('a dowel', () => {
  test('against an edge: one way, up to what bends and shears it', () => {
    const job = jobOf([dowel()])
    expect(note(job, 'stop-bears')[0]!.message).toContain('keeps the part from sliding towards 9')
    // 12 mm of the weakest steel, 225 N/mm², the push 21 mm in front of the plate: Z 169.6 mm³, A 113.1 mm².
    const own = 2 * 0.0515 * ((29.32 ** 2 * 63.5) / 1000 + 9.80665)
    expectNear(capacity(job), 225 / Math.hypot(21 / 169.646, Math.sqrt(3) / 113.097) - own, { rel: 5e-3 })
  })

  test('on the plate itself shear alone', () => {
    const pin = { diameter: 10, mass: 0, radius: 0 }
    expectNear(pinCapacity(pin, 0, 500), (225 / Math.sqrt(3)) * 25 * Math.PI, { rel: 1e-12 })
  })

  test('in a hole of the part: whichever way', () => {
    const holed = (diameter: number) =>
      partOf(
        [block('body', { x: 0, y: 0 }, [100, 100, 30], { holes: [circleRing({ x: -30, y: 30 }, diameter)] })],
        [bore('A', { x: 0, y: 0 }, 30, { start: 20 })],
      )
    const plate = { holes: [{ id: 'P', x: -30, y: 30, diameter: 12 }] }
    const job = jobOf([dowel()], { part: holed(12.1), plate })
    expect(note(job, 'stop-bears')[0]!.message).toContain('whichever way')
    expect(partOfJob(job).sliding!).toBeGreaterThan(
      partOfJob(jobOf([], { part: holed(12.1), plate })).sliding!,
    )
    expect(note(jobOf([dowel()], { part: holed(14), plate }), 'stop-not-counted')).toHaveLength(1)
  })
})

describe('laws', () => {
  const place = fc.record({
    off: fc.double({ min: 0, max: 4, noNaN: true }),
    y: fc.double({ min: -30, max: 30, noNaN: true }),
    torque: fc.double({ min: 1, max: 60, noNaN: true }),
  })
  test('a stop never lowers the factor of the part, and moved off it never raises it', () => {
    fc.assert(
      fc.property(place, (p) => {
        const none = partOfJob(pulled([]))
        const [hard, off] = [partOfJob(backed({ ...p, off: 0 })), partOfJob(backed(p))]
        expect(hard.factor!).toBeGreaterThanOrEqual(none.factor! * (1 - 3e-3))
        expect(off.factor!).toBeGreaterThanOrEqual(none.factor! * (1 - 3e-3))
        expect(off.factor!).toBeLessThanOrEqual(hard.factor! * (1 + 3e-3))
        expect(hard.rpm_at_2!).toBeGreaterThanOrEqual(none.rpm_at_2! * (1 - 3e-3))
      }),
      { numRuns: 10 },
    )
  })
})
