/** The planner against every placement on a grid, over hundreds of invented shops. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { applyPlan } from '../../../src-core/planner/apply.ts'
import { planCounterweights } from '../../../src-core/planner/plan.ts'
import { gridSearch, trialJob, type TrialSize } from '../../helpers/planTrials.ts'

const PIECES = 3
/** mm between the grid's radii. */
const STEP = 4
const RUNS = Number(process.env['EVENSWING_RUNS'] ?? 100)

const sizes: { name: string; size: TrialSize; seed: number }[] = [
  { name: 'four slots, three kinds', size: { kinds: 3, slots: 4 }, seed: 1000 },
  { name: 'six slots, two kinds', size: { kinds: 2, slots: 6 }, seed: 2000 },
  { name: 'two slots and six holes, three kinds', size: { kinds: 3, slots: 2, holes: 6 }, seed: 3000 },
]

const least = (job: Parameters<typeof planCounterweights>[0], stations: 1 | 2) => {
  const report = planCounterweights(job, 'op10', { stations, pieces: PIECES })
  return { report, residual: report.plans[0]?.residual_g_mm ?? report.before_g_mm }
}

describe.each(sizes)('$name', ({ size, seed }) => {
  test(
    'one and two stations never leave more than the best of the grid',
    () => {
      let better = 0
      for (let k = 0; k < RUNS; k++) {
        const job = trialJob(seed + k, size)
        const grid = gridSearch(job, PIECES, STEP)
        const one = least(job, 1)
        const two = least(job, 2)
        expect(one.residual, `seed ${seed + k}, one station`).toBeLessThanOrEqual(grid.one + 1)
        expect(two.residual, `seed ${seed + k}, two stations`).toBeLessThanOrEqual(grid.two + 1)
        expect(one.report.searched.complete && two.report.searched.complete).toBe(true)
        if (two.residual < grid.two - 1) better++
        // What the planner claims is there: the analysis finds nothing standing in anything else.
        const plan = two.report.plans[0]
        if (!plan) continue
        const fouls = analyse(applyPlan(job, 'op10', plan), 'op10').findings.filter(
          (f) =>
            f.severity === 'stop' && /^cw/.test(f.item) && /clash|covered|slot|plate|bar|fouls/.test(f.code),
        )
        expect(fouls, `seed ${seed + k}`).toEqual([])
      }
      // A grid of some millimetres seldom holds the exact radii.
      expect(better).toBeGreaterThan(RUNS / 4)
    },
    RUNS * 6000,
  )
})

/** The same shops with pieces of some tens of grams, several of each. */
const lightJob = (seed: number): Job => {
  const job = trialJob(seed, { kinds: 3, slots: 3 })
  return {
    ...job,
    stock: job.stock.map((s, i) => ({ ...s, mass: 0.02 + s.mass / 30, count: 3 + i, height: 6 + i })),
  }
}

test('very light stock: the search ends and never leaves more than the best of the grid', () => {
  for (let k = 0; k < 6; k++) {
    const job = lightJob(7000 + k)
    const grid = gridSearch(job, 4, 15)
    const report = planCounterweights(job, 'op10', { stations: 2, pieces: 4, moveHardware: false })
    const residual = report.plans[0]?.residual_g_mm ?? report.before_g_mm
    expect(residual, `seed ${7000 + k}`).toBeLessThanOrEqual(grid.two + 1)
    expect(report.searched.complete).toBe(true)
  }
}, 60_000)

test('twelve kinds of twenty light pieces: over a million stacks, of which few are looked at', () => {
  for (const seed of [11, 12, 13, 14]) {
    const job = trialJob(seed, { kinds: 12, slots: 8 })
    const stock = job.stock.map((s, i) => ({ ...s, mass: 0.02 + 0.005 * i, count: 20, height: 4 + (i % 5) }))
    const { searched, gap_g_mm } = planCounterweights({ ...job, stock }, 'op10', { moveHardware: false })
    expect(searched.complete).toBe(true)
    expect(searched.stacks).toBeLessThan(5000)
    expect(gap_g_mm).toBe(0)
  }
})
