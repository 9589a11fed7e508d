/** Readings of a setup made into an answer: measured beside computed, what a difference points to, and how to correct it. */
import { analyse } from '../analysis/analyse.ts'
import type { Analysis } from '../analysis/result.ts'
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { polar } from '../geometry/angles.ts'
import type { JobFault } from '../job/fault.ts'
import type { Job } from '../job/schema.ts'
import { planCounterweights } from '../planner/plan.ts'
import type { Plan, PlanHooks, PlanOptions, PlanReport } from '../planner/report.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { compared, computedVector, mayBe, type Computed } from './compare.ts'
import {
  answerOf,
  predictedReading,
  type Direction,
  type Estimate,
  type Outcome,
  type PredictedReading,
  type TrimAnswer,
  type WeightDoubt,
} from './estimate.ts'
import { solveFourRun } from './fourRun.ts'
import { measuredJob } from './measuredJob.ts'
import type { Readings, TrimMethod } from './readings.ts'
import { solveRoll } from './roll.ts'
import { suggestions, type Suggestion } from './suggest.ts'
import { judgeRuns, type TrialVerdict } from './trialRun.ts'
import { solveVector } from './vectorRun.ts'

export interface TrimOptions {
  /** Whether counterweights that are on the plate and not fixed may come off again. */
  readonly takeOff?: boolean
}

export type TrimPlan = Plan & {
  /** What the meter should show with the plan on, at the same speed; null after a roll. */
  readonly reading: PredictedReading | null
}

export interface TrimReport {
  readonly setup: string
  readonly method: TrimMethod
  /** Null where only a direction is known. */
  readonly measured_g_mm: number | null
  readonly heavy_angle_deg: number | null
  readonly upper95_g_mm: number | null
  /** Left unexplained: amplitude of a four-run set, degrees between the rests of a roll; null where nothing checks it. */
  readonly misfit: number | null
  /** Other answers that the readings allow as well. */
  readonly also: readonly TrimAnswer[]
  /** How the readings are judged. */
  readonly remarks: readonly string[]
  /** The runs that the readings come from, as they should have been judged before. */
  readonly runs: readonly TrialVerdict[]
  readonly computed: Computed
  readonly suggests: readonly Suggestion[]
  /** Corrections of the measured unbalance from the stock, best first. */
  readonly plans: readonly TrimPlan[]
  /** What there is to say of the plans. */
  readonly plan_remarks: readonly string[]
}

export type TrimResult =
  | { readonly ok: true; readonly report: TrimReport }
  | { readonly ok: false; readonly faults: readonly JobFault[] }

/** What readings say, without the job's model. */
export function solveReadings(readings: Readings, doubt: WeightDoubt, fmt: Formatter): Outcome {
  switch (readings.method) {
    case 'roll':
      return solveRoll(readings, doubt, fmt)
    case 'four-run':
      return solveFourRun(readings, doubt, fmt)
    case 'vector':
      return solveVector(readings, doubt)
  }
}

export function weightDoubtOf(job: Job): WeightDoubt {
  const { weighedMass, placing } = uncertaintiesOf(job)
  return { massShare: weighedMass, place: placing }
}

/** Readings judged against the model, before anything is corrected. */
export type Judged = Omit<TrimReport, 'runs' | 'plans' | 'plan_remarks'> & {
  /** The answer that holds; null where only a direction is known. */
  readonly estimate: Estimate | null
  /** Whether it is known which of the answers holds. */
  readonly told: boolean
}

export type JudgedResult =
  | { readonly ok: true; readonly judged: Judged }
  | { readonly ok: false; readonly faults: readonly JobFault[] }

