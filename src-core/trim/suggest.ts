/**
 * What a difference between measured and computed points to: each cause is put into the model with the amount that
 * explains most, and stays in the list only where what is left lies within the doubts.
 */
import type { Analysis } from '../analysis/result.ts'
import { directionOf } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import type { Job } from '../job/schema.ts'
import { mountSetup } from '../mounting/mount.ts'
import { formatter } from '../units/format.ts'
import { hollowCauses } from './causes/hollows.ts'
import { densityCauses } from './causes/density.ts'
import { forgottenCauses } from './causes/forgotten.ts'
import { placeCauses } from './causes/place.ts'
import type { Bench, Cause } from './causes/cause.ts'
import { computedVector, mayBe, missingIn } from './compare.ts'
import type { Estimate } from './estimate.ts'

export interface Suggestion {
  readonly cause: Cause['cause']
  /** Id of what it is about, or `part`. */
  readonly item: string
  /** Short sentence first, figures and what to look at after. */
  readonly message: string
  /** g·mm of the difference that it leaves unexplained. */
  readonly left_g_mm: number
}

/** Most causes listed: more is no help. */
const MOST = 6

/** Causes that explain the measured unbalance, those that need least to be assumed first. */
export function suggestions(job: Job, setupId: string, analysis: Analysis, measured: Estimate): Suggestion[] {
  const computed = computedVector(analysis)
  const missing = missingIn(analysis, measured)
  const fmt = formatter(job.displayUnits)
  const bench: Bench = { job, setupId, mounted: mountSetup(job, setupId), computed, missing, fmt }
  const leftBy = ({ change }: Cause) => Math.hypot(missing.x - change.x, missing.y - change.y)
  const explains = ({ change }: Cause) =>
    mayBe({ x: computed.x + change.x, y: computed.y + change.y }, analysis.covariance, measured)
  const causes = [forgottenCauses, densityCauses, hollowCauses, placeCauses]
    .flatMap((find) => find(bench))
    .filter(explains)
    .map((c) => ({ ...c, left: leftBy(c) }))
    .sort((a, b) => a.assumed - b.assumed || a.left - b.left)
    .slice(0, MOST)
  if (causes.length === 0) return [nothingFits(missing, bench)]
  return causes.map(({ cause, item, message, left }) => ({ cause, item, message, left_g_mm: left }))
}

function nothingFits(missing: Point, { job, fmt }: Bench): Suggestion {
  const gap = Math.hypot(missing.x, missing.y)
  const radius = job.plate.diameter / 2
  return {
    cause: 'unknown',
    item: 'setup',
    message: `No single cause that was tried explains it. Look for loose things, swarf, water in a pocket, a part seated askew, then measure again: it is as if ${fmt.mass(gap / radius / 1000)} sat at the rim toward ${fmt.angle(directionOf(missing))}.`,
    left_g_mm: gap,
  }
}
