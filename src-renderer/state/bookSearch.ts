/** Searching the job book as one types: parts of words, and words with a typing error in them. */
import MiniSearch from 'minisearch'
import type { BookEntry } from '../../src-core/bridge/bookContract.ts'

const FIELDS = ['title', 'partNumber', 'partName', 'material', 'machine', 'notes', 'name'] as const

export interface BookSearch {
  /** Entries that match, best first. */
  find(query: string): readonly BookEntry[]
}

export function bookSearch(entries: readonly BookEntry[]): BookSearch {
  const index = new MiniSearch<{ id: number } & Record<string, string | number>>({
    fields: [...FIELDS],
    searchOptions: {
      prefix: true,
      // One error from four letters on, two from eight.
      fuzzy: (term) => (term.length >= 8 ? 2 : term.length >= 4 ? 1 : false),
      combineWith: 'AND',
      boost: { title: 3, partNumber: 3, partName: 2 },
    },
  })
  index.addAll(
    entries.map(({ summary, file }, id) => ({
      id,
      title: summary?.title ?? '',
      partNumber: summary?.partNumber ?? '',
      partName: summary?.partName ?? '',
      material: summary?.material ?? '',
      machine: summary ? `${summary.machine} ${summary.plate}` : '',
      notes: summary?.notes ?? '',
      name: file.name.replace(/\.evenswing\.json$/, ''),
    })),
  )
  return { find: (query) => index.search(query).map((hit) => entries[hit.id as number]!) }
}
