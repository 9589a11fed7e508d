/** From the first screen to a part that comes from a file or a photograph. */
import type { App } from './app.svelte.ts'
import { blankJob, startIn } from './blankJob.ts'
import { startedInShop } from './newJobShop.ts'

/** On a plate with nothing but a stand-in, which what comes in takes the place of. */
export function startWith(
  { files, session, settings, jobs, shop }: App,
  dialog: 'import' | 'photograph',
): void {
  const shape = dialog === 'photograph' ? 'traced' : 'file'
  const blank = blankJob({ ...startIn(settings.values.units ?? 'mm'), shape })
  files.newJob(startedInShop(blank, shop.library, jobs.job))
  session.welcome = false
  session.standIn = true
  session.step = 'part'
  session.dialog = dialog
}
