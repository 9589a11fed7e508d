/** How the job book calls files and times. */
import { jobStem } from '../../src-core/job/fileEnding.ts'
import { byName, newestFirst } from '../../src-core/book/order.ts'
import type { BookEntry, BookListing } from '../../src-core/bridge/bookContract.ts'
import type { FileRef } from '../../src-core/bridge/reply.ts'

export const nameOf = ({ name }: Pick<FileRef, 'name'>): string => jobStem(name)

/** How each file of a list is called: whole where another is of the same name but for its ending. */
export function namesIn(entries: readonly BookEntry[]): (file: Pick<FileRef, 'name'>) => string {
  const seen = new Set<string>()
  const twice = new Set<string>()
  for (const { file } of entries) (seen.has(nameOf(file)) ? twice : seen).add(nameOf(file))
  return (file) => (twice.has(nameOf(file)) ? file.name : nameOf(file))
}

export const when = (iso: string): string =>
  iso === '' ? '' : new Date(iso).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' })

/** A list of the book with what came to be known since, newest first. */
export function withNews(
  entries: readonly BookEntry[],
  news: Pick<BookListing, 'entries' | 'gone'>,
): readonly BookEntry[] {
  if (news.entries.length === 0 && news.gone.length === 0) return entries
  const by = new Map(entries.map((entry) => [entry.file.id, entry]))
  for (const id of news.gone) by.delete(id)
  for (const entry of news.entries) by.set(entry.file.id, entry)
  return [...by.values()].sort(
    (a, b) => newestFirst(a.modified, b.modified) || byName(a.file.name, b.file.name),
  )
}
