/** A trial run judged before it is made: with its weight on, at its speed. */
import { analyse } from '../analysis/analyse.ts'
import type { Analysis } from '../analysis/result.ts'
import type { Job } from '../job/schema.ts'
import { formatter } from '../units/format.ts'
import type { Verdict } from '../verdict/speeds.ts'
import { weightVector } from './estimate.ts'
import { trialJob } from './measuredJob.ts'
import type { Readings, TrialWeight } from './readings.ts'

export interface TrialVerdict {
  /** Null for the run as it is. */
  readonly weight: TrialWeight | null
  readonly rpm: number
  readonly verdict: Verdict
  /** Why, as one sentence. */
  readonly reason: string
  readonly unbalance_g_mm: number
}

/**
 * Judges one run. The weight counts by mass and place; how it is bolted on and what it might meet is not known.
 * @param bare the setup's analysis without the weight.
 */
export function judgeTrialRun(
  job: Job,
  setupId: string,
  weight: TrialWeight | null,
  rpm: number,
  bare: Analysis = analyse(job, setupId),
): TrialVerdict {
  const on = weight ? weightVector(weight) : { x: 0, y: 0 }
  const a = analyse(trialJob(job, setupId, on, rpm, bare), setupId)
  const rim = job.plate.diameter / 2
  const offPlate = weight !== null && weight.radius_mm > rim
  const fmt = formatter(job.displayUnits)
  return {
    weight,
    rpm,
    verdict: offPlate ? 'stop' : a.verdict.state,
    reason: offPlate
      ? `The trial weight lies off the plate: radius ${fmt.length(weight.radius_mm)}, rim ${fmt.length(rim)}.`
      : `${a.verdict.reason}.`,
    unbalance_g_mm: a.unbalance.static_g_mm,
  }
}

/** Every run that readings were or will be taken in; none for a roll, which needs no power. */
export function judgeRuns(job: Job, setupId: string, readings: Readings, bare: Analysis): TrialVerdict[] {
  if (readings.method === 'roll') return []
  const weights = readings.method === 'vector' ? [readings.trial] : readings.trials
  return [null, ...weights.map(({ mass_g, radius_mm, angle_deg }) => ({ mass_g, radius_mm, angle_deg }))].map(
    (w) => judgeTrialRun(job, setupId, w, readings.rpm, bare),
  )
}
