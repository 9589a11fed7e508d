/** The job book's list: a folder of job files, each with its summary. */
import { readdir, stat } from 'node:fs/promises'
import { join } from 'node:path'
import type { JobSummary } from '../../../src-core/bridge/bookContract.ts'
import { fileError, HostError, systemCode } from '../hostError.ts'
import { conflictOriginal, isJobName } from './conflictCopies.ts'
import { readSummary } from './readSummary.ts'
import { readCache, writeCache, type CachedFile } from './summaryCache.ts'

const MOST_FILES = 20_000
const AT_ONCE = 32
/** ms: a network drive that is off must not hold the window for ever. */
const PATIENCE = 8_000

export interface BookFile {
  readonly name: string
  readonly modified: string
  readonly summary: JobSummary | null
  readonly fault: string | null
  readonly readOnly: boolean
  readonly conflictOf: string | null
}

export interface Book {
  /** Newest first. Throws `book.gone` where the folder does not answer. */
  list(folder: string): Promise<BookFile[]>
}

/** `usualFolder` need not exist yet: it is then an empty book. */
export function createBook(userData: string, usualFolder: string): Book {
  const caches = new Map<string, Map<string, CachedFile>>()
  return {
    async list(folder) {
      const names = await namesIn(folder, folder === usualFolder)
      const jobs = names.filter(isJobName)
      if (jobs.length > MOST_FILES)
        throw new HostError(
          'book.gone',
          `${folder} holds ${jobs.length} jobs; the book lists at most ${MOST_FILES}. Move some into another folder.`,
        )
      const all = new Set(jobs)
      const before = caches.get(folder) ?? (await readCache(userData, folder))
      const now = new Map<string, CachedFile>()
      let isNew = false
      const files = await eachAtOnce(jobs, async (name): Promise<BookFile | null> => {
        try {
          const seen = await withPatience(lookAt(folder, name, before.get(name)), folder)
          if (seen === null) return null
          if (seen.isSure) now.set(name, seen.file)
          if (seen.file !== before.get(name)) isNew = true
          return {
            name,
            modified: new Date(seen.file.time).toISOString(),
            ...seen.file.known,
            readOnly: seen.readOnly,
            conflictOf: conflictOriginal(name, all),
          }
        } catch (error) {
          // It went away while the folder was read.
          if (systemCode(error) === 'ENOENT') return null
          const fault = fileError(error, name)
          if (fault.code === 'book.gone') throw fault
          return {
            name,
            modified: new Date(0).toISOString(),
            summary: null,
            fault: fault.message,
            readOnly: false,
            conflictOf: conflictOriginal(name, all),
          }
        }
      })
      caches.set(folder, now)
      if (isNew || now.size !== before.size) await writeCache(userData, folder, now).catch(() => undefined)
      return files
        .filter((f) => f !== null)
        .sort((a, b) => b.modified.localeCompare(a.modified) || a.name.localeCompare(b.name))
    },
  }
}

interface Seen {
  readonly file: CachedFile
  readonly readOnly: boolean
  /** False where the file could not be read this time: it is then tried anew by the next listing. */
  readonly isSure: boolean
}

/** One file, read only where its size or time is not the cached one's; null where it is not a plain file. */
async function lookAt(folder: string, name: string, cached: CachedFile | undefined): Promise<Seen | null> {
  const path = join(folder, name)
  const state = await stat(path)
  if (!state.isFile()) return null
  // By its mode, which costs nothing more; opening a job asks the system itself.
  const readOnly = (state.mode & 0o222) === 0
  if (cached?.size === state.size && cached.time === state.mtimeMs)
    return { file: cached, readOnly, isSure: true }
  const { known, isSure } = await readSummary(path, name)
  return { file: { size: state.size, time: state.mtimeMs, known }, readOnly, isSure }
}

async function namesIn(folder: string, mayBeMissing: boolean): Promise<string[]> {
  try {
    return await withPatience(readdir(folder), folder)
  } catch (error) {
    if (systemCode(error) === 'ENOENT' && mayBeMissing) return []
    if (['ENOENT', 'ENOTDIR', 'EIO', 'EHOSTDOWN', 'ENOTCONN', 'ESTALE'].includes(systemCode(error)))
      throw new HostError(
        'book.gone',
        `The job book's folder ${folder} is not there. Connect its drive, or choose another folder in the settings.`,
      )
    throw fileError(error, folder)
  }
}

async function withPatience<T>(work: Promise<T>, folder: string): Promise<T> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<never>((_, fail) => {
    timer = setTimeout(
      () =>
        fail(
          new HostError(
            'book.gone',
            `The job book's folder ${folder} does not answer. Is its drive connected?`,
          ),
        ),
      PATIENCE,
    )
  })
  try {
    return await Promise.race([work, late])
  } finally {
    clearTimeout(timer)
  }
}

/** `work` on each item, some at a time, results in the items' order. */
async function eachAtOnce<T, R>(items: readonly T[], work: (item: T) => Promise<R>): Promise<R[]> {
  const results: R[] = new Array<R>(items.length)
  let next = 0
  const run = async () => {
    while (next < items.length) {
      const i = next++
      results[i] = await work(items[i]!)
    }
  }
  await Promise.all(Array.from({ length: Math.min(AT_ONCE, items.length) }, run))
  return results
}
