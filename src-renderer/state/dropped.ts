/** A file dropped anywhere on the window: a job is opened, a drawing, mesh or photograph is shown before it is taken in. */
import { JOB_ENDING, jobEndingOf } from '../../src-core/job/fileEnding.ts'
import { IMPORT_ENDINGS } from '../../src-core/import/importFile.ts'
import { PICTURE_ENDINGS } from './photographDesk.svelte.ts'
import type { App } from './app.svelte.ts'
import { startWith } from './startWith.ts'

export async function takeDropped(app: App, file: File): Promise<void> {
  const { files, importer, desk, session, shell } = app
  const ending = file.name.toLowerCase().split('.').at(-1) ?? ''
  if (ending === 'json' || jobEndingOf(file.name) !== null) {
    const adopted = await shell.adoptDropped(file)
    if (adopted.ok && adopted.value) return files.openGiven(adopted.value)
    // A browser tells no paths: the text alone.
    return files.openText(await file.text(), file.name)
  }
  if ((IMPORT_ENDINGS as readonly string[]).includes(ending)) {
    show(app, 'import')
    return importer.take(file)
  }
  if (PICTURE_ENDINGS.includes(ending)) {
    show(app, 'photograph')
    return desk.take(file)
  }
  session.notice = {
    kind: 'fault',
    text: `${file.name} is neither a job, a drawing nor a photograph. Drop a job (${JOB_ENDING}) or a ${[...IMPORT_ENDINGS, 'png', 'jpeg'].map((e) => e.toUpperCase()).join(', ')} file.`,
  }
}

/** Dropped on the first screen it begins a job of its own, and does not go into the example behind it. */
function show(app: App, dialog: 'import' | 'photograph'): void {
  if (app.session.welcome) startWith(app, dialog)
  else app.session.dialog = dialog
}
