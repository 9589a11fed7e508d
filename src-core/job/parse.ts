/** The only door for a job file: text in, a job or all its faults out. */
import { jobFaults } from './faults.ts'
import { checkDocument, refused, type Refused } from './document.ts'
import { readJson } from './issueWords.ts'
import { fromVersion1 } from './fromVersion1.ts'
import { fromVersion2 } from './fromVersion2.ts'
import { fromVersion3 } from './fromVersion3.ts'
import { jobSchema, type Job } from './schema.ts'
import type { Step } from './versions.ts'

export type JobResult = { readonly ok: true; readonly job: Job } | Refused

/** `STEPS[n]` lifts a document from version n + 1 to n + 2. Append only; a released step is never edited. */
const STEPS: readonly Step[] = [fromVersion1, fromVersion2, fromVersion3]

export const CURRENT_VERSION = STEPS.length + 1

/** Parses and checks a whole job file; older versions are lifted in memory, newer ones refused untouched. */
export function parseJob(text: string): JobResult {
  const read = readJson(text)
  return 'reason' in read ? refused(read.path, read.reason) : checkJob(read.raw)
}

/** Unsaved work: what fits the schema is taken with its faults, as the window shows them while one edits. */
export function parseDraft(text: string): Job | null {
  const read = readJson(text)
  if ('reason' in read) return null
  const parsed = jobSchema.safeParse(read.raw)
  return parsed.success ? parsed.data : null
}

/** The version that a job's text was written in; null where it is none. */
export function writtenVersion(text: string): number | null {
  const read = readJson(text)
  const raw = 'reason' in read ? null : read.raw
  const version = typeof raw === 'object' && raw !== null && 'version' in raw ? raw.version : null
  return typeof version === 'number' ? version : null
}

/** The same for a value that is already read. */
export function checkJob(raw: unknown): JobResult {
  const checked = checkDocument(raw, 'job', STEPS, jobSchema)
  if (!checked.ok) return checked
  const job = checked.data
  const faults = jobFaults(job)
  return faults.length > 0 ? { ok: false, faults } : { ok: true, job }
}
