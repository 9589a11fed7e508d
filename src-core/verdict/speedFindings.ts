/** Findings about balance and speed: what it pulls at the chosen speed, against what limit, and what would cure it. */
import { shakesFrom, shakesWords } from '../checks/machineWeight.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { opposite } from '../geometry/angles.ts'
import type { Criterion, Job, Setup } from '../job/schema.ts'
import { outermostStation } from '../mounting/station.ts'
import type { Unbalance } from '../unbalance/assembly.ts'
import {
  allowedUnbalance,
  criterionCeiling,
  criterionWords,
  isCriterionKnown,
} from '../unbalance/criterion.ts'
import { STANDARD_GRAVITY, centrifugalForce, isHeavySide } from '../unbalance/static.ts'
import { directionWords, formatter, weightAtRadius, type Formatter } from '../units/format.ts'
import {
  isOver,
  limitWords,
  massesOf,
  type Ceiling,
  type CeilingLimit,
  type Ceilings,
  type SpeedLimits,
} from './limits.ts'

export interface SpeedFindingsInput {
  readonly job: Job
  readonly setup: Setup
  /** kg of everything that turns. */
  readonly mass: number
  readonly unbalance: Unbalance
  readonly limits: SpeedLimits
  readonly ceilings: Ceilings
  /** rpm; see `fastestLeft`. */
  readonly fastest: number | null
}

export function speedFindings(input: SpeedFindingsInput): Finding[] {
  const { job, setup } = input
  const fmt = formatter(job.displayUnits)
  const findings =
    setup.speed === null
      ? [noSpeed(input)]
      : [...pullFindings(input, setup.speed), ...tooFast(input, setup.speed)]
  if (!isCriterionKnown(setup.criterion, massesOf(input))) findings.push(criterionUnknown(input))
  findings.push(
    finding(
      'note',
      'criterion-own-setting',
      'setup',
      `No published standard sets a speed or a residual for faceplate work, and no ISO 21940-11 grade covers it; ${criterionWords(setup, fmt)} is this job's own setting.`,
    ),
  )
  findings.push(...boldCriterion(input))
  if (!job.plate.residual) {
    const { plateResidual } = uncertaintiesOf(job)
    findings.push(
      finding(
        'note',
        'plate-residual-unknown',
        'plate',
        `The bare plate's own unbalance is not given: taken as nothing, with a standard doubt of ${fmt.give(plateResidual)} of offset, ${fmt.unbalance(job.plate.mass * 1000 * plateResidual)}, in the 95 % bound. Let the bare plate roll to rest to see.`,
      ),
    )
  }
  return findings
}

function criterionUnknown({ job, setup }: SpeedFindingsInput): Finding {
  const limit = criterionWords(setup, formatter(job.displayUnits))
  const message = `What the balance has to meet is not known: the limit is ${limit}, and the lathe's mass is not given. Give it with the lathe, or choose another criterion.`
  return finding('caution', 'criterion-not-known', 'lathe', message)
}

/** Above these a wish is no balance to aim at. Rules of thumb, Evenswing's own. */
const MOST_SHARE = 0.5
const MOST_GRADE = 100

/** Faster than any spindle: nothing is pulled there that has no unbalance. */
const NEVER = 1e6

/** What is let pass of it, and why no more. */
function sensible({ job, setup, mass }: SpeedFindingsInput): {
  readonly most: Criterion
  readonly why: string
} {
  const { kind } = setup.criterion
  const fmt = formatter(job.displayUnits)
  const half = MOST_SHARE * mass * STANDARD_GRAVITY
  switch (kind) {
    case 'grade':
      return {
        most: { kind, value: MOST_GRADE },
        why: `Grade G ${MOST_GRADE} is coarser than any machine tool`,
      }
    case 'machineShare':
      return {
        most: { kind, value: shakesFrom(job.lathe) },
        why: `${shakesWords(job.lathe, fmt)} may shake it or make it walk`,
      }
    case 'weightShare':
    case 'force':
      return {
        most: { kind, value: kind === 'force' ? half : MOST_SHARE },
        why: `Half the weight of what turns, ${fmt.force(half)}, already shakes a lathe`,
      }
  }
}

/** Where the pull is more than makes sense, a wish does not make it go. */
function boldCriterion(input: SpeedFindingsInput): Finding[] {
  const { job, setup, unbalance } = input
  const { most, why } = sensible(input)
  if (setup.criterion.value <= most.value) return []
  const from = criterionCeiling(most, massesOf(input), unbalance.upper95_g_mm) ?? NEVER
  const message = `The balance limit of ${criterionWords(setup, formatter(job.displayUnits))} is beyond sense. ${why}: ask for less.`
  return [finding('caution', 'criterion-bold', 'setup', message, null, from)]
}

function ceilingText({ rpm, limit }: Ceiling, fmt: Formatter): string {
  if (rpm === null || limit === null) return 'nothing given limits the speed'
  return `ceiling ${fmt.speedLimit(rpm)}, set by ${limitWords(limit).long}`
}

