/** The desktop program's start: makes the services, puts the guards up, opens the window. */
import { join } from 'node:path'
import { app, BrowserWindow, shell } from 'electron'
import { registerScheme, serveRenderer } from './desktop/appProtocol.ts'
import { systemDialogs } from './desktop/dialogs.ts'
import { denyPermissions, hardenAll } from './desktop/harden.ts'
import { answerWindow } from './desktop/ipc.ts'
import { setMenu } from './desktop/menu.ts'
import { pageUrl } from './desktop/page.ts'
import { openWindow } from './desktop/window.ts'
import { createHostServices } from './services/hostServices.ts'
import { jobFolderOf } from './services/jobFolder.ts'
import { createLog } from './services/log.ts'

const root = app.getAppPath()
const page = pageUrl(process.env, app.isPackaged)
const userData = app.getPath('userData')
const log = createLog(userData)
const report = (error: unknown) => {
  console.error('evenswing:', error)
  log.write(error)
}

const services = createHostServices({
  version: app.getVersion(),
  shell: 'desktop',
  dialogs: systemDialogs(),
  examplesFolder: join(root, 'examples'),
  ...jobFolderOf(process.env),
  userData,
  showLog: () => shell.showItemInFolder(log.path),
})

const open = () => openWindow(join(root, 'out/preload/index.cjs'), page)

async function start(): Promise<void> {
  await app.whenReady()
  serveRenderer(join(root, 'out/renderer'))
  denyPermissions()
  setMenu(process.platform)
  answerWindow(services, page, report)
  app.on('activate', () => {
    if (BrowserWindow.getAllWindows().length === 0) open().catch(report)
  })
  await open()
}

if (app.requestSingleInstanceLock()) {
  registerScheme()
  hardenAll(page)
  app.on('second-instance', () => {
    const [window] = BrowserWindow.getAllWindows()
    if (window?.isMinimized()) window.restore()
    window?.focus()
  })
  app.on('window-all-closed', () => app.quit())
  start().catch((error: unknown) => {
    report(error)
    app.exit(1)
  })
} else {
  // Another one is running; it comes to the front.
  app.quit()
}
