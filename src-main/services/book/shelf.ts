/** What is known of one folder of jobs: a row for each file, numbered by when it last changed, and what is kept of them. */
import type { BookEntry } from '../../../src-core/bridge/bookContract.ts'
import { byName, newestFirst } from '../../../src-core/book/order.ts'
import { fileError } from '../hostError.ts'
import type { FileAnswer } from './readerMessages.ts'
import type { Lost } from './readerPool.ts'
import type { CachedFile } from './summaryCache.ts'

/** An entry of the book before its file has a reference. */
export interface BookFile extends Omit<BookEntry, 'file'> {
  readonly name: string
}

export interface BookState {
  /** Newest first. */
  readonly files: readonly BookFile[]
  readonly gone: readonly string[]
  /** Names what was told so far. */
  readonly mark: number
  /** Jobs that are still to be read. */
  readonly waiting: number
  readonly readOnly: boolean
}

interface Row {
  readonly file: BookFile
  readonly mark: number
}

export interface Shelf {
  readonly rows: Map<string, Row>
  readonly gone: Map<string, number>
  readonly kept: Map<string, CachedFile>
  /** The disk that `kept` was written for as it is; null where something in it is not written yet. */
  keptFor: number | null
  readOnly: boolean
  mark: number
  /** Until the dates of all jobs are known. */
  dating: Promise<void>
  reading: Promise<void> | null
}

export const ODD_NAME = 'its name is not text that every system can read. Rename it to open it'

export const blank = (name: string): BookFile => ({
  name,
  modified: '',
  summary: null,
  fault: null,
  waiting: true,
  mayOpen: true,
  readOnly: false,
  conflictOf: null,
})

export function put(shelf: Shelf, file: BookFile): void {
  shelf.gone.delete(file.name)
  shelf.rows.set(file.name, { file, mark: ++shelf.mark })
}

export function unkeep(shelf: Shelf, name: string): void {
  if (shelf.kept.delete(name)) shelf.keptFor = null
}

export function remove(shelf: Shelf, name: string): void {
  unkeep(shelf, name)
  if (shelf.rows.delete(name)) shelf.gone.set(name, ++shelf.mark)
}

/** What a file holds is known; one that is no job is not listed. */
export function settle(shelf: Shelf, file: BookFile, known: CachedFile['known']): void {
  if (known) put(shelf, { ...file, ...known, waiting: false, mayOpen: known.summary !== null })
  else if (shelf.rows.delete(file.name)) shelf.gone.set(file.name, ++shelf.mark)
}

/** What was read before is kept. */
export function failed(shelf: Shelf, file: BookFile, why: Failure): BookFile {
  const before = shelf.kept.get(file.name)
  const summary = file.summary ?? before?.known?.summary ?? null
  const modified = file.modified || (before ? new Date(before.time).toISOString() : '')
  return { ...file, modified, waiting: false, mayOpen: true, summary, fault: wordsOf(file.name, why) }
}

type Failure = Lost | Extract<FileAnswer, { kind: 'failed' }>

function wordsOf(name: string, why: Failure): string {
  if (why === 'silent')
    return 'does not answer: its drive is slow or lost. It is tried again with the next listing'
  if (why === 'memory') return 'holds too much to be listed. Open it by itself'
  if (why === 'fault') return 'could not be read for the list. Open it by itself'
  return fileError({ code: why.code }, name).message
}

export function stateOf(shelf: Shelf, mark: number): BookState {
  const rows = [...shelf.rows.values()]
  return {
    files: rows
      .filter((row) => row.mark > mark)
      .map((row) => row.file)
      .sort((a, b) => newestFirst(a.modified, b.modified) || byName(a.name, b.name)),
    gone: [...shelf.gone].flatMap(([name, at]) => (at > mark ? [name] : [])),
    mark: shelf.mark,
    waiting: rows.filter((row) => row.file.waiting).length,
    readOnly: shelf.readOnly,
  }
}
