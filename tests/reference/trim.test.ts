/** Published single-plane balancing data, worked again where the printed answer was drawn or misprinted. */
import { describe, expect, test } from 'vitest'
import { polar } from '../../src-core/geometry/angles.ts'
import { formatter } from '../../src-core/units/format.ts'
import { answerOf, type Estimate, type Outcome } from '../../src-core/trim/estimate.ts'
import { solveFourRun } from '../../src-core/trim/fourRun.ts'
import { solveRoll } from '../../src-core/trim/roll.ts'
import { solveVector } from '../../src-core/trim/vectorRun.ts'
import { expectNear } from '../helpers/near.ts'

const fmt = formatter('mm')
const DOUBT = { massShare: 0.005, place: 1 }
const turned = (a: number) => ((a % 360) + 360) % 360

function solved(outcome: Outcome): readonly Estimate[] {
  if (!outcome.ok) throw new Error(outcome.faults.map((f) => `${f.path} ${f.message}`).join('\n'))
  return outcome.estimates
}

/** g at the trial's radius and the plate's angle of what balances. */
function correction(estimate: Estimate, radius: number): { grams: number; angle: number } {
  const { measured_g_mm, heavy_angle_deg } = answerOf(estimate)
  return { grams: measured_g_mm / radius, angle: turned(heavy_angle_deg + 180) }
}

const trials = (mass_g: number, radius_mm: number, rows: readonly (readonly [number, number])[]) =>
  rows.map(([angle_deg, amplitude]) => ({ mass_g, radius_mm, angle_deg, amplitude }))

describe('four runs', () => {
  test('a published set that does not close: circles met by least squares, misfit told', () => {
    // Shreve, "Balancing Without Phase": O 10, 50 g, 7.0 at 0°, 12.0 at 120°, 18.0 at 240° (mil). The answer is not
    // printed; 59.258616 g at 41.663880° with 0.26240788 mil of misfit is the least-squares meeting of the circles,
    // 58.8 to 62 g at 40 to 42° what other constructions give.
    const rows = [
      [0, 7],
      [120, 12],
      [240, 18],
    ] as const
    const [best, ...more] = solved(
      solveFourRun({ method: 'four-run', rpm: 300, first: 10, trials: trials(50, 100, rows) }, DOUBT, fmt),
    )
    const { grams, angle } = correction(best!, 100)
    expectNear(grams, 59.258616, { rel: 1e-6 })
    expectNear(angle, 41.66388, { abs: 1e-5 })
    expectNear(best!.misfit!, 0.26240788, { rel: 1e-6 })
    expect(more).toEqual([])
  })

  test('a set made to close gives its own weight and place, with no misfit', () => {
    const rows = [
      [0, 6.4368384],
      [120, 11.671174],
      [240, 17.729941],
    ] as const
    const [best] = solved(
      solveFourRun({ method: 'four-run', rpm: 300, first: 10, trials: trials(40, 90, rows) }, DOUBT, fmt),
    )
    const { grams, angle } = correction(best!, 90)
    expectNear(grams, 50, { rel: 1e-6 })
    expectNear(angle, 40, { abs: 1e-5 })
    expectNear(best!.misfit!, 0, { abs: 1e-5 })
  })

  test('trial weights on one line leave two answers', () => {
    // Published three-run formula: O 3, T1 5 at 0°, T2 4 at 180°: 0.884652 of the trial weight, ±77.2227°, sign not told.
    const rows = [
      [0, 5],
      [180, 4],
      [0, 5],
    ] as const
    const outcome = solveFourRun(
      { method: 'four-run', rpm: 300, first: 3, trials: trials(100, 100, rows) },
      DOUBT,
      fmt,
    )
    const both = solved(outcome).map(answerOf)
    expect(both).toHaveLength(2)
    for (const a of both) expectNear(a.measured_g_mm, 8846.52, { rel: 1e-5 })
    const angles = both.map((a) => a.heavy_angle_deg).sort((a, b) => a - b)
    expectNear(angles[0]!, 77.2227, { abs: 1e-3 })
    expectNear(angles[1]!, 360 - 77.2227, { abs: 1e-3 })
    expect(outcome.ok && outcome.remarks.join(' ')).toMatch(/2 answers/)
  })
})

describe('one trial with amplitude and phase', () => {
  test.each([
    // Graphical answer printed: 77.77 g at 35° with T = 9 mil drawn; exact 81.373347 g, 35.537678° back from the trial.
    ['two right-angled readings', [7, 160], [100, 0], [5, 70], 81.373347, turned(-35.537678), 77.77, 0.05],
    // Printed 34.6 g from a drawing; exact 36.795213 g, 31.189112° on from the trial at 180°.
    ['a reading drawn in divisions', [0.36, 18], [50, 180], [0.26, 121], 36.795213, 211.189112, 34.6, 0.07],
    // Exam problem without a printed answer: 66.814935 g at 346.70392°.
    ['a trial weight at −65°', [0.2, 40], [200, -65], [0.5, 150], 66.814935, 346.70392, null, 0],
    // Field example on a fan: printed 83.5 g at 308.87°; the printed effect vector stands twice with different digits.
    ['a fan in the field', [4.81, 16.8], [103.25, 0], [4.7628, 299.9], 83.4286, 308.806, 83.5, 0.001],
  ] as const)('%s', (_, first, trial, second, grams, angle, printed, within) => {
    const radius = 65
    const [best] = solved(
      solveVector(
        {
          method: 'vector',
          rpm: 1200,
          first: { amplitude: first[0], phase_deg: first[1] },
          trial: {
            mass_g: trial[0],
            radius_mm: radius,
            angle_deg: trial[1],
            amplitude: second[0],
            phase_deg: second[1],
          },
        },
        DOUBT,
      ),
    )
    const found = correction(best!, radius)
    expectNear(found.grams, grams, { rel: 1e-6 })
    expectNear(found.angle, angle, { abs: 1e-3 })
    if (printed !== null) expectNear(found.grams, printed, { rel: within })
  })
})

describe('a weight that holds the heavy side level', () => {
  test('half way between lifting and letting fall', () => {
    // Statics, made by hand: 162 g lifts and 138.8 g lets fall at 120 mm: 18 048 g·mm, friction 1392 g·mm.
    const { estimates, held } = solveRoll(
      {
        method: 'roll',
        rests_deg: [39, 41, 40],
        hold: [{ radius_mm: 120, up_g: 162, down_g: 138.8, side: 90 }],
      },
      DOUBT,
      fmt,
    )
    const answer = answerOf(estimates[0]!)
    expectNear(answer.measured_g_mm, 18_048, { rel: 1e-12 })
    expectNear(answer.heavy_angle_deg, 40, { abs: 1e-9 })
    expectNear(held!.friction_g_mm, 1392, { rel: 1e-12 })
    expect(answer.upper95_g_mm).toBeGreaterThan(18_048)
    expect(estimates[0]!.vector).toEqual(polar(18_048, answer.heavy_angle_deg))
  })
})
