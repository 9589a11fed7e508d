/** Whether the book's folder is the book, or only the place where its drive would be. */
import { mkdir, readdir, stat } from 'node:fs/promises'
import { fileError, HostError, systemCode } from '../hostError.ts'
import { readCache } from './summaryCache.ts'

export interface BookPlace {
  /** Before anything is put into the folder: makes the usual one at first use, refuses one that is not there. */
  ready(folder: string): Promise<void>
  /** Throws `book.gone` for a folder that is not there, unless it is the usual one before its first use. */
  missing(folder: string): Promise<void>
  /** Throws `book.gone` for an empty folder on another disk than the jobs it held lay on. */
  empty(folder: string, disk: number): Promise<void>
}

/** `makes` is the folder that may be made; null where the environment or the user named a folder that must be there. */
export function createBookPlace(userData: string, makes: string | null): BookPlace {
  const place: BookPlace = {
    async ready(folder) {
      try {
        const [state, names] = await Promise.all([stat(folder), readdir(folder)])
        if (names.length === 0) await place.empty(folder, state.dev)
      } catch (error) {
        if (systemCode(error) !== 'ENOENT') throw fileError(error, folder)
        await place.missing(folder)
        await mkdir(folder).catch((fault: unknown) => {
          if (systemCode(fault) !== 'EEXIST') throw fileError(fault, folder)
        })
      }
    },
    async missing(folder) {
      if (folder !== makes || (await readCache(userData, folder))) throw notThere(folder)
    },
    async empty(folder, disk) {
      const before = await readCache(userData, folder)
      if (before?.held && before.disk !== disk)
        throw new HostError(
          'book.gone',
          `The job book's folder ${folder} is empty, and not on the disk its jobs were on. Connect its drive; if it is to be a new book, put any file into it`,
        )
    },
  }
  return place
}

export const notThere = (folder: string): HostError =>
  new HostError(
    'book.gone',
    `The job book's folder ${folder} is not there. Connect its drive, make the folder, or choose another in the settings`,
  )
