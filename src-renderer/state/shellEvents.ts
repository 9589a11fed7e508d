/** What the system tells the window: a menu's command, a file to open, a wish to save before closing. */
import type { ShellEvent } from '../../src-core/bridge/bookContract.ts'
import { isCommand, SAVE_AND_CLOSE } from '../../src-core/bridge/commands.ts'
import type { Actions } from './actions.ts'
import type { App } from './app.svelte.ts'

/** Follows the shell until the function that comes back is called. */
export function obeyShell(app: App, actions: Actions): () => void {
  return app.shell.subscribe((event) => obey(app, actions, event))
}

function obey(app: App, actions: Actions, event: ShellEvent): void {
  const { session, files } = app
  if (event.kind === 'open') {
    // What was asked in a window over this one is given up for the file.
    session.dialog = null
    return files.openGiven(event.file)
  }
  if (event.name === SAVE_AND_CLOSE) return void saveAndClose(app)
  const typing = textField()
  if ((event.name === 'undo' || event.name === 'redo') && typing) {
    // The only way to a text field's own history.
    document.execCommand(event.name)
    return
  }
  if (!isCommand(event.name) || session.dialog !== null) return
  const action = actions[event.name]
  if (action.enabled()) action.run()
}

async function saveAndClose({ files, jobs, session }: App): Promise<void> {
  session.dialog = null
  await files.save()
  // Not written, or a name is still asked for: the window stays.
  if (!jobs.isDirty) window.close()
}

function textField(): boolean {
  const active = document.activeElement
  return active instanceof HTMLInputElement || active instanceof HTMLTextAreaElement
}
