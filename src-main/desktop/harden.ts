/** What a page may never do: leave, open windows, embed others, or ask for the machine's devices. */
import { app, dialog, session, type WebContents } from 'electron'
import { sameOrigin } from './page.ts'

/** `page` is the one URL whose origin the window shows. */
export function hardenAll(page: string): void {
  app.on('web-contents-created', (_event, contents) => hardenContents(contents, page))
}

export function denyPermissions(): void {
  session.defaultSession.setPermissionRequestHandler((_contents, _permission, answer) => answer(false))
  session.defaultSession.setPermissionCheckHandler(() => false)
  session.defaultSession.setDevicePermissionHandler(() => false)
}

function hardenContents(contents: WebContents, page: string): void {
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
      buttons: ['Keep working', 'Close without saving'],
      defaultId: 0,
      cancelId: 0,
    })
    // Here preventing means: do not let the page hold the window open.
    if (choice === 1) event.preventDefault()
  })
}
