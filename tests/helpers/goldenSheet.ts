/** A fixed set-up with a fixed analysis, so that its sheets move only when the drawing does. */
import { readFileSync, writeFileSync } from 'node:fs'
import type { Analysis } from '../../src-core/analysis/result.ts'
import { setupSheet, type SheetOptions } from '../../src-core/drawing/sheet/setupSheet.ts'
import type { Drawing } from '../../src-core/drawing/model/model.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { soundJob } from './jobs.ts'

const file = (name: string) => new URL(`../golden/${name}`, import.meta.url)

export const bracketJob = (): Job => soundJob(readFileSync(file('bracket.evenswing.json'), 'utf8'))

/** What the analysis gave when the golden sheets were made. */
export const bracketAnalysis = (): Analysis =>
  JSON.parse(readFileSync(file('bracket.analysis.json'), 'utf8')) as Analysis

export const bracketSheets = (options: SheetOptions = {}, units: Job['displayUnits'] = 'mm'): Drawing[] =>
  setupSheet({ ...bracketJob(), displayUnits: units }, 'op10', bracketAnalysis(), {
    date: '2026-03-01',
    revision: 'A',
    by: 'J. Turner',
    ...options,
  })

/**
 * The golden text of a name, for comparison with what is written now. Run with EVENSWING_GOLDEN=write to take what is
 * written now as golden, then look at it before it is kept.
 */
export function golden(name: string, written: string): string {
  if (process.env['EVENSWING_GOLDEN'] === 'write') writeFileSync(file(name), written)
  return readFileSync(file(name), 'utf8')
}
