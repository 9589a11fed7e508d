/** Trim of a whole job: readings made from a job that differs from the one at hand in one known thing. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Job, Setup } from '../../../src-core/job/schema.ts'
import { applyPlan, withoutHardware } from '../../../src-core/planner/apply.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { measuredJob, withResidual } from '../../../src-core/trim/measuredJob.ts'
import { weightVector } from '../../../src-core/trim/estimate.ts'
import { closesLoop, computedVector } from '../../../src-core/trim/compare.ts'
import type { FourRunReadings, RollReadings } from '../../../src-core/trim/readings.ts'
import { judgeReadings, trimReport, type TrimReport } from '../../../src-core/trim/report.ts'
import { judgeTrialRun } from '../../../src-core/trim/trialRun.ts'
import { formatter } from '../../../src-core/units/format.ts'
import { bore, disc, jobWith, partOf, piece, shippedJob } from '../../helpers/jobs.ts'
import { expectNear } from '../../helpers/near.ts'

const PER_GMM = 1e-4

/** What a meter would show on the lathe that turns `real`, to the last digit. */
function readingsOf(real: Job): FourRunReadings {
  const u = computedVector(analyse(real, 'op10'))
  const mass_g = Math.hypot(u.x, u.y) / 100
  const trials = [0, 120, 240].map((angle_deg) => {
    const place = { mass_g, radius_mm: 100, angle_deg }
    const w = weightVector(place)
    return { ...place, amplitude: PER_GMM * Math.hypot(u.x + w.x, u.y + w.y) }
  })
  return { method: 'four-run', rpm: 110, first: PER_GMM * Math.hypot(u.x, u.y), trials }
}

function report(job: Job, readings: FourRunReadings | RollReadings, takeOff = false): TrimReport {
  const result = trimReport(job, 'op10', readings, { takeOff })
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.report
}

/** Sure of everything but what it may be asked about, so that small differences show. */
const SURE = { computedMass: 0.001, weighedMass: 0.001, centreOfMass: 0.02, placing: 0.05 }

const JOB = jobWith({
  part: partOf(
    [disc('boss', { x: 0, y: 0 }, 80, 40), disc('web', { x: 60, y: 10 }, 70, 20)],
    [bore('A', { x: 0, y: 0 }, 30), bore('B', { x: 60, y: 10 }, 36)],
  ),
  setup: {
    centre: { bore: 'A' },
    turn: 20,
    hardware: [
      piece('c1', 0.9, { slot: 'S2', radius: 110 }),
      piece('c2', 0.9, { slot: 'S4', radius: 110 }),
      // Nearly settles it: what differs then stands out of the readings' own doubt.
      piece('w1', 0.34, { x: -87, y: -49 }),
    ],
  },
  uncertainty: SURE,
})

const changed = (job: Job, setup: Partial<Setup>): Job => ({
  ...job,
  setups: job.setups.map((s) => ({ ...s, ...setup })),
})

