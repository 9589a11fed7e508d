/** The jobs of a folder by the check sum that stands on a sheet: as they are now, else as they were. */
import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { checkSum } from '../../../src-core/job/checkSum.ts'
import { parseJob } from '../../../src-core/job/parse.ts'
import { fileError, HostError } from '../hostError.ts'
import { listRevisions, readJobFile, readRevision } from '../jobStore.ts'
import { mayHoldJob } from './conflictCopies.ts'

export interface FoundBySum {
  readonly path: string
  readonly setup: string
  /** ISO date and time until which the job was so; null where it still is. */
  readonly until: string | null
}

export interface SumSearch {
  readonly found: readonly FoundBySum[]
  /** Files that are no jobs that can be read. */
  readonly unread: number
}

/** Earlier versions are looked at only where no job has the sum now. Throws `HostError` where the folder cannot be read. */
export async function findBySum(folder: string, sum: string): Promise<SumSearch> {
  const paths = (await namesIn(folder)).filter(mayHoldJob).map((name) => join(folder, name))
  const found: FoundBySum[] = []
  let unread = 0
  for (const path of paths) {
    const setup = await readable(async () => setupOf((await readJobFile(path)).text, sum))
    if (setup === undefined) unread++
    else if (setup !== null) found.push({ path, setup, until: null })
  }
  if (found.length > 0) return { found, unread }
  for (const path of paths)
    for (const { id, saved } of (await readable(() => listRevisions(path))) ?? []) {
      const setup = await readable(async () => setupOf(await readRevision(path, id), sum))
      if (setup) found.push({ path, setup, until: saved })
    }
  return { found, unread }
}

async function namesIn(folder: string): Promise<string[]> {
  try {
    return (await readdir(folder)).sort()
  } catch (error) {
    throw fileError(error, folder)
  }
}

/** Null: a job without it; undefined: no job. */
function setupOf(text: string, sum: string): string | null | undefined {
  const read = parseJob(text)
  if (!read.ok) return undefined
  return read.job.setups.find((setup) => checkSum(read.job, setup) === sum)?.id ?? null
}

/** One file that cannot be read hides no other. */
async function readable<T>(read: () => Promise<T>): Promise<T | undefined> {
  try {
    return await read()
  } catch (error) {
    if (error instanceof HostError) return undefined
    throw error
  }
}
