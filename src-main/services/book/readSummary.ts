/** What the book knows of one file: its summary, or why there is none. */
import type { JobSummary } from '../../../src-core/bridge/bookContract.ts'
import { summariseJob } from '../../../src-core/book/summary.ts'
import { faultWords } from '../../../src-core/job/fault.ts'
import { parseJob } from '../../../src-core/job/parse.ts'
import { HostError } from '../hostError.ts'
import { decodeText, readPlainFileNow } from '../readPlainFile.ts'
import { isJobName } from './conflictCopies.ts'

export type Known =
  { readonly summary: JobSummary; readonly fault: null } | { readonly summary: null; readonly fault: string }

/** Faults that stay until the file itself changes. */
const CONTENT_FAULTS: ReadonlySet<string> = new Set(['file.notText', 'file.tooLarge'])

export interface ReadSummary {
  /** Null: a file of another kind that only ends as jobs may. */
  readonly known: Known | null
  /** Whether it follows from what the file holds; a file that could not be read may be readable next time. */
  readonly isSure: boolean
}

/** `onpart` is called while the file comes in. */
export function readSummary(path: string, name: string, onpart?: () => void): ReadSummary {
  const isJob = isJobName(name)
  let text: string
  try {
    text = decodeText(readPlainFileNow(path, name, onpart), name)
  } catch (error) {
    if (!(error instanceof HostError)) throw error
    if (error.code === 'file.gone' || !isJob) return { known: null, isSure: false }
    return { known: { summary: null, fault: error.message }, isSure: CONTENT_FAULTS.has(error.code) }
  }
  if (!isJob && !text.includes('"evenswing-job"')) return { known: null, isSure: true }
  const read = parseJob(text)
  if (read.ok) return { known: { summary: summariseJob(read.job), fault: null }, isSure: true }
  const first = read.faults[0]!
  const fault = faultWords(first).slice(0, 300)
  return { known: { summary: null, fault }, isSure: true }
}
