/**
 * What stands behind the window, in plain calls: they return values and throw `HostError`. Knows nothing of
 * Electron or HTTP; the system's dialogs come in as a port, and are missing where the shell has none.
 */
import { basename, dirname, join } from 'node:path'
import type { ExportFormat, Host, HostInfo } from '../../src-core/bridge/contract.ts'
import type { FileRef } from '../../src-core/bridge/reply.ts'
import { JOB_ENDING, jobEndingOf } from '../../src-core/job/fileEnding.ts'
import type { PaintPicture } from '../png/painter.ts'
import { createBookPlace } from './book/bookPlace.ts'
import { createBookServices } from './book/bookServices.ts'
import { adoptable } from './adoptable.ts'
import { listExamples, readExample } from './examples.ts'
import { exportBeside, exportTo } from './exports.ts'
import { suggestedName } from './fileNames.ts'
import { createFileRefs } from './fileRefs.ts'
import { HostError } from './hostError.ts'
import { readJobFile, writeJobFile } from './jobStore.ts'
import { createRecent } from './recent.ts'
import type { ServicesOf } from './servicesOf.ts'
import { createSettings } from './settings.ts'
import { exists } from './writable.ts'

/** The system's file dialogs; each gives a path, or null when cancelled. */
export interface Dialogs {
  open(): Promise<string | null>
  saveJob(suggestedName: string): Promise<string | null>
  saveExport(suggestedName: string, format: ExportFormat): Promise<string | null>
  folder(): Promise<string | null>
}

export interface HostOptions {
  readonly version: string
  readonly shell: HostInfo['shell']
  readonly dialogs: Dialogs | null
  readonly examplesFolder: string
  /** The job book's usual place; `fixed` where the environment names it, so that no setting may move it. */
  readonly jobFolder: string
  readonly jobFolderIsFixed?: boolean
  /** This user's own things: settings, drafts, caches. */
  readonly userData: string
  readonly showLog?: () => void
  /** Must not be done in this process. */
  readonly paint: PaintPicture
}

export type HostServices = ServicesOf<Host>

/** What the program itself may ask, and no page. */
export interface OwnServices {
  /** A reference to a job file that the user named outside the window. Throws a `HostError` for any other file. */
  adopt(path: string): Promise<FileRef>
}

export function createHostServices(options: HostOptions): HostServices & OwnServices {
  const refs = createFileRefs()
  const { dialogs, jobFolder, examplesFolder, userData } = options
  const settings = createSettings({
    userData,
    fixedBook: options.jobFolderIsFixed ? jobFolder : null,
    usualBook: jobFolder,
  })
  const place = createBookPlace(userData, options.jobFolderIsFixed ? null : jobFolder)
  const recent = createRecent(userData)
  /** Whether the list could be kept must not decide whether a job opens. */
  const remember = (path: string) => void recent.add(path).catch(() => undefined)
  const needDialogs = (): Dialogs => {
    if (!dialogs)
      throw new HostError(
        'request.refused',
        'There are no system dialogs here; use the list of the job folder',
      )
    return dialogs
  }
  const issueOrNull = (path: string | null) => (path === null ? null : refs.issue(path))

  const exportBytes = async (name: string, format: ExportFormat, bytes: Uint8Array) => {
    const suggestion = suggestedName(name, format)
    if (!dialogs) {
      const folder = await settings.bookFolder()
      await place.ready(folder)
      return refs.issue(await exportBeside(join(folder, 'sheets'), suggestion, bytes))
    }
    const chosen = await dialogs.saveExport(suggestion, format)
    if (chosen === null) return null
    const path = await withEnding(chosen, [`.${format}`], `.${format}`)
    await exportTo(path, bytes)
    return refs.issue(path)
  }

  return {
    info: async () => ({
      version: options.version,
      shell: options.shell,
      systemDialogs: dialogs !== null,
      versions: versionsOf(process.versions),
    }),
    adopt: async (path) => refs.issue(await adoptable(path)),
    listExamples: () => listExamples(examplesFolder),
    readExample: (name) => readExample(examplesFolder, name),
    chooseOpen: async () => issueOrNull(await needDialogs().open()),
    chooseSave: async (name) => {
      const ending = jobEndingOf(name) ?? JOB_ENDING
      const chosen = await needDialogs().saveJob(suggestedName(name, ending.slice(1)))
      return issueOrNull(chosen === null ? null : await withEnding(chosen, ['.json', JOB_ENDING], JOB_ENDING))
    },
    ...createBookServices({
      userData,
      place,
      refs,
      settings,
      recent,
      chooseFolder: dialogs ? () => dialogs.folder() : null,
      showLog: options.showLog ?? null,
    }),
    readJob: async (ref) => {
      const path = refs.pathOf(ref)
      const read = await readJobFile(path)
      remember(path)
      return { file: refs.issue(path), ...read }
    },
    writeJob: async (ref, text, expectedStamp) => {
      const path = refs.pathOf(ref)
      if (dirname(path) === (await settings.bookFolder())) await place.ready(dirname(path))
      const stamp = await writeJobFile(path, text, expectedStamp)
      remember(path)
      return { file: refs.issue(path), stamp }
    },
    exportFile: exportBytes,
    exportPicture: async (name, svg) => exportBytes(name, 'png', await options.paint(svg)),
  }
}

/** Electron's own name for Chromium is `chrome`. */
function versionsOf({ node, electron, chrome }: NodeJS.ProcessVersions): HostInfo['versions'] {
  return { ...(electron && { electron }), ...(chrome && { chromium: chrome }), ...(node && { node }) }
}

/**
 * The chosen path, `suffix` added where it ends in none of `endings`. The dialog asked about replacing only the name
 * it saw, so a longer name that is taken already is refused.
 */
async function withEnding(chosen: string, endings: readonly string[], suffix: string): Promise<string> {
  if (endings.some((e) => chosen.toLowerCase().endsWith(e))) return chosen
  const path = chosen + suffix
  if (await exists(path))
    throw new HostError('name.refused', `${basename(path)} is there already; choose it itself to replace it`)
  return path
}
