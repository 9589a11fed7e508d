/** The desktop program's start: makes the services, puts the guards up, opens the window. */
import { app, shell } from 'electron'
import { SAVE_AND_CLOSE } from '../src-core/bridge/commands.ts'
import { startDesktop } from './desktop/start.ts'
import { systemDialogs } from './desktop/dialogs.ts'
import { hardenAll } from './desktop/harden.ts'
import { startPainter } from './desktop/painterProcess.ts'
import { registerScheme } from './desktop/appProtocol.ts'
import { pageUrl } from './desktop/page.ts'
import { programFiles } from './desktop/programFiles.ts'
import { createPageTeller } from './desktop/tellPage.ts'
import { settleUserFolder } from './desktop/userFolder.ts'
import { createPainter } from './png/painter.ts'
import { createHostServices } from './services/hostServices.ts'
import { jobFolderOf } from './services/jobFolder.ts'
import { createLog } from './services/log.ts'

const page = pageUrl(process.env, app.isPackaged)
const files = programFiles(app.getAppPath(), app.isPackaged ? process.resourcesPath : null)
const userData = settleUserFolder(process.env, process.platform)
const log = createLog(userData)
const report = (error: unknown) => {
  console.error('evenswing:', error)
  log.write(error)
}

if (app.requestSingleInstanceLock()) {
  const teller = createPageTeller()
  registerScheme()
  hardenAll(page, () => teller.tell({ kind: 'command', name: SAVE_AND_CLOSE }), log.write)
  const services = createHostServices({
    version: app.getVersion(),
    shell: 'desktop',
    dialogs: systemDialogs(),
    examplesFolder: files.examples,
    ...jobFolderOf(process.env),
    userData,
    paint: createPainter(startPainter),
    showLog: () => shell.showItemInFolder(log.made()),
  })
  startDesktop({ services, teller, page, files, userData, report }).catch((error: unknown) => {
    report(error)
    app.exit(1)
  })
} else {
  // Another one is running; it comes to the front.
  app.quit()
}
