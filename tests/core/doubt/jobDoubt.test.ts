import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { unbalanceCovariance } from '../../../src-core/doubt/covariance.ts'
import { UNCERTAINTY_DEFAULTS, uncertaintiesOf } from '../../../src-core/doubt/defaults.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { block, exampleJob, jobWith, partOf, piece } from '../../helpers/jobs.ts'
import { expectNear } from '../../helpers/near.ts'
import { normals, quantile } from '../../helpers/normal.ts'

const DRAWS = 200_000

/**
 * Draws every mass and every position of a job anew and adds up mᵢ·rᵢ each time: no covariance, no first order.
 * The masses and places come from the analysis, the doubts from the job.
 */
function drawLengths(job: Job, setup: string) {
  const doubt = uncertaintiesOf(job)
  const { terms } = analyse(job, setup)
  const random = normals(77)
  const fixed = terms.find((t) => t.item === 'plate')!.unbalance_g_mm
  const lengths = new Float64Array(DRAWS)
  const sums = { x: 0, y: 0, xx: 0, xy: 0, yy: 0 }
  for (let i = 0; i < DRAWS; i++) {
    const loose = job.plate.residual ? 0 : 1000 * job.plate.mass * doubt.plateResidual
    let x = fixed.x + loose * random()
    let y = fixed.y + loose * random()
    for (const { item, mass_kg, centre_mm } of terms) {
      if (item === 'plate') continue
      const part = item === 'part'
      const share = part && job.part.weighedMass === null ? doubt.computedMass : doubt.weighedMass
      const place = part ? doubt.centreOfMass : doubt.placing
      const grams = 1000 * mass_kg * (1 + share * random())
      x += grams * (centre_mm.x + place * random())
      y += grams * (centre_mm.y + place * random())
    }
    lengths[i] = Math.hypot(x, y)
    sums.x += x / DRAWS
    sums.y += y / DRAWS
    sums.xx += (x * x) / DRAWS
    sums.xy += (x * y) / DRAWS
    sums.yy += (y * y) / DRAWS
  }
  return {
    upper95: quantile(lengths, 0.95),
    cov: {
      xx: sums.xx - sums.x ** 2,
      xy: sums.xy - sums.x * sums.y,
      yy: sums.yy - sums.y ** 2,
    },
  }
}

const nearlySettled = jobWith({
  part: partOf([block('b', { x: 30, y: 10 }, [120, 60, 25])]),
  setup: {
    hardware: [
      piece('w1', 0.35, { slot: 'S3', radius: 118 }),
      piece('w2', 0.2, { slot: 'S4', radius: 75 }),
      piece('w3', 0.1, { x: -60, y: 60 }),
    ],
  },
  uncertainty: { computedMass: 0.05, centreOfMass: 1.5, placing: 2 },
})

const cases: [string, Job, string][] = [
  ['the flat link', exampleJob('flat-link'), 'op10'],
  ['the bearing bracket, weighed', exampleJob('bearing-bracket'), 'op10'],
  ['a part nearly settled, with doubts of its own', nearlySettled, 'op10'],
  [
    'a plate whose own unbalance is not given',
    jobWith({
      plate: { residual: null },
      setup: { hardware: [piece('a', 0.3, { slot: 'S1', radius: 60 })] },
    }),
    'op10',
  ],
  [
    'nothing but doubt: a part and weights that cancel',
    jobWith({
      setup: {
        hardware: [
          piece('a', 0.5, { slot: 'S1', radius: 100 }),
          piece('b', 0.5, { slot: 'S3', radius: 100 }),
        ],
      },
    }),
    'op10',
  ],
]

describe('the 95 % bound of a job', () => {
  it.each(cases)('agrees with 200,000 draws of every mass and place to one per cent: %s', (_, job, setup) => {
    const { unbalance, covariance } = analyse(job, setup)
    const drawn = drawLengths(job, setup)
    expectNear(unbalance.upper95_g_mm, drawn.upper95, { rel: 0.01 })
    const size = Math.sqrt(covariance.xx * covariance.yy)
    for (const key of ['xx', 'xy', 'yy'] as const)
      expectNear(covariance[key], drawn.cov[key], { rel: 0.012, abs: 0.01 * size })
  })
})

describe('unbalanceCovariance', () => {
  it('has the doubt of the mass along the radius and that of the place every way', () => {
    const one = { mass: 2, at: { x: 30, y: 40 }, massShare: 0.1, position: 0 }
    // 2000 g · 0.1 · 50 mm = 10 000 g·mm along the direction (0.6, 0.8).
    const c = unbalanceCovariance([one])
    expectNear(c.xx, 0.36e8, { rel: 1e-12 })
    expectNear(c.xy, 0.48e8, { rel: 1e-12 })
    expectNear(c.yy, 0.64e8, { rel: 1e-12 })
    expect(unbalanceCovariance([{ ...one, massShare: 0, position: 0.5 }])).toEqual({
      xx: 1e6,
      xy: 0,
      yy: 1e6,
    })
  })

  it('adds up over things, whatever their order', () => {
    const a = { mass: 2, at: { x: 30, y: 40 }, massShare: 0.1, position: 1 }
    const b = { mass: 0.5, at: { x: -100, y: 7 }, massShare: 0.005, position: 2 }
    const [ca, cb, both] = [unbalanceCovariance([a]), unbalanceCovariance([b]), unbalanceCovariance([b, a])]
    for (const key of ['xx', 'xy', 'yy'] as const) expectNear(both[key], ca[key] + cb[key], { rel: 1e-14 })
    expect(unbalanceCovariance([])).toEqual({ xx: 0, xy: 0, yy: 0 })
  })
})

describe('the table of doubts', () => {
  it('is used as it stands, and each entry that a job gives replaces its own only', () => {
    expect(uncertaintiesOf(jobWith())).toEqual(UNCERTAINTY_DEFAULTS)
    expect(UNCERTAINTY_DEFAULTS).toMatchObject({
      computedMass: 0.03,
      weighedMass: 0.005,
      centreOfMass: 0.5,
      placing: 1,
    })
    expect(uncertaintiesOf(jobWith({ uncertainty: { placing: 0 } }))).toEqual({
      ...UNCERTAINTY_DEFAULTS,
      placing: 0,
    })
  })

  it('a weighed part is less doubtful than a computed one', () => {
    const part = partOf([block('b', { x: 40, y: 0 }, [90, 60, 25])])
    const upper = (weighedMass: number | null) =>
      analyse(jobWith({ part: { ...part, weighedMass } }), 'op10').unbalance
    const computed = upper(null)
    const mass = analyse(jobWith({ part }), 'op10').part.mass_kg
    const weighed = upper(mass)
    expectNear(weighed.static_g_mm, computed.static_g_mm, { rel: 1e-12 })
    expect(weighed.upper95_g_mm).toBeLessThan(computed.upper95_g_mm)
  })
})
