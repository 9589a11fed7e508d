/** What a page may never do: leave, open windows, embed others, or ask for the machine's devices. */
import { app, dialog, session, type WebContents } from 'electron'
import { sameOrigin } from './page.ts'

/** Before the program is ready. `page` is the one URL whose origin the window shows. */
export function hardenAll(page: string, saveAndClose: () => void, report: (what: string) => void): void {
  // `enableSandbox` would take --no-sandbox back, with which an AppImage starts where the system lets nobody make
  // sandboxes: no window would open at all. The page stays without Node either way.
  if (app.commandLine.hasSwitch('no-sandbox'))
    report('started with --no-sandbox: the window runs without the sandbox of the system')
  else app.enableSandbox()
  app.on('web-contents-created', (_event, contents) => hardenContents(contents, page, saveAndClose))
  app.on('certificate-error', (event, _contents, _url, _error, _certificate, accept) => {
    event.preventDefault()
    accept(false)
  })
}

export function denyPermissions(): void {
  const { defaultSession } = session
  defaultSession.setPermissionRequestHandler((_contents, _permission, answer) => answer(false))
  defaultSession.setPermissionCheckHandler(() => false)
  defaultSession.setDevicePermissionHandler(() => false)
  defaultSession.setDisplayMediaRequestHandler((_request, answer) => answer(null))
  // Files leave by the host's requests only.
  defaultSession.on('will-download', (event) => event.preventDefault())
}

function hardenContents(contents: WebContents, page: string, saveAndClose: () => void): void {
  const developing = !page.startsWith('app:')
  contents.on('will-navigate', (event) => {
    // A development server reloads its own page.
    if (!(developing && sameOrigin(event.url, page))) event.preventDefault()
  })
  contents.on('will-redirect', (event) => event.preventDefault())
  contents.on('will-frame-navigate', (event) => {
    if (!event.isMainFrame) event.preventDefault()
  })
  contents.on('will-attach-webview', (event) => event.preventDefault())
  contents.setWindowOpenHandler(() => ({ action: 'deny' }))
  contents.on('will-prevent-unload', (event) => {
    const choice = dialog.showMessageBoxSync({
      type: 'warning',
      message: 'This job has changes that are not saved.',
      buttons: ['Save and close', 'Close without saving', 'Keep working'],
      defaultId: 0,
      cancelId: 2,
    })
    if (choice === 0) saveAndClose()
    // Here preventing means: do not let the page hold the window open.
    if (choice === 1) event.preventDefault()
  })
}
