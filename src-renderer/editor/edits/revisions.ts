/** The list of revisions of a job, oldest first. */
import type { Job, Revision } from '../../../src-core/job/schema.ts'
import { editJob } from './edit.ts'

/** Left out of the letters of revisions, for they are read as other letters or figures (ASME Y14.35, from memory). */
const UNUSED = 'IOQSXZ'

/** The mark that follows on the last one: B after A, 4 after 3; empty where nobody can say. */
export function nextMark(revisions: readonly Revision[]): string {
  const last = revisions.at(-1)?.mark.trim()
  if (last === undefined) return 'A'
  if (/^\d{1,6}$/.test(last)) return String(Number(last) + 1)
  if (!/^[A-Y]$/.test(last)) return ''
  let code = last.charCodeAt(0) + 1
  while (UNUSED.includes(String.fromCharCode(code))) code++
  return code > 'Y'.charCodeAt(0) ? '' : String.fromCharCode(code)
}

export const addRevision = (job: Job, date: string): Job =>
  withRevisions(job, [...(job.revisions ?? []), { mark: nextMark(job.revisions ?? []), date, text: '' }])

export const setRevision = (job: Job, at: number, change: Partial<Revision>): Job =>
  withRevisions(
    job,
    (job.revisions ?? []).map((r, i) => (i === at ? { ...r, ...change } : r)),
  )

export const removeRevision = (job: Job, at: number): Job =>
  withRevisions(
    job,
    (job.revisions ?? []).filter((_, i) => i !== at),
  )

/** An empty list leaves no trace. */
const withRevisions = (job: Job, revisions: readonly Revision[]): Job =>
  editJob(job, (draft) => {
    if (revisions.length === 0) delete draft.revisions
    else draft.revisions = revisions.map((r) => ({ ...r }))
  })
