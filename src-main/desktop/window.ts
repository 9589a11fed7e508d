import { BrowserWindow } from 'electron'

/** Opens the one window; `preload` is the path of the bundled preload. */
export async function openWindow(preload: string, page: string): Promise<BrowserWindow> {
  const window = new BrowserWindow({
    width: 1360,
    height: 880,
    minWidth: 900,
    minHeight: 600,
    title: 'Evenswing',
    show: false,
    webPreferences: {
      preload,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
      spellcheck: false,
    },
  })
  window.once('ready-to-show', () => window.show())
  await window.loadURL(page)
  return window
}
