/** Job files that the system hands to the program: at its start, at a second start, or by a double click. */
import { jobEndingOf } from '../../src-core/job/fileEnding.ts'
import { isAbsolute, resolve } from 'node:path'

/**
 * The job among a start's arguments, as an absolute path, or null. Everything else on the line is left alone: the
 * program's own path, flags, and files of other kinds.
 */
export function jobArgument(argv: readonly string[], workingFolder: string): string | null {
  const given = argv.slice(1).findLast((word) => !word.startsWith('-') && jobEndingOf(word) !== null)
  if (given === undefined) return null
  return isAbsolute(given) ? given : resolve(workingFolder, given)
}