describe('beside what was computed', () => {
  test('the same job agrees, and nothing is suggested', () => {
    const r = report(JOB, readingsOf(JOB))
    expect(r.computed.agrees).toBe(true)
    expect(r.computed.message).toMatch(/agree within their doubts/)
    expect(r.suggests).toEqual([])
    expectNear(r.measured_g_mm!, analyse(JOB, 'op10').unbalance.static_g_mm, { rel: 1e-6 })
  })

  test.each([
    [
      'another density',
      { ...JOB, part: { ...JOB.part, density: 7200 } },
      'density',
      /7200 kg\/m³ instead of 7850 kg\/m³, about that of/,
    ],
    [
      'a piece that is not there',
      withoutHardware(JOB, 'op10', ['c2']),
      'piece',
      /c2 may not be on the plate/,
    ],
    [
      'a hole that is cored',
      {
        ...JOB,
        part: {
          ...JOB.part,
          bodies: [...JOB.part.bodies, disc('core', { x: 60, y: 10 }, 28, 20, { effect: 'removes' })],
        },
      },
      'core',
      /Hole B may be cored or drilled already, to about 28/,
    ],
    ['a part off its mark', changed(JOB, { centre: { x: -1.2, y: 0.4 } }), 'place', /too far toward/],
  ] as const)('%s is among what may explain it', (_, real, cause, words) => {
    const r = report(JOB, readingsOf(real))
    expect(r.computed.agrees).toBe(false)
    const found = r.suggests.find((s) => s.cause === cause)
    expect(found?.message).toMatch(words)
    expectNear(found!.left_g_mm / r.computed.difference_g_mm!, 0, { abs: 0.05 })
  })

  test('a nut and washer too many on a clamp are found in a job with real clamps', () => {
    const job: Job = { ...shippedJob('flat-link'), uncertainty: { ...SURE, plateResidual: 0.001 } }
    const { setup, pieces } = mountSetup(job, 'op10')
    const clamp = pieces.find((p) => p.item.kind === 'clamp')!
    const nuts = clamp.solids.filter((s) => s.role === 'nut' || s.role === 'washer')
    const mass = nuts.reduce((s, n) => s + n.mass, 0)
    expect(mass).toBeGreaterThan(0.01)
    const spare = piece('spare', mass, { x: clamp.fastenings[0]!.at.x, y: clamp.fastenings[0]!.at.y })
    // Settled as well as a computer can, so that a nut shows.
    const { x, y } = computedVector(analyse(job, 'op10'))
    const settled = withResidual(job, { x: -0.999 * x, y: -0.999 * y })
    const real = { ...settled, setups: [{ ...setup, hardware: [...setup.hardware, spare] }] }
    const found = report(settled, readingsOf(real)).suggests.filter((s) => s.cause === 'nut')
    expect(found.map((s) => [s.item, s.message])).toContainEqual([
      clamp.item.id,
      expect.stringMatching(/A nut and washer too many may be on/),
    ])
  })

  test('doubtful readings allow a difference that sure ones do not', () => {
    const { static_g_mm: u, static_angle_deg: angle } = analyse(JOB, 'op10').unbalance
    const held = (friction: number) => {
      const up_g = (1.4 * u + friction) / 100
      const down_g = (1.4 * u - friction) / 100
      const sides = ([90, -90] as const).map((side) => ({ radius_mm: 100, up_g, down_g, side }))
      return report(JOB, { method: 'roll', rests_deg: [angle, angle, angle], hold: sides }).computed.agrees
    }
    expect(held(0)).toBe(false)
    expect(held(1.4 * u)).toBe(true)
  })

  test('a direction alone is compared as a direction', () => {
    const { static_angle_deg: angle } = analyse(JOB, 'op10').unbalance
    const roll = (rests_deg: number[]) => report(JOB, { method: 'roll', rests_deg })
    expect(roll([angle - 2, angle, angle + 2]).computed.agrees).toBe(true)
    const off = roll([angle + 88, angle + 90, angle + 92])
    expect(off.computed.agrees).toBe(false)
    expect(off.computed.message).toMatch(/90° from where it was computed/)
    expect(off).toMatchObject({ measured_g_mm: null, plans: [], misfit: null })
    expect(off.plan_remarks.join()).toMatch(/how heavy/)
  })
})

