/** How the names of job files end; the one place that says it. */

/** Of files that are saved for the first time. */
export const JOB_ENDING = '.evenswing'

/** Of files that are opened, and saved again under their own names; a longer one stands before one it ends in. */
const JOB_ENDINGS: readonly string[] = ['.evenswing.json', JOB_ENDING]

/** The ending of a job file's name, in whatever case it is written; null where the name is none of a job. */
export function jobEndingOf(name: string): string | null {
  const ending = JOB_ENDINGS.find((e) => name.length > e.length && name.toLowerCase().endsWith(e))
  return ending === undefined ? null : name.slice(-ending.length)
}

/** A job file's name without its ending; any other name as it is. */
export const jobStem = (name: string): string => name.slice(0, name.length - (jobEndingOf(name)?.length ?? 0))

/** All names that a job of that stem may have, that of a new one first. */
export const jobNames = (stem: string): readonly string[] =>
  [...JOB_ENDINGS].reverse().map((ending) => stem + ending)
