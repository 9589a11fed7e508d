/** Readings of a setup made into an answer: measured beside computed, what a difference points to, and how to correct it. */
import { analyse } from '../analysis/analyse.ts'
import type { Analysis } from '../analysis/result.ts'
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { polar } from '../geometry/angles.ts'
import type { JobFault } from '../job/fault.ts'
import type { Job } from '../job/schema.ts'
import { planCounterweights } from '../planner/plan.ts'
import type { Plan, PlanHooks } from '../planner/report.ts'
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

/** Works a set of readings out for a setup. Throws RangeError on an unknown setup. */
export function trimReport(
  job: Job,
  setupId: string,
  readings: Readings,
  options: TrimOptions = {},
  hooks: PlanHooks = {},
): TrimResult {
  const fmt = formatter(job.displayUnits)
  const outcome = solveReadings(readings, weightDoubtOf(job), fmt)
  if (!outcome.ok) return outcome
  const analysis = analyse(job, setupId)
  const { first, others, told } = inOrder(outcome.estimates, analysis)
  const direction = first ? null : outcome.direction
  const computed = compared(analysis, first, direction, fmt)
  const answer = first && answerOf(first)
  const planned =
    first && told
      ? corrections({ job, setupId, analysis, measured: first, agrees: computed.agrees }, options, hooks)
      : notPlanned(outcome.estimates)
  return {
    ok: true,
    report: {
      setup: setupId,
      method: readings.method,
      measured_g_mm: answer?.measured_g_mm ?? null,
      heavy_angle_deg: answer?.heavy_angle_deg ?? directionAngle(direction),
      upper95_g_mm: answer?.upper95_g_mm ?? null,
      misfit: first?.misfit ?? null,
      also: others.map(answerOf),
      remarks: outcome.remarks,
      runs: judgeRuns(job, setupId, readings),
      computed,
      suggests: first && told && !computed.agrees ? suggestions(job, setupId, analysis, first) : [],
      ...planned,
    },
  }
}

const directionAngle = (direction: Direction | null) => direction?.angle_deg ?? null

interface Ordered {
  readonly first: Estimate | null
  readonly others: readonly Estimate[]
  /** Whether it is known which answer holds. */
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

function notPlanned(estimates: readonly Estimate[]) {
  const why =
    estimates.length === 0
      ? 'Nothing is corrected yet: how heavy the heavy side is has not been measured.'
      : 'Nothing is corrected yet: which of the answers holds is not known.'
  return { plans: [], plan_remarks: [why] }
}

interface Known {
  readonly job: Job
  readonly setupId: string
  readonly analysis: Analysis
  readonly measured: Estimate
  readonly agrees: boolean
}

function corrections(
  { job, setupId, analysis, measured, agrees }: Known,
  { takeOff = false }: TrimOptions,
  hooks: PlanHooks,
): Pick<TrimReport, 'plans' | 'plan_remarks'> {
  const asMeasured = measuredJob(job, setupId, analysis, measured, !takeOff)
  const report = planCounterweights(
    asMeasured,
    setupId,
    { keepCounterweights: !takeOff, moveHardware: false, turnPart: false },
    hooks,
  )
  const plans = report.plans.map((plan): TrimPlan => {
    const vector = polar(plan.residual_g_mm, plan.residual_angle_deg)
    const verdict = plan.verdict === 'go' && !agrees ? 'caution' : plan.verdict
    return { ...plan, verdict, reading: predictedReading({ vector, response: measured.response }, []) }
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
