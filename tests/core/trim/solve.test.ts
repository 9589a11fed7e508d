/** Laws of the three ways to measure, over sets made from a known unbalance. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { polar, turnBetween } from '../../../src-core/geometry/angles.ts'
import {
  answerOf,
  predictedReading,
  weightVector,
  type Estimate,
  type Outcome,
} from '../../../src-core/trim/estimate.ts'
import { solveFourRun } from '../../../src-core/trim/fourRun.ts'
import type { FourRunReadings, RollReadings, VectorReadings } from '../../../src-core/trim/readings.ts'
import { restsOf, solveRoll } from '../../../src-core/trim/roll.ts'
import { solveVector } from '../../../src-core/trim/vectorRun.ts'
import { formatter } from '../../../src-core/units/format.ts'
import { expectNear } from '../../helpers/near.ts'

const fmt = formatter('mm')
const DOUBT = { massShare: 0.005, place: 1 }

function only(outcome: Outcome): Estimate {
  if (!outcome.ok) throw new Error(outcome.faults.map((f) => `${f.path} ${f.message}`).join('\n'))
  expect(outcome.estimates).toHaveLength(1)
  return outcome.estimates[0]!
}

const angle = fc.double({ min: 0, max: 359.9, noNaN: true })
const truth = fc.record({
  /** Unbalance over that of a trial weight. */
  size: fc.double({ min: 0.4, max: 3, noNaN: true }),
  heavy: angle,
  perGmm: fc.double({ min: 1e-6, max: 1e-2, noNaN: true }),
  ahead: angle,
})
type Truth = typeof truth extends fc.Arbitrary<infer T> ? T : never

const TRIAL = { mass_g: 120, radius_mm: 110 }
const SIZE = TRIAL.mass_g * TRIAL.radius_mm
const unbalanceOf = (t: Truth) => polar(t.size * SIZE, t.heavy)
const amplitude = (t: Truth, ...on: { x: number; y: number }[]) => {
  const sum = on.reduce((s, w) => ({ x: s.x + w.x, y: s.y + w.y }), unbalanceOf(t))
  return {
    size: t.perGmm * Math.hypot(sum.x, sum.y),
    phase: (Math.atan2(sum.y, sum.x) * 180) / Math.PI + t.ahead,
  }
}

/** Three places about a third of a turn apart, and a fourth anywhere. */
const places = fc.tuple(
  fc.double({ min: -25, max: 25, noNaN: true }),
  fc.double({ min: 95, max: 145, noNaN: true }),
  fc.double({ min: 215, max: 265, noNaN: true }),
  angle,
)

function fourRuns(t: Truth, at: readonly number[], turn = 0): FourRunReadings {
  return {
    method: 'four-run',
    rpm: 110,
    first: amplitude(t).size,
    trials: at.map((a) => {
      const w = { ...TRIAL, angle_deg: a + turn }
      return { ...w, amplitude: amplitude(t, weightVector(w)).size }
    }),
  }
}

function oneTrial(t: Truth, at: number): VectorReadings {
  const w = { ...TRIAL, angle_deg: at }
  const before = amplitude(t)
  const after = amplitude(t, weightVector(w))
  return {
    method: 'vector',
    rpm: 110,
    first: { amplitude: before.size, phase_deg: before.phase },
    trial: { ...w, amplitude: after.size, phase_deg: after.phase },
  }
}

const near = (e: Estimate, t: Truth, turn = 0) => {
  const { measured_g_mm, heavy_angle_deg, upper95_g_mm } = answerOf(e)
  expectNear(measured_g_mm, t.size * SIZE, { rel: 1e-5 })
  expectNear(turnBetween(t.heavy + turn, heavy_angle_deg), 0, { abs: 1e-3 })
  expect(upper95_g_mm).toBeGreaterThan(measured_g_mm)
}

