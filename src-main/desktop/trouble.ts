/** A page that died or hangs: a word to the user, and the page anew; what was kept meanwhile is offered there. */
import { app, dialog, type BrowserWindow } from 'electron'

/** Milliseconds; a page that dies twice within this would only die again. */
const TWICE = 20_000

export function watchForTrouble(
  window: BrowserWindow,
  reload: () => Promise<void>,
  report: (error: unknown) => void,
  now: () => number = Date.now,
): void {
  let died = -Infinity
  let asking = false
  window.webContents.on('render-process-gone', (_event, { reason, exitCode }) => {
    if (reason === 'clean-exit') return
    report(`the window's process ended: ${reason}, exit code ${exitCode}`)
    const again = now() - died < TWICE
    died = now()
    void dialog
      .showMessageBox(window, {
        type: 'error',
        message: again ? 'The window stopped again.' : 'The window stopped working.',
        detail: again
          ? 'Evenswing closes now. Work that was kept as a draft is offered at the next start; the log (Help, Show the log) says what happened.'
          : 'It is opened again. Work that was kept as a draft is offered there; at most the last few seconds are lost.',
        buttons: [again ? 'Close Evenswing' : 'Open the window again'],
      })
      .then(() => (again ? app.exit(1) : reload()))
      .catch(report)
  })
  window.on('unresponsive', () => {
    if (asking) return
    asking = true
    report('the window does not answer')
    void dialog
      .showMessageBox(window, {
        type: 'warning',
        message: 'The window does not answer.',
        detail:
          'It may be busy with something large. Opening it again loses what is not saved or kept as a draft.',
        buttons: ['Wait', 'Open the window again'],
        defaultId: 0,
        cancelId: 0,
      })
      .then(({ response }) => {
        asking = false
        // Its end is told by `render-process-gone`, which opens it again.
        if (response === 1) window.webContents.forcefullyCrashRenderer()
      })
      .catch(report)
  })
}
