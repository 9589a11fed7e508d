/** The window's life: opened, brought to the front, given files, opened again after a crash. */
import { join } from 'node:path'
import { app, BrowserWindow } from 'electron'
import type { FileRef } from '../../src-core/bridge/reply.ts'
import type { HostServices, OwnServices } from '../services/hostServices.ts'
import { serveRenderer } from './appProtocol.ts'
import { denyPermissions } from './harden.ts'
import { answerWindow } from './ipc.ts'
import { setMenu } from './menu.ts'
import { jobArgument } from './openedFiles.ts'
import type { ProgramFiles } from './programFiles.ts'
import type { PageTeller } from './tellPage.ts'
import { watchForTrouble } from './trouble.ts'
import { makeWindow } from './window.ts'
import { createWindowKeeper } from './windowState.ts'

interface Desktop {
  readonly services: HostServices & OwnServices
  readonly teller: PageTeller
  readonly page: string
  readonly files: ProgramFiles
  readonly userData: string
  readonly report: (error: unknown) => void
}

export async function startDesktop({
  services,
  teller,
  page,
  files,
  userData,
  report,
}: Desktop): Promise<void> {
  const keeper = createWindowKeeper(userData, report)

  async function openWindow(): Promise<void> {
    const window = makeWindow({ preload: files.preload, state: await keeper.read() })
    keeper.follow(window)
    // Not when it begins to load: a page that was kept from leaving stays and listens.
    window.webContents.on('did-navigate', () => teller.deaf())
    window.webContents.on('render-process-gone', () => teller.deaf())
    watchForTrouble(window, () => window.loadURL(page), report)
    await window.loadURL(page)
  }

  /** A file the system named; what is no job is only logged, for nobody is asking here. */
  async function openFile(path: string): Promise<void> {
    try {
      teller.tell({ kind: 'open', file: await services.adopt(path) })
    } catch (error) {
      report(error)
    }
  }

  const refreshMenu = async () =>
    setMenu({
      platform: process.platform,
      developing: !app.isPackaged,
      recent: await services.listRecent(),
      command: (name) => teller.tell({ kind: 'command', name }),
      open: (file) => teller.tell({ kind: 'open', file }),
      clearRecent: () => {
        app.clearRecentDocuments()
        services.clearRecent().then(refreshMenu).catch(report)
      },
      showLog: () => void services.showLog().catch(report),
    })

  app.on('open-file', (event, path) => {
    event.preventDefault()
    void openFile(path)
  })
  app.on('second-instance', (_event, argv, folder) => {
    const [window] = BrowserWindow.getAllWindows()
    if (window?.isMinimized()) window.restore()
    window?.focus()
    const path = jobArgument(argv, folder)
    if (path !== null) void openFile(path)
  })
  app.on('window-all-closed', () => void keeper.settled().then(() => app.quit()))
  app.on('activate', () => {
    if (BrowserWindow.getAllWindows().length === 0) openWindow().catch(report)
  })

  await app.whenReady()
  serveRenderer(files.renderer)
  denyPermissions()
  answerWindow({
    services: rememberJobs(services, () => void refreshMenu().catch(report)),
    page,
    report,
    onListening: () => teller.listening(),
  })
  await refreshMenu().catch(report)
  const path = jobArgument(process.argv, process.cwd())
  if (path !== null) await openFile(path)
  await openWindow()
}

/** The same services; the system and the menu hear of jobs that were opened or saved. */
function rememberJobs(services: HostServices & OwnServices, changed: () => void): HostServices & OwnServices {
  const seen = <T extends { readonly file: FileRef }>(result: T): T => {
    app.addRecentDocument(join(result.file.folder, result.file.name))
    changed()
    return result
  }
  return {
    ...services,
    readJob: async (...args) => seen(await services.readJob(...args)),
    writeJob: async (...args) => seen(await services.writeJob(...args)),
    clearRecent: async () => {
      const done = await services.clearRecent()
      app.clearRecentDocuments()
      changed()
      return done
    },
  }
}