describe('four runs', () => {
  test('give back what the readings were made from, misfit nought', () => {
    fc.assert(
      fc.property(truth, places, (t, at) => {
        const e = only(solveFourRun(fourRuns(t, at), DOUBT, fmt))
        near(e, t)
        expectNear(e.misfit! / amplitude(t).size, 0, { abs: 1e-6 })
      }),
      { numRuns: 60 },
    )
  })

  test('all places turned turn the answer by as much', () => {
    fc.assert(
      fc.property(truth, places, fc.double({ min: -180, max: 180, noNaN: true }), (t, at, turn) => {
        const turned = { ...t, heavy: t.heavy + turn }
        near(only(solveFourRun(fourRuns(turned, at, turn), DOUBT, fmt)), t, turn)
      }),
      { numRuns: 30 },
    )
  })

  test('with the correction on the meter is to read nothing, with a trial weight what it read', () => {
    fc.assert(
      fc.property(truth, places, (t, at) => {
        const readings = fourRuns(t, at)
        const e = only(solveFourRun(readings, DOUBT, fmt))
        const none = predictedReading(e, [{ x: -e.vector.x, y: -e.vector.y }])!
        expectNear(none.amplitude / readings.first, 0, { abs: 1e-9 })
        for (const trial of readings.trials)
          expectNear(
            predictedReading(e, [weightVector(trial)])!.amplitude / readings.first,
            trial.amplitude / readings.first,
            {
              abs: 1e-5,
            },
          )
      }),
      { numRuns: 30 },
    )
  })

  test('readings that scatter widen the doubt', () => {
    const t = { size: 1, heavy: 222, perGmm: 1e-4, ahead: 0 }
    const exact = fourRuns(t, [0, 120, 240, 60])
    const doubtOf = (by: number) => {
      const trials = exact.trials.map((r, i) => ({ ...r, amplitude: r.amplitude + (i % 2 ? by : -by) }))
      const { covariance } = only(solveFourRun({ ...exact, trials }, DOUBT, fmt))
      return covariance.xx + covariance.yy
    }
    const steps = [0, 0.02, 0.05, 0.1].map(doubtOf)
    expect([...steps].sort((a, b) => a - b)).toEqual(steps)
    expect(steps[3]).toBeGreaterThan(1.5 * steps[0]!)
  })

  test('a set that no weight explains is refused, the reading named', () => {
    const readings = fourRuns({ size: 1, heavy: 40, perGmm: 1e-4, ahead: 0 }, [0, 120, 240, 300])
    const broken = readings.trials.map((r, i) => (i === 2 ? { ...r, amplitude: 3 * readings.first } : r))
    const outcome = solveFourRun({ ...readings, trials: broken }, DOUBT, fmt)
    expect(outcome).toMatchObject({ ok: false })
    if (!outcome.ok) expect(outcome.faults[0]!.path).toBe('trials[2].amplitude')
  })

  test('one place used three times tells nothing, or gives two answers', () => {
    const readings = fourRuns({ size: 1, heavy: 40, perGmm: 1e-4, ahead: 0 }, [90, 90, 90])
    const outcome = solveFourRun(readings, DOUBT, fmt)
    expect(outcome.ok && outcome.estimates.length === 1).toBe(false)
  })
})

describe('one trial with phase', () => {
  test('gives back what the readings were made from, whatever the meter adds to phase', () => {
    fc.assert(
      fc.property(truth, angle, (t, at) => {
        const e = only(solveVector(oneTrial(t, at), DOUBT))
        near(e, t)
        const none = predictedReading(e, [{ x: -e.vector.x, y: -e.vector.y }])!
        expectNear(none.amplitude / amplitude(t).size, 0, { abs: 1e-9 })
        const again = predictedReading(e, [])!
        expectNear(turnBetween(amplitude(t).phase, again.phase_deg!), 0, { abs: 1e-3 })
      }),
    )
  })

  test('a trial weight that changes little is said to tell too little, one that changes nothing is refused', () => {
    const t = { size: 30, heavy: 40, perGmm: 1e-4, ahead: 10 }
    const little = solveVector(oneTrial(t, 100), DOUBT)
    expect(little.ok && little.remarks.join()).toMatch(/tells too little/)
    const enough = solveVector(oneTrial({ ...t, size: 1 }, 100), DOUBT)
    expect(enough).toMatchObject({ ok: true, remarks: [] })
    const nothing = solveVector(oneTrial({ ...t, size: 1000 }, 100), DOUBT)
    expect(nothing).toMatchObject({ ok: false, faults: [{ path: 'trial' }] })
  })

  test('less effect of the trial, more doubt', () => {
    const share = (size: number) => {
      const e = only(solveVector(oneTrial({ size, heavy: 40, perGmm: 1e-4, ahead: 10 }, 100), DOUBT))
      return Math.sqrt(e.covariance.xx + e.covariance.yy) / Math.hypot(e.vector.x, e.vector.y)
    }
    expect(share(8)).toBeGreaterThan(2 * share(1))
  })
})

