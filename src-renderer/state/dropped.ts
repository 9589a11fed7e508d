/** A file dropped anywhere on the window: a job is opened, a drawing or mesh is shown before it is taken in. */
import { IMPORT_ENDINGS } from '../../src-core/import/importFile.ts'
import type { App } from './app.svelte.ts'

export async function takeDropped({ files, importer, session, shell }: App, file: File): Promise<void> {
  const ending = file.name.toLowerCase().split('.').at(-1) ?? ''
  if (ending === 'json') {
    const adopted = await shell.adoptDropped(file)
    if (adopted.ok && adopted.value) return files.openGiven(adopted.value)
    // A browser tells no paths: the text alone.
    return files.openText(await file.text(), file.name)
  }
  if ((IMPORT_ENDINGS as readonly string[]).includes(ending)) {
    session.dialog = 'import'
    return importer.take(file)
  }
  session.notice = {
    kind: 'fault',
    text: `${file.name} is neither a job nor a drawing. Drop a job (.evenswing.json) or a ${IMPORT_ENDINGS.map((e) => e.toUpperCase()).join(', ')} file.`,
  }
}
