/** What an analysis says of a job's first setup, as tests of holding ask for it. */
import { expect } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { wholeTurn } from '../../src-core/geometry/angles.ts'
import type { Job, Setup } from '../../src-core/job/schema.ts'
import { expectNear } from './near.ts'

export const of = (job: Job) => analyse(job, 'op10')
export const joint = (job: Job, id: string) => of(job).joints.find((j) => j.id === id)!
export const said = (job: Job, code: string) =>
  of(job)
    .findings.filter((f) => f.code === code)
    .map((f) => f.message)

/** What turning all of it about the axis leaves of a job: no figure changes but the unbalance's direction. */
export function expectTurned(job: Job, turned: Job, by: number): void {
  const [a, b] = [of(job), of(turned)]
  expect(b.findings.map((f) => f.code)).toEqual(a.findings.map((f) => f.code))
  // Slips are searched, and round faces flattened, to a share.
  for (const [i, j] of a.joints.entries()) {
    expectNear(b.joints[i]!.factor!, j.factor!, { rel: 5e-3 })
    expectNear(b.joints[i]!.tipping!, j.tipping!, { rel: 5e-3 })
  }
  expectNear(b.unbalance.static_g_mm, a.unbalance.static_g_mm, { rel: 1e-9 })
  expectNear(b.unbalance.couple_g_mm2, a.unbalance.couple_g_mm2, { rel: 1e-9 })
  expectNear(b.assembly.inertia_kg_mm2.zz, a.assembly.inertia_kg_mm2.zz, { rel: 1e-9 })
  const turn = b.unbalance.static_angle_deg - a.unbalance.static_angle_deg
  expectNear(wholeTurn(turn), by, { abs: 1e-6 })
}

/** Nothing is cut and nothing turns. */
export const STILL: Partial<Setup> = { cuts: [], speed: null, frictionCoefficient: 0.1 }