describe('corrected from stock', () => {
  const STOCKED: Job = {
    ...shippedJob('flat-link'),
    // What is measured differs from what is computed.
    plate: { ...shippedJob('flat-link').plate, residual: { amount: 0, angle: 0 } },
  }
  const REAL: Job = { ...STOCKED, plate: { ...STOCKED.plate, residual: { amount: 30_000, angle: 250 } } }

  test('the plan settles the measured unbalance, and leaves what is on', () => {
    const r = report(STOCKED, readingsOf(REAL))
    expect(r.plans.length).toBeGreaterThan(0)
    for (const plan of r.plans) {
      expect(plan.replaces).toEqual([])
      expect(plan.moves).toEqual([])
      const after = analyse(applyPlan(REAL, 'op10', plan), 'op10').unbalance
      expectNear(after.static_g_mm, plan.residual_g_mm, { abs: 1 })
      expectNear(plan.reading!.amplitude, PER_GMM * after.static_g_mm, { abs: 1e-3 })
    }
    expect(r.plans[0]!.residual_g_mm).toBeLessThan(0.2 * r.measured_g_mm!)
  })

  test('readings after the correction close the loop: what it was to leave is measured, a weight gone astray is told', () => {
    const r = report(STOCKED, readingsOf(REAL))
    const plan = r.plans[0]!
    const expected = {
      amount: plan.residual_g_mm,
      angle: plan.residual_angle_deg,
      upper: plan.upper95_g_mm,
    }
    const [model, real] = [applyPlan(STOCKED, 'op10', plan), applyPlan(REAL, 'op10', plan)]
    const again = (of: Job) => {
      const judged = judgeReadings(model, analyse(model, 'op10'), readingsOf(of))
      if (!judged.ok) throw new Error('not judged')
      return closesLoop(expected, judged.judged.estimate!, formatter('mm'))
    }
    expect(again(real)).toMatchObject({ agrees: true, message: expect.stringContaining('within doubt') })
    // The same weight put on a third of a turn from where it was planned: 30 000 g·mm more or less.
    const astray = { ...real, plate: { ...real.plate, residual: { amount: 30_000, angle: 130 } } }
    expect(again(astray)).toMatchObject({ agrees: false, message: expect.stringContaining('did not leave') })
    // A second correction from the second readings finds next to nothing left to do.
    const second = report(model, readingsOf(real))
    expectNear(second.measured_g_mm!, plan.residual_g_mm, { abs: 1 })
    expect(second.measured_g_mm!).toBeLessThan(0.2 * r.measured_g_mm!)
  })

  test('weights come off only where that is allowed', () => {
    const weights = STOCKED.setups[0]!.hardware.filter((h) => h.kind === 'weight' && !h.fixed).map(
      (h) => h.id,
    )
    expect(weights.length).toBeGreaterThan(0)
    const r = report(STOCKED, readingsOf(REAL), true)
    expect(r.plans.some((p) => p.replaces.length > 0)).toBe(true)
  })

  test('what stays on the plate is not used a second time', () => {
    const analysis = analyse(STOCKED, 'op10')
    const measured = {
      vector: { x: 1, y: 0 },
      covariance: { xx: 1, xy: 0, yy: 1 },
      misfit: null,
      response: null,
    }
    const countsOf = (kept: boolean) =>
      measuredJob(STOCKED, 'op10', analysis, measured, kept).stock.map((s) => s.count)
    const total = STOCKED.stock.map((s) => s.count)
    const on = STOCKED.setups[0]!.hardware.flatMap((h) => (h.kind === 'weight' ? h.stack : []))
    expect(on.length).toBeGreaterThan(0)
    const left = STOCKED.stock.map(
      (s) => s.count - on.reduce((n, l) => n + (l.stock === s.id ? l.count : 0), 0),
    )
    expect(countsOf(true)).toEqual(left)
    expect(countsOf(false)).toEqual(total)
  })

  test('two answers that the model cannot tell apart are not corrected', () => {
    // Trial weights on one line; the job's own heavy side lies far from both answers.
    const trials = [0, 180, 0].map((angle_deg, i) => ({
      mass_g: 1000,
      radius_mm: 100,
      angle_deg,
      amplitude: i === 1 ? 4 : 5,
    }))
    const r = report(JOB, { method: 'four-run', rpm: 110, first: 3, trials })
    expect(r.also).toHaveLength(1)
    expect(r.plans).toEqual([])
    expect(r.plan_remarks.join()).toMatch(/which of the answers holds is not known/)
  })
})

describe('a trial run is judged first', () => {
  test('with its weight on, at its speed', () => {
    const at = (mass_g: number, rpm: number) =>
      judgeTrialRun(JOB, 'op10', { mass_g, radius_mm: 100, angle_deg: 0 }, rpm)
    const u = analyse(JOB, 'op10').unbalance.static_g_mm
    const none = judgeTrialRun(JOB, 'op10', null, 110)
    expectNear(none.unbalance_g_mm, u, { rel: 1e-9 })
    expect(at(100_000, 110).unbalance_g_mm).toBeGreaterThan(9e6)
    expect(at(100_000, 440)).toMatchObject({ verdict: 'stop', rpm: 440 })
    expect(judgeTrialRun(JOB, 'op10', { mass_g: 10, radius_mm: 300, angle_deg: 0 }, 45)).toMatchObject({
      verdict: 'stop',
      reason: expect.stringMatching(/off the plate: radius 300 mm, rim 150 mm/) as string,
    })
  })
})
