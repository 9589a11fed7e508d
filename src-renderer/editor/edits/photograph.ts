/** Edits of the photograph under the plan. Each leaves a job without one as it is. */
import type { Job, Photograph } from '../../../src-core/job/schema.ts'
import type { Ties } from '../../../src-core/picture/planMap.ts'

export const setPhotograph = (job: Job, photograph: Photograph | null): Job => ({
  ...job,
  part: { ...job.part, photograph },
})

export const changePhotograph = (job: Job, change: Partial<Photograph>): Job =>
  job.part.photograph ? setPhotograph(job, { ...job.part.photograph, ...change }) : job

/** `ties` null, where a move would have left the range of a job: unchanged. */
export const setTies = (job: Job, ties: Ties | null): Job => (ties ? changePhotograph(job, { ties }) : job)
