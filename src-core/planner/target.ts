/** What a plan has to reach: the speed that is wanted and the unbalance that the criterion allows at it. */
import { atMost } from '../geometry/tolerance.ts'
import type { Analysis } from '../analysis/result.ts'
import type { Job, Setup } from '../job/schema.ts'
import { speedsToLookAt } from '../job/spindle.ts'
import { allowedUnbalance } from '../unbalance/criterion.ts'
import { isOver, machineLimit, massesOf } from '../verdict/limits.ts'

/** The chosen speed; else the gear for the cutting speed; where plate and spindle do not permit it, their top gear. rpm. */
export function wantedSpeed(job: Job, setup: Setup, analysis: Analysis): number {
  if (setup.speed !== null) return setup.speed
  const most = machineLimit(analysis.limits)
  const forTool = analysis.cutting?.set_rpm ?? null
  if (forTool !== null && !isOver(forTool, most)) return forTool
  const gears = speedsToLookAt(job.lathe)
  const permitted = gears.filter((rpm) => rpm <= most)
  return permitted[permitted.length - 1] ?? gears[0]!
}

/** g·mm that the 95 % bound may reach at `rpm`, for the rotating mass of the analysis. */
export const targetUnbalance = (job: Job, setup: Setup, analysis: Analysis, rpm: number): number =>
  allowedUnbalance(setup.criterion, massesOf({ job, mass: analysis.assembly.mass_kg }), rpm)

/** Whether the 95 % bound of an analysed setup meets the criterion at `rpm`; one that is not known is not met. */
export const meetsTarget = ({ limits, findings }: Analysis, rpm: number): boolean =>
  limits.balance === null
    ? !findings.some((f) => f.code === 'criterion-not-known')
    : atMost(rpm, limits.balance)
