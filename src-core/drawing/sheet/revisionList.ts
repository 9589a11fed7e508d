/** What was changed from one issue of the sheets to the next. */
import type { Job } from '../../job/schema.ts'
import { bounded } from '../text/bounded.ts'
import type { TableInput } from './table.ts'

/** Letters of a revision: they may be of any length. */
const MOST_LETTERS = 1500

/** Mark of the newest revision, or what the title block was given where none is listed. */
export const lastRevision = ({ revisions, titleBlock }: Job): string =>
  (revisions ?? []).at(-1)?.mark ?? titleBlock?.revision ?? ''

/** As long as marks and dates are, unless someone writes a story into them. */
const SHORT = 16

/** Oldest first; null where there is none. */
export function revisionTable({ revisions = [] }: Job): TableInput | null {
  if (revisions.length === 0) return null
  return {
    title: 'Revisions',
    columns: [
      { title: 'Mark', wraps: revisions.some((r) => r.mark.length > SHORT) },
      { title: 'Date', wraps: revisions.some((r) => r.date.length > SHORT) },
      { title: 'What changed', wraps: true },
    ],
    rows: revisions.map((r) => [r.mark, r.date, r.text].map((words) => bounded(words, MOST_LETTERS))),
    small: true,
    splits: true,
    mostLines: 40,
  }
}
