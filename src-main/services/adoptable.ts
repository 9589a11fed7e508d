/** Files that the system hands over: dropped on the window, double-clicked, named at the start. */
import { stat } from 'node:fs/promises'
import { basename, isAbsolute } from 'node:path'
import { JOB_ENDING, jobEndingOf } from '../../src-core/job/fileEnding.ts'
import { fileError, HostError } from './hostError.ts'

/** The path itself where it is a plain file ending in `.json`; throws a `HostError` else. Nothing is read yet. */
export async function adoptable(path: string): Promise<string> {
  const name = basename(path)
  if (!isAbsolute(path) || path.includes('\0'))
    throw new HostError('name.refused', `${name}: is not the path of a file`)
  if (!/\.json$/i.test(name) && jobEndingOf(name) === null)
    throw new HostError('name.refused', `${name}: is no job; jobs end in ${JOB_ENDING}`)
  let state
  try {
    state = await stat(path)
  } catch (error) {
    throw fileError(error, name)
  }
  if (!state.isFile()) throw new HostError('file.notPlain', `${name}: is not a plain file`)
  return path
}
