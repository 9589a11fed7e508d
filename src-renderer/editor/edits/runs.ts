/** Runs recorded in a job. */
import type { Job, Run } from '../../../src-core/job/schema.ts'
import { editJob, freshId } from './edit.ts'

export const addRun = (job: Job, run: Omit<Run, 'id'>): Job =>
  editJob(job, (draft) => {
    const runs = (draft.runs ??= [])
    runs.push({ id: freshId('run', runs), ...run } as (typeof runs)[number])
  })

export const removeRun = (job: Job, id: string): Job =>
  editJob(job, (draft) => {
    draft.runs = (draft.runs ?? []).filter((r) => r.id !== id)
  })

/** Latest first. */
export const latestRuns = (job: Job, setupId: string): readonly Run[] =>
  (job.runs ?? [])
    .filter((r) => r.setup === setupId)
    .reverse()
    .sort((a, b) => b.date.localeCompare(a.date))
