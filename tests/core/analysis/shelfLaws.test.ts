/** Laws of parts that do not lie flat, over random set-ups on angle plates and in vees. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Analysis } from '../../../src-core/analysis/result.ts'
import { checkJob } from '../../../src-core/job/parse.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { applyPlan } from '../../../src-core/planner/apply.ts'
import { planCounterweights } from '../../../src-core/planner/plan.ts'
import { degrees } from '../../helpers/arbitraries.ts'
import { mirroredJob, turnedJob } from '../../helpers/movedJobs.ts'
import { expectNear } from '../../helpers/near.ts'
import { randomShelfJob } from '../../helpers/randomShelfJob.ts'

const of = (job: Job) => analyse(job, 'op10')
const RUNS = { numRuns: 25, seed: 11 }

/** Every number in a value, with its place. */
function* numbers(value: unknown, path = ''): Generator<[string, number]> {
  if (typeof value === 'number') yield [path, value]
  else if (value && typeof value === 'object')
    for (const [k, v] of Object.entries(value)) yield* numbers(v, `${path}.${k}`)
}

const codes = (a: Analysis) => a.findings.map((f) => `${f.severity} ${f.code} ${f.item}`).sort()

/** Slips are searched, and round faces flattened, to a share. */
function sameFigures(a: Analysis, b: Analysis) {
  expect(codes(b)).toEqual(codes(a))
  expect(b.verdict.state).toBe(a.verdict.state)
  for (const [i, j] of a.joints.entries()) {
    const k = b.joints[i]!
    expect(k.id).toBe(j.id)
    if (j.factor === null || k.factor === null) expect(k.factor).toBe(j.factor)
    else expectNear(k.factor, j.factor, { rel: 1e-2, abs: 1e-6 })
  }
  expectNear(b.unbalance.static_g_mm, a.unbalance.static_g_mm, { rel: 1e-9, abs: 1e-3 })
  expectNear(b.unbalance.couple_g_mm2, a.unbalance.couple_g_mm2, { rel: 1e-9, abs: 1e-1 })
  expectNear(b.unbalance.upper95_g_mm, a.unbalance.upper95_g_mm, { rel: 1e-6 })
  expectNear(b.assembly.inertia_kg_mm2.zz, a.assembly.inertia_kg_mm2.zz, { rel: 1e-9 })
  for (const [i, c] of a.clearances.entries())
    expectNear(b.clearances[i]!.clearance_mm, c.clearance_mm, { abs: 2e-2 })
}

test('they are sound, some may run and some may not', () => {
  const states = new Set<string>()
  for (const job of fc.sample(randomShelfJob, { numRuns: 60, seed: 5 })) {
    expect(checkJob(job)).toMatchObject({ ok: true })
    states.add(of(job).verdict.state)
  }
  expect([...states]).toEqual(expect.arrayContaining(['go', 'not-judged', 'stop']))
})

test('every figure is one, and the same job gives the same ones', () => {
  fc.assert(
    fc.property(randomShelfJob, (job) => {
      const a = of(job)
      expect([...numbers(a)].filter(([, n]) => Number.isNaN(n))).toEqual([])
      expect(of(structuredClone(job))).toEqual(a)
    }),
    RUNS,
  )
})

test('turned about the axis, all of it together, nothing changes but angles', () => {
  fc.assert(
    fc.property(randomShelfJob, degrees, (job, by) => {
      sameFigures(of(job), of(turnedJob(job, by)))
    }),
    RUNS,
  )
})

test('in a mirror it is held and balanced as well', () => {
  fc.assert(
    fc.property(randomShelfJob, (job) => {
      sameFigures(of(job), of(mirroredJob(job)))
    }),
    RUNS,
  )
})

test('units of display change no figure', () => {
  fc.assert(
    fc.property(randomShelfJob, (job) => {
      const [a, b] = (['mm', 'in'] as const).map((displayUnits) => of({ ...job, displayUnits }))
      expect(codes(b!)).toEqual(codes(a!))
      expect([...numbers(b)]).toEqual([...numbers(a)])
    }),
    RUNS,
  )
})

test('what the planner offers balances as it says, and nothing of it stands in the way', () => {
  let offers = 0
  fc.assert(
    fc.property(randomShelfJob, (job) => {
      const was = of(job).findings.filter(
        (f) => f.code === 'hardware-clash' || f.code === 'part-clash',
      ).length
      const report = planCounterweights(job, 'op10', { stations: 1, answers: 2 })
      for (const plan of report.plans) {
        offers++
        const after = of(applyPlan(job, 'op10', plan))
        expectNear(after.unbalance.static_g_mm, plan.residual_g_mm, { rel: 1e-6, abs: 1e-3 })
        const is = after.findings.filter((f) => f.code === 'hardware-clash' || f.code === 'part-clash').length
        expect(is).toBeLessThanOrEqual(was)
      }
    }),
    { numRuns: 6, seed: 11 },
  )
  expect(offers).toBeGreaterThan(0)
})
