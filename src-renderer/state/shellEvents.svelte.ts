/** What the system tells the window: a menu's command, a file to open, a wish to save before closing. */
import type { ShellEvent } from '../../src-core/bridge/bookContract.ts'
import type { FileRef } from '../../src-core/bridge/reply.ts'
import { isCommand, SAVE_AND_CLOSE } from '../../src-core/bridge/commands.ts'
import type { Actions } from './actions.ts'
import type { App } from './app.svelte.ts'

/** Follows the shell until the function that comes back is called. */
export function obeyShell(app: App, actions: Actions): () => void {
  /** A file that waits while a question is open, such as the one about work left by a crash. */
  let waiting: FileRef | null = $state.raw(null)
  const stopWaiting = $effect.root(() => {
    $effect(() => {
      if (waiting === null || app.session.dialog !== null) return
      const file = waiting
      waiting = null
      app.book.close()
      app.files.openGiven(file)
    })
  })
  const deaf = app.shell.subscribe((event) => {
    if (event.kind === 'open') waiting = event.file
    else obey(app, actions, event)
  })
  return () => {
    deaf()
    stopWaiting()
  }
}

function obey(app: App, actions: Actions, event: ShellEvent & { readonly kind: 'command' }): void {
  const { session, book } = app
  if (event.name === SAVE_AND_CLOSE) return void saveAndClose(app)
  const typing = textField()
  if ((event.name === 'undo' || event.name === 'redo') && typing) {
    // The only way to a text field's own history.
    document.execCommand(event.name)
    return
  }
  if (!isCommand(event.name) || session.dialog !== null || book.shown) return
  const action = actions[event.name]
  if (action.enabled()) action.run()
}

async function saveAndClose({ files, session }: App): Promise<void> {
  if (session.unkept) {
    session.notice = {
      kind: 'fault',
      text: 'Not closed: what you gave here is not kept yet. Finish or leave this first.',
    }
    return
  }
  session.dialog = null
  // Not written: the window stays.
  await files.saving.saveThen(() => window.close())
}

function textField(): boolean {
  const active = document.activeElement
  return active instanceof HTMLInputElement || active instanceof HTMLTextAreaElement
}