function noSpeed({ job, ceilings }: SpeedFindingsInput): Finding {
  const ceiling = ceilingText(ceilings.bound, formatter(job.displayUnits))
  const message = `No speed is chosen; ${ceiling}. Choose one to have forces and clamps judged at it.`
  return finding('note', 'no-speed-chosen', 'setup', message)
}

/** The unbalance's pull at the chosen speed against the criterion. */
function pullFindings(input: SpeedFindingsInput, rpm: number): Finding[] {
  const { job, setup, mass, unbalance, limits } = input
  const fmt = formatter(job.displayUnits)
  const weight = mass * STANDARD_GRAVITY
  const force = centrifugalForce(unbalance.static_g_mm, rpm)
  const upper = centrifugalForce(unbalance.upper95_g_mm, rpm)
  const heavy = isHeavySide(unbalance.static_g_mm)
    ? `heavy side at ${directionWords(fmt, unbalance.static_angle_deg)}`
    : 'no heavy side to speak of'
  const pulls = `Unbalance pulls ${fmt.force(force)} at ${fmt.speed(rpm)}, ${fmt.percent(force / weight)} of ${fmt.force(weight)} (95 % bound ${fmt.force(upper)}), ${heavy}; limit ${criterionWords(setup, fmt)}`
  if (!isCriterionKnown(setup.criterion, massesOf(input))) return []
  if (!Number.isFinite(upper)) {
    const message =
      'The pull cannot be worked out: a size of this job is smaller or larger than a thing can be. Look through its sizes.'
    return [finding('stop', 'unbalance-over-limit', 'setup', message)]
  }
  const over = limits.balanceBestEstimate
  if (over !== null && isOver(rpm, over)) {
    const message = `The pull is over the limit at ${fmt.speed(rpm)}. ${pulls}. ${cure(input)}`
    return [finding('stop', 'unbalance-over-limit', 'setup', message, null, over)]
  }
  if (!isOver(rpm, limits.balance)) {
    const message = `The pull is within the limit at ${fmt.speed(rpm)}. ${pulls}.`
    return [finding('note', 'unbalance-within-limit', 'setup', message)]
  }
  const message = `The pull may be over the limit at ${fmt.speed(rpm)}. ${pulls}, met by the best estimate but not by the 95 % bound. ${cure(input)}`
  return [finding('caution', 'unbalance-near-limit', 'setup', message)]
}

function tooFast({ job, ceilings }: SpeedFindingsInput, rpm: number): Finding[] {
  const { bound, best } = ceilings
  // Without any speed at all the reason is another finding's.
  if (!best.rpm || !isOver(rpm, best.rpm)) return []
  const fmt = formatter(job.displayUnits)
  const message = `${fmt.speed(rpm)} is above the ${ceilingText(bound, fmt)}. ${LIMIT_CURES[bound.limit ?? 'finding']}`
  return [finding('stop', 'speed-above-ceiling', 'setup', message, null, best.rpm)]
}

/** What can be done about a limit: a machine's own is not to be lifted. */
const LIMIT_CURES: Readonly<Record<CeilingLimit, string>> = {
  balance: 'Run slower, or balance it better.',
  plate: 'Run slower.',
  spindle: 'Run slower.',
  holding: 'Run slower, or hold it better.',
  clearance: 'Clear what fouls first.',
  finding: 'Mend what says stop first.',
}

/** What would make it run at the chosen speed: a weight, less doubt, or a slower speed. */
function cure(input: SpeedFindingsInput): string {
  const { job, setup, unbalance, fastest } = input
  const fmt = formatter(job.displayUnits)
  const u = unbalance.static_g_mm
  const allowed =
    setup.speed === null ? null : allowedUnbalance(setup.criterion, massesOf(input), setup.speed)
  const doubt = unbalance.upper95_g_mm - u
  const slower =
    fastest === null || Math.floor(fastest) === 0
      ? 'run slower'
      : `run at ${fmt.speedLimit(fastest)} or slower`
  if (allowed !== null && doubt >= allowed) {
    const weight = u > allowed ? `${weightOpposite(input)} would settle what is known of it, but the` : 'The'
    return `${weight} doubt alone is ${fmt.unbalance(doubt)} against ${fmt.unbalance(allowed)} allowed, which no weight cures: ${lessDoubt(job)}, or ${slower}.`
  }
  const aim = allowed === null ? '' : ` (aim: under ${fmt.unbalance(allowed)}, now ${fmt.unbalance(u)})`
  return `${weightOpposite(input)} would settle it${aim}, or ${slower}.`
}

/** A single counterweight opposite the heavy side, at the radius of the plate's outermost station. */
function weightOpposite({ job, unbalance }: SpeedFindingsInput): string {
  const fmt = formatter(job.displayUnits)
  const light = opposite(unbalance.static_angle_deg)
  return `${weightAtRadius(fmt, unbalance.static_g_mm, outermostStation(job.plate))} toward ${directionWords(fmt, light)}`
}

/** What is not measured yet. */
function lessDoubt({ part, plate }: Job): string {
  const measures = [
    ...(part.weighedMass === null ? ['weigh the part'] : []),
    ...(plate.residual ? [] : ["find the bare plate's own unbalance"]),
  ]
  return measures.length > 0 ? measures.join(' and ') : 'let it roll to rest and trim it'
}
