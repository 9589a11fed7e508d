/** The job book's side of the host's services. */
import { join } from 'node:path'
import type { BookHost } from '../../../src-core/bridge/bookContract.ts'
import { createDrafts } from '../drafts.ts'
import { createProgress } from '../progress.ts'
import { jobNames, jobStem } from '../../../src-core/job/fileEnding.ts'
import { jobName } from '../fileNames.ts'
import type { FileRefs } from '../fileRefs.ts'
import { HostError } from '../hostError.ts'
import { listRevisions, readJobFile, readRevision } from '../jobStore.ts'
import type { Recent } from '../recent.ts'
import type { SettingsStore } from '../settings.ts'
import type { ServicesOf } from '../servicesOf.ts'
import { exists, isWritable } from '../writable.ts'
import type { BookPlace } from './bookPlace.ts'
import { createBook } from './listBook.ts'
import type { BookState } from './shelf.ts'
import { readLibraryFile, writeLibraryFile } from './shopLibrary.ts'

export interface BookOptions {
  readonly userData: string
  readonly place: BookPlace
  readonly refs: FileRefs
  readonly settings: SettingsStore
  readonly recent: Recent
  /** The system's dialog for a folder; null where there is none. */
  readonly chooseFolder: (() => Promise<string | null>) | null
  /** Shows the log in the system's file manager; null without a desktop. */
  readonly showLog: (() => void) | null
}

export function createBookServices(options: BookOptions): ServicesOf<BookHost> {
  const { userData, refs, settings, recent } = options
  const { place } = options
  const book = createBook(userData, place)
  /** A file of the list as the window sees it; a copy's original and the faults come along. */
  const listed = (folder: string, { files, gone, ...state }: BookState) => ({
    ...state,
    gone: gone.map((name) => refs.issue(join(folder, name)).id),
    entries: files.map(({ name, ...rest }) => ({ file: refs.issue(join(folder, name)), ...rest })),
  })
  const drafts = createDrafts(userData)
  const progress = createProgress(userData)
  const inBook = async (name: string) => join(await settings.bookFolder(), jobName(name))

  return {
    async listBook() {
      const folder = await settings.bookFolder()
      return { folder, ...listed(folder, await book.list(folder)) }
    },
    async bookNews(mark) {
      const folder = await settings.bookFolder()
      return { folder, ...listed(folder, book.news(folder, mark)) }
    },
    bookFile: async (name) => refs.issue(await inBook(name)),
    async freeBookFile(name) {
      const stem = jobStem(jobName(name))
      for (let n = 1; n <= 10_000; n++) {
        const names = await Promise.all(jobNames(n === 1 ? stem : `${stem}-${n}`).map(inBook))
        if (!(await Promise.all(names.map(exists))).includes(true)) return refs.issue(names[0]!)
      }
      throw new HostError('name.refused', `${stem}: there are too many files of this name; choose another`)
    },
    async chooseBookFolder() {
      if (!options.chooseFolder)
        throw new HostError(
          'request.refused',
          'There are no system dialogs here; the variable EVENSWING_JOBS names the job book’s folder at the start',
        )
      const folder = await options.chooseFolder()
      return folder === null ? null : settings.setBookFolder(folder)
    },
    readSettings: () => settings.read(),
    writeSettings: (wanted) => settings.write(wanted),
    listRecent: async () => (await recent.list()).map((path) => refs.issue(path)),
    async clearRecent() {
      await recent.clear()
      return null
    },
    listRevisions: (file) => listRevisions(refs.pathOf(file)),
    readRevision: (file, id) => readRevision(refs.pathOf(file), id),
    async fileState(file) {
      const path = refs.pathOf(file)
      try {
        const { stamp } = await readJobFile(path)
        return { stamp, readOnly: !(await isWritable(path)) }
      } catch (error) {
        if (error instanceof HostError && error.code === 'file.gone') return { stamp: null, readOnly: false }
        throw error
      }
    },
    async keepDraft(draft) {
      await drafts.keep(draft, draft.file ? refs.pathOf(draft.file) : null)
      return null
    },
    async dropDraft(id) {
      await drafts.drop(id)
      return null
    },
    listDrafts: async () =>
      (await drafts.left()).map(({ path, ...draft }) => ({
        ...draft,
        file: path === null ? null : refs.issue(path),
      })),
    readDraft: (id) => drafts.read(id),
    readProgress: (key) => progress.read(key),
    async keepProgress(key, text) {
      await progress.keep(key, text)
      return null
    },
    async dropProgress(key) {
      await progress.drop(key)
      return null
    },
    readLibrary: async () => readLibraryFile(await settings.bookFolder()),
    async writeLibrary(text, stamp) {
      const folder = await settings.bookFolder()
      await place.ready(folder)
      return { stamp: await writeLibraryFile(folder, text, stamp) }
    },
    async showLog() {
      if (!options.showLog)
        throw new HostError('request.refused', `Here the log is only a file: ${join(userData, 'logs')}`)
      options.showLog()
      return null
    },
  }
}
