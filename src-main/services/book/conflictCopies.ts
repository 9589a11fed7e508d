/** Copies that folders which sync leave beside a file when two people changed it at once. */
import { jobEndingOf, jobNames, jobStem } from '../../../src-core/job/fileEnding.ts'

/** What such programs add to a name; each pattern takes it off the end of the name without its suffix. */
const MARKS: readonly RegExp[] = [
  / \([^()]*(?:conflict|konflikt|conflit|conflicto|conflitto)[^()]*\)$/iu,
  /[ ._-]*sync-conflict-[\w-]+$/iu,
  /[ ._-](?:conflict|conflicted copy)(?:[ ._-][\w .-]+)?$/iu,
  / \(\d{1,3}\)$/u,
  / - copy(?: \(\d{1,3}\))?$/iu,
]

/** Name of the job that `name` is a copy of, if a job of that name is in the folder; else null. */
export function conflictOriginal(name: string, names: ReadonlySet<string>): string | null {
  // Some put their mark between the two endings, or after both.
  const stem = jobEndingOf(name) === null ? null : jobStem(name)
  const middle = MARKED.exec(name)
  const bare = stem ?? (middle ? `${middle[1]}${middle[2]}` : null)
  if (bare === null) return null
  for (const mark of MARKS) {
    const original: string = bare.replace(mark, '')
    const found = original === bare ? undefined : jobNames(original).find((n) => names.has(n))
    if (found !== undefined) return found
  }
  return null
}

/** A job's name with a sync mark between its endings; the shop library's own ending is none. */
const MARKED = /^(.*)\.evenswing(?!-library)([ ._-].*)\.json$/iu

/** Whether a name is a job's, in whatever case, or a job's with a sync mark between its endings. */
export const isJobName = (name: string): boolean =>
  !isCompanion(name) && (jobEndingOf(name) !== null || MARKED.test(name))

/** Whether a file may be a job by its name; what it holds tells. */
export const mayHoldJob = (name: string): boolean =>
  isJobName(name) || (/\.json$/i.test(name) && !isCompanion(name) && !/\.evenswing-library\b/i.test(name))

/** Some systems leave a file of their own beside each other one. */
const isCompanion = (name: string) => name.startsWith('._')
