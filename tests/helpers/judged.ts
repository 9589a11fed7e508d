/** What an analysis says of a job's first setup, as tests of holding ask for it. */
import { analyse } from '../../src-core/analysis/analyse.ts'
import type { Job, Setup } from '../../src-core/job/schema.ts'

export const of = (job: Job) => analyse(job, 'op10')
export const joint = (job: Job, id: string) => of(job).joints.find((j) => j.id === id)!
export const said = (job: Job, code: string) =>
  of(job)
    .findings.filter((f) => f.code === code)
    .map((f) => f.message)
/** Nothing is cut and nothing turns. */
export const STILL: Partial<Setup> = { cuts: [], speed: null, frictionCoefficient: 0.1 }
