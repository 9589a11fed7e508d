/** The example jobs that come with the program. */
import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { JOB_SUFFIX } from './fileNames.ts'
import { fileError, HostError } from './hostError.ts'
import { readJobFile } from './jobStore.ts'

/** The example that `demo` shows and that a new job borrows its machine from. */
export const DEFAULT_EXAMPLE = 'flat-link'

/** Names of the examples, without their suffix, in order. */
export async function listExamples(folder: string): Promise<string[]> {
  try {
    const names = await readdir(folder)
    return names
      .filter((n) => n.endsWith(JOB_SUFFIX))
      .map((n) => n.slice(0, -JOB_SUFFIX.length))
      .sort()
  } catch (error) {
    throw fileError(error, 'examples')
  }
}

/** Text of an example; only names from the list are read. */
export async function readExample(folder: string, name: string): Promise<string> {
  if (!(await listExamples(folder)).includes(name))
    throw new HostError('file.gone', `There is no example "${name.slice(0, 80)}"`)
  return (await readJobFile(join(folder, name + JOB_SUFFIX))).text
}
