import { BrowserWindow } from 'electron'
import { SMALLEST, USUAL, type WindowState } from './windowState.ts'

export interface WindowOptions {
  /** Path of the bundled preload. */
  readonly preload: string
  readonly state: WindowState | null
}

/** Makes the one window, not loaded yet. */
export function makeWindow({ preload, state }: WindowOptions): BrowserWindow {
  const window = new BrowserWindow({
    ...(state?.bounds ?? USUAL),
    minWidth: SMALLEST.width,
    minHeight: SMALLEST.height,
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
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      navigateOnDragDrop: false,
      safeDialogs: true,
      spellcheck: false,
    },
  })
  window.once('ready-to-show', () => {
    if (state?.maximised) window.maximize()
    window.show()
  })
  return window
}
