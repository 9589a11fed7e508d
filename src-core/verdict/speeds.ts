/** Limits on the spindle speed, the ceiling they make, and the verdict at each speed. */
import { atMost } from '../geometry/tolerance.ts'
import type { Setup } from '../job/schema.ts'
import { centrifugalForce, coupleMoment, equivalentGrade, STANDARD_GRAVITY } from '../unbalance/static.ts'
import type { Ceiling, CeilingLimit, SpeedLimits, SpeedRow, Verdict } from './types.ts'

/** The lowest limit, named; a foul leaves no speed at all. Ties go to the first in the order of the list. */
export function ceilingOf(limits: SpeedLimits, fouls: boolean): Ceiling {
  if (fouls) return { rpm: 0, limit: 'clearance' }
  const list: [CeilingLimit, number | null][] = [
    ['balance', limits.balance],
    ['plate', limits.plate],
    ['spindle', limits.spindle],
    ['cutting', limits.cutting],
    ['clamps', limits.clamps],
  ]
  let ceiling: Ceiling = { rpm: null, limit: null }
  for (const [limit, rpm] of list) {
    if (rpm !== null && (ceiling.rpm === null || rpm < ceiling.rpm)) ceiling = { rpm, limit }
  }
  return ceiling
}

/** The same with the balance limit from the best estimate: the top of the caution band. */
export const bestEstimateCeiling = (limits: SpeedLimits, fouls: boolean): Ceiling =>
  ceilingOf({ ...limits, balance: limits.balanceBestEstimate }, fouls)

/** go up to the ceiling, caution up to the best estimate's, stop above. rpm. */
export function verdictAt(rpm: number, ceiling: Ceiling, best: Ceiling): Verdict {
  const under = (c: Ceiling) => c.rpm === null || atMost(rpm, c.rpm)
  if (under(ceiling)) return 'go'
  return under(best) ? 'caution' : 'stop'
}

export interface SpeedInput {
  /** g·mm, g·mm, g·mm² */
  readonly unbalance: number
  readonly upper95: number
  readonly couple: number
  /** kg */
  readonly mass: number
  /** mm; null without a bore. */
  readonly boreDiameter: number | null
  readonly clampFactorAt: (rpm: number) => number | null
}

export function speedRow(rpm: number, input: SpeedInput, verdict: Verdict): SpeedRow {
  const force = centrifugalForce(input.unbalance, rpm)
  return {
    rpm,
    force_N: force,
    force_upper95_N: centrifugalForce(input.upper95, rpm),
    weight_share: force / (input.mass * STANDARD_GRAVITY),
    grade_mm_s: equivalentGrade(input.unbalance, input.mass, rpm),
    surface_speed_m_min: input.boreDiameter === null ? null : (Math.PI * input.boreDiameter * rpm) / 1000,
    couple_moment_N_m: coupleMoment(input.couple, rpm),
    clamp_factor: input.clampFactorAt(rpm),
    verdict,
  }
}

/** Spindle speeds in rising order, the chosen one among them even if it is no gear. */
export function speedsToShow(gears: readonly number[], setup: Setup): number[] {
  const all = new Set(gears)
  if (setup.speed !== null) all.add(setup.speed)
  return [...all].sort((a, b) => a - b)
}
