/** Differences of two jobs' lists of revisions in words: those that came, those that are gone, those that say something else. */
import type { Job, Revision } from '../job/schema.ts'

/** Letters of what a revision says. */
const MOST_LETTERS = 120

export function revisionWords(before: Job, after: Job): string {
  const [old, now] = [before.revisions ?? [], after.revisions ?? []]
  const rest = [...old]
  const added = now.filter((r) => {
    const at = rest.findIndex((o) => o.mark === r.mark && o.date === r.date && o.text === r.text)
    if (at < 0) return true
    rest.splice(at, 1)
    return false
  })
  const words = [...list('gone', rest), ...list('added', added)]
  return words.length > 0 ? words.join('; ') : 'in another order'
}

const list = (what: string, revisions: readonly Revision[]): string[] =>
  revisions.length > 0 ? [`${revisions.map(oneWords).join(', ')} ${what}`] : []

const short = (text: string): string =>
  text.length > MOST_LETTERS ? `${text.slice(0, MOST_LETTERS)}…` : text

const oneWords = ({ mark, date, text }: Revision): string =>
  [mark || 'without a mark', date, text && `“${short(text)}”`].filter(Boolean).join(' ')
