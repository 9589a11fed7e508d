/** Setups of a job: they run in order. */
import type { Job } from '../../../src-core/job/schema.ts'
import { editJob, type SetupDraft } from './edit.ts'

/** op10, op20 …: the next ten that is free. */
function nextId(job: Job): string {
  for (let n = (job.setups.length + 1) * 10; ; n += 10)
    if (!job.setups.some((s) => s.id === `op${n}`)) return `op${n}`
}

/** A copy of a setup after the last one, for the next bore; gives the job and the new setup's id. */
export function duplicateSetup(job: Job, setupId: string): { job: Job; id: string } {
  const id = nextId(job)
  return {
    id,
    job: editJob(job, (draft) => {
      const from = job.setups.find((s) => s.id === setupId) ?? job.setups[0]!
      draft.setups.push({ ...structuredClone(from), id, title: '' } as SetupDraft)
    }),
  }
}

export const removeSetup = (job: Job, setupId: string): Job =>
  job.setups.length < 2
    ? job
    : editJob(job, (draft) => {
        draft.setups = draft.setups.filter((s) => s.id !== setupId)
      })
