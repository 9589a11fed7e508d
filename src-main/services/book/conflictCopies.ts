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
  const ending = jobEndingOf(name)
  const bare = ending === null ? markedStem(name) : jobStem(name)
  if (bare === null) return null
  const original = withoutMark(bare)
  if (original === null) return null
  // One with the same ending, where there are both.
  const sameFirst = ending === null ? [] : [original + ending]
  return [...sameFirst, ...jobNames(original)].find((n) => names.has(n)) ?? null
}

function withoutMark(stem: string): string | null {
  for (const mark of MARKS) {
    const original = stem.replace(mark, '')
    if (original !== stem) return original
  }
  return null
}

/** Some put their mark between the two endings, or after all of them; the shop library's own ending is none. */
const BETWEEN = /^(.+)\.evenswing(?!-library)([ ._-].*)\.json$/iu
const BEHIND = /^(.+)\.evenswing(?:\.json)?([ ._-].*)$/iu

/** A job's name and the mark behind its ending, without that ending; null where there is no such mark. */
function markedStem(name: string): string | null {
  const between = BETWEEN.exec(name)
  if (between) return `${between[1]}${between[2]}`
  const behind = BEHIND.exec(name)
  const stem = behind && `${behind[1]}${behind[2]}`
  return stem !== null && withoutMark(stem) !== null ? stem : null
}

/** Whether a name is a job's, in whatever case, or a job's with a sync mark beside its ending. */
export const isJobName = (name: string): boolean =>
  !isCompanion(name) && (jobEndingOf(name) !== null || markedStem(name) !== null)

/** Whether a file may be a job by its name; what it holds tells. */
export const mayHoldJob = (name: string): boolean =>
  isJobName(name) || (/\.json$/i.test(name) && !isCompanion(name) && !/\.evenswing-library\b/i.test(name))

/** Some systems leave a file of their own beside each other one. */
const isCompanion = (name: string) => name.startsWith('._')
