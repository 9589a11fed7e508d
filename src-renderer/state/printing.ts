import { CHECK_LINE } from '../../src-core/drawing/sheet/frame.ts'
import type { App } from './app.svelte.ts'

/** The sheets on show to the printer; without any open, those of the setup as it stands. */
export function printSheets({ jobs, sheets, session }: Pick<App, 'jobs' | 'sheets' | 'session'>): void {
  if (!sheets.shown) sheets.show('setup')
  sheets.draw()
  if (sheets.drawings.length === 0) return
  sheets.printing = sheets.drawings
  // The system's dialog may shrink a sheet to its margins, and nobody but the paper shows it.
  const text =
    sheets.of === 'cards'
      ? 'A card is A5 lying: two go on one A4.'
      : `Print at 100 % (actual size). The check line at the foot of the sheet must measure ${CHECK_LINE[jobs.job.displayUnits].words} on paper.`
  session.notice = { kind: 'done', text }
}
