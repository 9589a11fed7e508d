/** The sheet that holds what a crowded one has no room for. */
import type { Analysis } from '../../analysis/result.ts'
import type { Job } from '../../job/schema.ts'
import { findSetup } from '../../mounting/mount.ts'
import type { Drawing } from '../model/model.ts'
import { sizeOf, setupSheet, type SheetOptions } from './setupSheet.ts'
import { largerSheets, sizeText, type SheetName } from './sheetSizes.ts'

export interface LargerSheet {
  readonly from: SheetName
  /** What the views of `from` have no room for. */
  readonly missing: readonly string[]
  /** The smallest of its series that has room for more of it; null where none has. */
  readonly to: SheetName | null
  /** What even that one has no room for. */
  readonly left: readonly string[]
}

/**
 * Null where the sheet has room for all. Draws each larger one until all is there.
 * @param drawn the sheets as given, where they are drawn already
 * Throws as `setupSheet` does.
 */
export function largerSheet(
  job: Job,
  setupId: string,
  analysis: Analysis,
  given: SheetOptions = {},
  drawn: readonly Drawing[] = setupSheet(job, setupId, analysis, given),
): LargerSheet | null {
  const missing = drawn[0]!.unplaced ?? []
  if (missing.length === 0) return null
  const from = sizeOf(job, findSetup(job, setupId), given)
  const missingOn = (sheet: SheetName) =>
    setupSheet(job, setupId, analysis, { ...given, sheet })[0]!.unplaced ?? []
  let best: Pick<LargerSheet, 'to' | 'left'> = { to: null, left: missing }
  for (const to of largerSheets(from)) {
    const left = missingOn(to)
    if (left.length < best.left.length) best = { to, left }
    if (left.length === 0) break
  }
  return { from, missing, ...best }
}

/** Short sentence first, then what is missing. */
export function largerSheetWords({ from, missing, to, left }: LargerSheet): string {
  const what = missing.length === 1 ? '1 label' : `${missing.length} labels`
  const most = left.length === 0 ? 'all of them' : `all but ${left.length}`
  const cure =
    to === null
      ? 'No larger sheet of the series has more; the tables and notes say it.'
      : `${sizeText(to)} has room for ${missing.length === 1 ? 'it' : most}.`
  return `The views on ${sizeText(from)} have no room for ${what}. ${cure} Missing: ${missing.join(', ')}.`
}
