/** What the book knows of one file: its summary, or why there is none. */
import type { JobSummary } from '../../../src-core/bridge/bookContract.ts'
import { summariseJob } from '../../../src-core/book/summary.ts'
import { parseJob } from '../../../src-core/job/parse.ts'
import { HostError } from '../hostError.ts'
import { decodeText, readPlainFile } from '../readPlainFile.ts'

export type Known =
  { readonly summary: JobSummary; readonly fault: null } | { readonly summary: null; readonly fault: string }

export async function readSummary(path: string, name: string): Promise<Known> {
  let text: string
  try {
    text = decodeText(await readPlainFile(path, name), name)
  } catch (error) {
    if (error instanceof HostError) return { summary: null, fault: error.message }
    throw error
  }
  const read = parseJob(text)
  if (read.ok) return { summary: summariseJob(read.job), fault: null }
  const first = read.faults[0]!
  return { summary: null, fault: `${first.path || 'the file'} ${first.message}`.slice(0, 300) }
}
