/** The verdict at each speed, and the rows of the table of speeds. */
import type { Effect } from '../findings/codes.ts'
import type { Finding } from '../findings/finding.ts'
import type { Setup } from '../job/schema.ts'
import { centrifugalForce, coupleMoment, equivalentGrade, STANDARD_GRAVITY } from '../unbalance/static.ts'
import { ceilingsOf, isOver, type Ceilings, type SpeedLimits } from './limits.ts'

/**
 * stop: something is wrong or a limit is passed. not-judged: something that could hurt is not known. caution: allowed by
 * the best estimate, not by the 95 % bound. go: nothing found against it.
 */
export type Verdict = 'stop' | 'not-judged' | 'caution' | 'go'

/** As a reader sees it. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  stop: 'stop',
  'not-judged': 'not judged',
  caution: 'caution',
  go: 'go',
}

/** What the verdict at a speed is made of. */
export interface Judgement {
  readonly ceilings: Ceilings
  /** Worst first. */
  readonly findings: readonly Finding[]
}

export const judgementOf = (limits: SpeedLimits, findings: readonly Finding[]): Judgement => ({
  ceilings: ceilingsOf(limits, findings),
  findings,
})

/** Whether a finding has its effect at a speed in rpm. */
export const holdsAt = (f: Finding, rpm: number): boolean => f.fromRpm === 0 || isOver(rpm, f.fromRpm)

/** The first finding that has an effect at a speed. */
export const findingAt = (rpm: number, { findings }: Judgement, effect: Effect): Finding | undefined =>
  findings.find((f) => f.effect === effect && holdsAt(f, rpm))

/** The verdict at a speed in rpm, 0 for standing still and being turned by hand. */
export function verdictAt(rpm: number, judgement: Judgement): Verdict {
  const { bound, best } = judgement.ceilings
  if (findingAt(rpm, judgement, 'stop') || isOver(rpm, best.rpm)) return 'stop'
  if (findingAt(rpm, judgement, 'unknown')) return 'not-judged'
  return isOver(rpm, bound.rpm) ? 'caution' : 'go'
}

export interface SpeedRow {
  readonly rpm: number
  /** N, from the best estimate. */
  readonly force_N: number
  /** N, from the 95 % upper bound. */
  readonly force_upper95_N: number
  /** Force over the weight of everything that rotates, 0 to …; 0.1 is 10 %. */
  readonly weight_share: number
  readonly grade_mm_s: number
  /** m/min at the finish bore; null where the setup has no bore. */
  readonly surface_speed_m_min: number | null
  /** N·m of the couple about the plate's face. */
  readonly couple_moment_N_m: number
  /** Factor of the part on its seat, at the chosen speed alone; null at others and where it was not judged. */
  readonly clamp_factor: number | null
  readonly verdict: Verdict
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
  readonly clampFactor: number | null
}

/** The figures of one speed, rpm: U·ω², its share of the rotating weight, and the grade of ISO 21940-11. */
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
    clamp_factor: input.clampFactor,
    verdict,
  }
}

/** Spindle speeds in rising order, the chosen one among them even if it is no gear. */
export function speedsToShow(gears: readonly number[], setup: Setup): number[] {
  const all = new Set(gears)
  if (setup.speed !== null) all.add(setup.speed)
  return [...all].sort((a, b) => a - b)
}
