/** The example jobs that come with the program. */
import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { jobEndingOf, jobNames, jobStem } from '../../src-core/job/fileEnding.ts'
import { fileError, HostError } from './hostError.ts'
import { readJobFile } from './jobStore.ts'

/** The example that `demo` shows and that a new job borrows its machine from. */
export const DEFAULT_EXAMPLE = 'flat-link'

/** Names of the examples, without their suffix, in order. */
export async function listExamples(folder: string): Promise<string[]> {
  return (await namesIn(folder))
    .filter((n) => jobEndingOf(n) !== null)
    .map(jobStem)
    .sort()
}

async function namesIn(folder: string): Promise<string[]> {
  try {
    return await readdir(folder)
  } catch (error) {
    throw fileError(error, 'examples')
  }
}

/** Text of an example; only names from the list are read. */
export async function readExample(folder: string, name: string): Promise<string> {
  const names = await namesIn(folder)
  const file = jobNames(name).find((n) => names.includes(n))
  if (file === undefined) throw new HostError('file.gone', `There is no example "${name.slice(0, 80)}"`)
  return (await readJobFile(join(folder, file))).text
}