describe('a roll', () => {
  const held = (more: Partial<RollReadings> = {}): RollReadings => ({
    method: 'roll',
    rests_deg: [38, 40, 42],
    hold: [{ radius_mm: 100, up_g: 220, down_g: 180, side: 90 }],
    ...more,
  })
  const roll = (readings: RollReadings) => solveRoll(readings, DOUBT, fmt)
  const doubtOf = (readings: RollReadings) => {
    const { covariance } = only(roll(readings))
    return covariance.xx + covariance.yy
  }

  test('the mean of rests does not mind the end of the turn', () => {
    expectNear(turnBetween(0, restsOf([350, 10, 5, 355]).mean_deg), 0, { abs: 1e-9 })
    // Near together, the standard deviation of angles is that of numbers: 2 and −2 about 10 give 2·√2.
    expectNear(restsOf([8, 12]).scatter_deg, 2 * Math.SQRT2, { rel: 2e-3 })
  })

  test('all angles turned turn the answer', () => {
    fc.assert(
      fc.property(angle, (turn) => {
        const rests_deg = held().rests_deg.map((r) => r + turn)
        const a = answerOf(only(roll(held({ rests_deg }))))
        expectNear(turnBetween(40 + turn, a.heavy_angle_deg), 0, { abs: 1e-9 })
        expectNear(a.measured_g_mm, 20_000, { rel: 1e-12 })
      }),
    )
  })

  test('scatter, friction and fewer rests widen the doubt', () => {
    expect(doubtOf(held({ rests_deg: [20, 40, 60] }))).toBeGreaterThan(doubtOf(held()))
    expect(doubtOf(held({ rests_deg: [40] }))).toBeGreaterThan(doubtOf(held({ rests_deg: [40, 40, 40] })))
    const sticky = [{ radius_mm: 100, up_g: 300, down_g: 100, side: 90 as const }]
    expect(doubtOf(held({ hold: sticky }))).toBeGreaterThan(doubtOf(held()))
  })

  test('a spindle that turns easier one way is evened out by holding it on both sides', () => {
    // Made by hand: U 20 000 g·mm, friction 3000 one way and 1000 the other, at 100 mm.
    const both = [
      { radius_mm: 100, up_g: 230, down_g: 190, side: 90 as const },
      { radius_mm: 100, up_g: 210, down_g: 170, side: -90 as const },
    ]
    expectNear(roll(held({ hold: both })).held!.unbalance_g_mm, 20_000, { rel: 1e-12 })
    expectNear(roll(held({ hold: [both[0]!] })).held!.unbalance_g_mm, 21_000, { rel: 1e-12 })
    expect(roll(held({ hold: [both[0]!] })).remarks.join()).toMatch(/one side only/)
  })

  test('one rest that does not belong, rests everywhere and friction that hides are told', () => {
    expect(roll(held({ rests_deg: [39, 40, 41, 95] })).remarks.join()).toMatch(
      /The rest at 95° lies 55° from/,
    )
    expect(roll(held({ rests_deg: [0, 100, 190, 280] })).remarks.join()).toMatch(/anywhere/)
    const stuck = [{ radius_mm: 100, up_g: 200, down_g: 0, side: 90 as const }]
    expect(roll(held({ hold: stuck })).remarks.join()).toMatch(
      /Friction hides it: what is there may be anything up to 20000 g·mm/,
    )
    expect(roll(held()).remarks).toEqual([expect.stringMatching(/one side only/)])
  })

  test('without a hung weight only the direction is known', () => {
    const outcome = roll(held({ hold: [] }))
    expect(outcome.estimates).toEqual([])
    expectNear(outcome.direction!.angle_deg, 40, { abs: 1e-9 })
  })
})
