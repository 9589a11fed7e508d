/**
 * Searching the job book as one types: parts of words, words with a typing error in them, and the check sum of a sheet,
 * typed or scanned.
 */
import MiniSearch, { type Query } from 'minisearch'
import { nameOf } from './bookWords.ts'
import type { BookEntry } from '../../src-core/bridge/bookContract.ts'
import { readCheckSum } from '../../src-core/job/checkSum.ts'

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
      name: nameOf(file),
    })),
  )
  return {
    find: (query) => {
      const sum = readCheckSum(query)
      const bySum = sum === null ? [] : entries.filter((e) => setupOfSum(e, sum) !== null)
      if (bySum.length > 0) return bySum
      const queries = words(query).map(forgiving)
      return index.search({ combineWith: 'AND', queries }).map((hit) => entries[hit.id as number]!)
    },
  }
}

/** The setup of a job that has the check sum; null where none has. */
export const setupOfSum = ({ summary }: BookEntry, sum: string): string | null =>
  summary?.setups.find((s) => s.checkSum === sum)?.id ?? null

const tokenize = MiniSearch.getDefault('tokenize') as (text: string) => string[]
const words = (query: string): string[] => tokenize(query).filter((w) => w !== '')

/** The word, or it with two neighbouring letters swapped: that counts as two errors, too many for a short word. */
function forgiving(word: string): Query {
  if (word.length < 4) return word
  const swapped = Array.from({ length: word.length - 1 }, (_, i) => i)
    .filter((i) => word[i] !== word[i + 1])
    .map((i) => word.slice(0, i) + word[i + 1]! + word[i]! + word.slice(i + 2))
  return {
    combineWith: 'OR',
    queries: [word, { queries: swapped, combineWith: 'OR', fuzzy: false }],
  }
}
