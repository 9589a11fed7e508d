/** The job book's list: a folder of job files, each with its summary, read in the background. */
import type { JobSummary } from '../../../src-core/bridge/bookContract.ts'
import { byName, newestFirst } from '../../../src-core/book/order.ts'
import { fileError, HostError } from '../hostError.ts'
import { conflictOriginal, mayHoldJob } from './conflictCopies.ts'
import { notThere, type BookPlace } from './bookPlace.ts'
import { createReaderPool, type Lost } from './readerPool.ts'
import type { FileAnswer, Names } from './readerMessages.ts'
import { startReader, type StartReader } from './readerThread.ts'
import { readCache, writeCache, type CachedFile } from './summaryCache.ts'

const MOST_FILES = 20_000
/** ms from when it is asked for: so long a listing waits to be complete before it is shown as far as it is. */
const FIRST_LOOK = 600
/** What was read is kept after so many jobs, so that a listing that is cut off goes on from there. */
const KEEP_EACH = 500

export interface BookFile {
  readonly name: string
  /** ISO date and time; empty while the file was not looked at. */
  readonly modified: string
  readonly summary: JobSummary | null
  readonly fault: string | null
  readonly waiting: boolean
  readonly mayOpen: boolean
  readonly readOnly: boolean
  readonly conflictOf: string | null
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

export interface Book {
  /** What is known by now; the rest is read meanwhile. Throws `book.gone` where the folder does not answer. */
  list(folder: string): Promise<BookState>
  /** What came to be known since a mark. */
  news(folder: string, mark: number): BookState
  /** The list once all that answers was read. */
  whole(folder: string): Promise<BookState>
}

interface Row {
  readonly file: BookFile
  readonly mark: number
}

interface Shelf {
  readonly rows: Map<string, Row>
  readonly gone: Map<string, number>
  readonly kept: Map<string, CachedFile>
  /** The disk that `kept` was written for as it is; null where something in it is not written yet. */
  keptFor: number | null
  readOnly: boolean
  mark: number
  reading: Promise<void> | null
}

export function createBook(userData: string, place: BookPlace, start: StartReader = startReader): Book {
  const pool = createReaderPool(start)
  const shelves = new Map<string, Shelf>()

  async function shelfOf(folder: string): Promise<Shelf> {
    const known = shelves.get(folder)
    if (known) return known
    const cache = await readCache(userData, folder)
    const kept = new Map(cache?.files)
    // An empty one may be of another form, to be written anew.
    const keptFor = cache && kept.size > 0 ? cache.disk : null
    const shelf = { rows: new Map(), gone: new Map(), kept, keptFor, readOnly: false, mark: 0, reading: null }
    shelves.set(folder, shelf)
    return shelf
  }

  async function namesIn(folder: string): Promise<Names> {
    const found = await pool.names(folder)
    if (!found)
      throw new HostError(
        'book.gone',
        `The job book's folder ${folder} does not answer. Is its drive connected?`,
      )
    if (found.kind === 'names') {
      if (found.names.length === 0) await place.empty(folder, found.disk)
      return found
    }
    if (found.code === 'ENOENT') {
      await place.missing(folder)
      return { kind: 'names', names: [], odd: [], disk: 0, readOnly: false }
    }
    if (['ENOTDIR', 'EIO', 'EHOSTDOWN', 'ENOTCONN', 'ESTALE'].includes(found.code)) throw notThere(folder)
    throw fileError({ code: found.code }, folder)
  }

  async function begin(folder: string): Promise<Shelf> {
    const names = await namesIn(folder)
    const shelf = await shelfOf(folder)
    if (shelf.reading) return shelf
    const jobs = names.names.filter(mayHoldJob)
    if (jobs.length > MOST_FILES)
      throw new HostError(
        'book.gone',
        `${folder} holds ${jobs.length} jobs; the book lists at most ${MOST_FILES}. Move some into another folder`,
      )
    shelf.readOnly = names.readOnly
    const shown = new Set([...jobs, ...names.odd])
    for (const name of [...shelf.rows.keys()]) if (!shown.has(name)) remove(shelf, name)
    for (const name of [...shelf.kept.keys()]) if (!shown.has(name)) unkeep(shelf, name)
    const all = new Set(jobs)
    const conflict = (name: string) => conflictOriginal(name, all)
    for (const name of names.odd)
      put(shelf, { ...blank(name), waiting: false, mayOpen: false, fault: ODD_NAME })
    for (const name of jobs)
      if (!shelf.rows.has(name)) put(shelf, { ...blank(name), conflictOf: conflict(name) })
    shelf.reading = read(folder, shelf, jobs, names.disk).finally(() => (shelf.reading = null))
    return shelf
  }

  async function read(folder: string, shelf: Shelf, jobs: readonly string[], disk: number): Promise<void> {
    const wanted: { name: string; size: number; time: number }[] = []
    let changed = 0
    const keep = async () => {
      if (shelf.keptFor === disk) return
      shelf.keptFor = disk
      await writeCache(userData, folder, { disk, files: shelf.kept }).catch(() => (shelf.keptFor = null))
    }
    await pool.files('look', folder, jobs, (name, answer) => {
      const row = shelf.rows.get(name)?.file ?? blank(name)
      if (typeof answer === 'string' || answer.kind === 'failed')
        return put(shelf, failed(shelf, row, answer))
      if (answer.kind !== 'look' || !answer.look) return remove(shelf, name)
      const { size, time, readOnly } = answer.look
      const seen = { ...row, modified: new Date(time).toISOString(), readOnly }
      const cached = shelf.kept.get(name)
      if (cached?.size === size && cached.time === time) return settle(shelf, seen, cached.known)
      put(shelf, { ...seen, waiting: true, mayOpen: true, summary: null, fault: null })
      wanted.push({ name, size, time })
    })
    const looks = new Map(wanted.map((w) => [w.name, w]))
    wanted.sort((a, b) => b.time - a.time)
    await pool.files(
      'read',
      folder,
      wanted.map((w) => w.name),
      (name, answer) => {
        const row = shelf.rows.get(name)?.file ?? blank(name)
        if (typeof answer === 'string' || answer.kind === 'failed')
          return put(shelf, failed(shelf, row, answer))
        if (answer.kind === 'look') return remove(shelf, name)
        settle(shelf, row, answer.known)
        const { size, time } = looks.get(name)!
        if (answer.isSure) {
          shelf.kept.set(name, { size, time, known: answer.known })
          shelf.keptFor = null
        } else unkeep(shelf, name)
        if (++changed % KEEP_EACH === 0) void keep()
      },
    )
    if (jobs.length > 0 || shelf.kept.size > 0) await keep()
  }

  return {
    async list(folder) {
      let timer: NodeJS.Timeout | undefined
      const late = new Promise<void>((done) => (timer = setTimeout(done, FIRST_LOOK)))
      try {
        const shelf = await begin(folder)
        await Promise.race([shelf.reading, late])
        return stateOf(shelf, 0)
      } finally {
        clearTimeout(timer)
      }
    },
    news(folder, mark) {
      const shelf = shelves.get(folder)
      return shelf ? stateOf(shelf, mark) : { files: [], gone: [], mark, waiting: 0, readOnly: false }
    },
    async whole(folder) {
      const shelf = await begin(folder)
      await shelf.reading
      return stateOf(shelf, 0)
    },
  }
}

const ODD_NAME = 'its name is not text that every system can read. Rename it to open it'

const blank = (name: string): BookFile => ({
  name,
  modified: '',
  summary: null,
  fault: null,
  waiting: true,
  mayOpen: true,
  readOnly: false,
  conflictOf: null,
})

function put(shelf: Shelf, file: BookFile): void {
  shelf.gone.delete(file.name)
  shelf.rows.set(file.name, { file, mark: ++shelf.mark })
}

function unkeep(shelf: Shelf, name: string): void {
  if (shelf.kept.delete(name)) shelf.keptFor = null
}

function remove(shelf: Shelf, name: string): void {
  unkeep(shelf, name)
  if (shelf.rows.delete(name)) shelf.gone.set(name, ++shelf.mark)
}

/** What a file holds is known; one that is no job is not listed. */
function settle(shelf: Shelf, file: BookFile, known: CachedFile['known']): void {
  if (known) put(shelf, { ...file, ...known, waiting: false, mayOpen: known.summary !== null })
  else if (shelf.rows.delete(file.name)) shelf.gone.set(file.name, ++shelf.mark)
}

/** What was read before is kept. */
function failed(shelf: Shelf, file: BookFile, why: Failure): BookFile {
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

function stateOf(shelf: Shelf, mark: number): BookState {
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