/** Judges a set of readings beside the analysis of the setup that they were taken from. */
export function judgeReadings(job: Job, analysis: Analysis, readings: Readings): JudgedResult {
  const fmt = formatter(job.displayUnits)
  const outcome = solveReadings(readings, weightDoubtOf(job), fmt)
  if (!outcome.ok) return outcome
  const { first, others, told } = inOrder(outcome.estimates, analysis)
  const direction = first ? null : outcome.direction
  const computed = compared(analysis, first, direction, fmt)
  const answer = first && answerOf(first)
  return {
    ok: true,
    judged: {
      setup: analysis.setup,
      method: readings.method,
      measured_g_mm: answer?.measured_g_mm ?? null,
      heavy_angle_deg: answer?.heavy_angle_deg ?? directionAngle(direction),
      upper95_g_mm: answer?.upper95_g_mm ?? null,
      misfit: first?.misfit ?? null,
      also: others.map(answerOf),
      remarks: outcome.remarks,
      computed,
      suggests: first && told && !computed.agrees ? suggestions(job, analysis.setup, analysis, first) : [],
      estimate: first,
      told,
    },
  }
}

/** Works a set of readings out for a setup. Throws RangeError on an unknown setup. */
export function trimReport(
  job: Job,
  setupId: string,
  readings: Readings,
  options: TrimOptions = {},
  hooks: PlanHooks = {},
): TrimResult {
  const analysis = analyse(job, setupId)
  const result = judgeReadings(job, analysis, readings)
  if (!result.ok) return result
  const { estimate, told, ...judged } = result.judged
  const search = correctionSearch(job, analysis, result.judged, options)
  const planned = search
    ? plansFrom(job, result.judged, planCounterweights(search.job, setupId, search.options, hooks))
    : { plans: [], plan_remarks: [whyNotPlanned(estimate !== null && !told)] }
  return { ok: true, report: { ...judged, runs: judgeRuns(job, setupId, readings, analysis), ...planned } }
}

const directionAngle = (direction: Direction | null) => direction?.angle_deg ?? null

interface Ordered {
  readonly first: Estimate | null
  readonly others: readonly Estimate[]
  readonly told: boolean
}

/** Of two answers that the readings cannot tell apart, the one that the model allows comes first, if only one does. */
function inOrder(estimates: readonly Estimate[], a: Analysis): Ordered {
  const allowed = estimates.filter((e) => mayBe(computedVector(a), a.covariance, e))
  const chosen = allowed.length === 1 ? allowed[0]! : (estimates[0] ?? null)
  return {
    first: chosen,
    others: estimates.filter((e) => e !== chosen),
    told: estimates.length === 1 || allowed.length === 1,
  }
}

/** Why nothing is corrected. */
export const whyNotPlanned = (ambiguous: boolean): string =>
  ambiguous
    ? 'Nothing is corrected yet: which of the answers holds is not known.'
    : 'Nothing is corrected yet: how heavy the heavy side is has not been measured.'

/** What the planner is asked to correct a measured unbalance; null where it is not known well enough which. */
export function correctionSearch(
  job: Job,
  analysis: Analysis,
  { estimate, told }: Judged,
  { takeOff = false }: TrimOptions = {},
): { readonly job: Job; readonly options: PlanOptions } | null {
  if (!estimate || !told) return null
  return {
    job: measuredJob(job, analysis.setup, analysis, estimate, !takeOff),
    options: { keepCounterweights: !takeOff, moveHardware: false, turnPart: false },
  }
}

/** The planner's answer to that, with what the meter should then read. */
export function plansFrom(
  job: Job,
  { estimate, computed }: Judged,
  report: PlanReport,
): Pick<TrimReport, 'plans' | 'plan_remarks'> {
  const { agrees } = computed
  const plans = report.plans.map((plan): TrimPlan => {
    const vector = polar(plan.residual_g_mm, plan.residual_angle_deg)
    const verdict = plan.verdict === 'go' && !agrees ? 'caution' : plan.verdict
    return {
      ...plan,
      verdict,
      reading: predictedReading({ vector, response: estimate?.response ?? null }, []),
    }
  })
  const { shortfall } = report
  const fmt = formatter(job.displayUnits)
  const short = shortfall
    ? [
        `No plan from the stock meets the criterion: ${fmt.unbalance(shortfall.missing_g_mm)} too much. Another ${fmt.mass(shortfall.extra_mass_kg)} at ${fmt.length(shortfall.radius_mm)} toward ${fmt.angle(shortfall.angle_deg)} would settle the best one.`,
      ]
    : []
  const doubted = agrees
    ? []
    : ['Until it is known why measured and computed differ, no plan is better than a caution.']
  return { plans, plan_remarks: [...doubted, ...short, ...report.remarks] }
}
