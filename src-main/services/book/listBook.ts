/** The job book's list: a folder of job files, each with its summary, read in the background. */
import { fileError, HostError } from '../hostError.ts'
import { conflictOriginal, mayHoldJob } from './conflictCopies.ts'
import { notThere, type BookPlace } from './bookPlace.ts'
import { createReaderPool } from './readerPool.ts'
import type { Names } from './readerMessages.ts'
import { startReader, type StartReader } from './readerThread.ts'
import {
  blank,
  failed,
  ODD_NAME,
  put,
  remove,
  settle,
  stateOf,
  unkeep,
  type BookState,
  type Shelf,
} from './shelf.ts'
import { readCache, writeCache } from './summaryCache.ts'

const MOST_FILES = 20_000
/** ms from when it is asked for: so long a listing waits to be complete before it is shown as far as it is. */
const FIRST_LOOK = 600
/** ms more, at most, until every job has its date: rows that get theirs later change places under the pointer. */
const DATED = 500
/** What was read is kept after so many jobs, so that a listing that is cut off goes on from there. */
const KEEP_EACH = 500

export interface Book {
  /** What is known by now; the rest is read meanwhile. Throws `book.gone` where the folder does not answer. */
  list(folder: string): Promise<BookState>
  /** What came to be known since a mark. */
  news(folder: string, mark: number): BookState
  /** The list once all that answers was read. */
  whole(folder: string): Promise<BookState>
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
    const shelf = {
      rows: new Map(),
      gone: new Map(),
      kept,
      keptFor,
      readOnly: false,
      mark: 0,
      dating: Promise.resolve(),
      reading: null,
    }
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
    shelf.dating = pool.files('look', folder, jobs, (name, answer) => {
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
    await shelf.dating
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
      const late = alarm(FIRST_LOOK)
      try {
        const shelf = await begin(folder)
        await Promise.race([shelf.reading, late.rings])
        const later = alarm(DATED)
        await Promise.race([shelf.dating, later.rings])
        later.stop()
        return stateOf(shelf, 0)
      } finally {
        late.stop()
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

function alarm(ms: number): { readonly rings: Promise<void>; readonly stop: () => void } {
  let timer: NodeJS.Timeout | undefined
  const rings = new Promise<void>((done) => (timer = setTimeout(done, ms)))
  return { rings, stop: () => clearTimeout(timer) }
}
