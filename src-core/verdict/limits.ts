/**
 * The limits on the spindle speed, one row each, in order: ceiling, rail, step of speed, command line and sheet read
 * this table, so a limit added here appears in all of them.
 */
import { plateLimit, spindleLimit } from '../checks/rating.ts'
import { atMost } from '../geometry/tolerance.ts'
import { isClearance } from '../findings/codes.ts'
import type { Finding } from '../findings/finding.ts'
import type { Job, Setup } from '../job/schema.ts'
import type { Unbalance } from '../unbalance/assembly.ts'
import type { Formatter } from '../units/format.ts'
import { criterionCeiling, criterionWords, type Masses } from '../unbalance/criterion.ts'

export interface LimitInput {
  readonly job: Job
  readonly setup: Setup
  /** kg of everything that turns. */
  readonly mass: number
  readonly unbalance: Unbalance
  /** rpm at which the first joint falls to the wanted factor, and of those of which all is known; null where none does. */
  readonly holding: { readonly rpm: number | null; readonly known: number | null }
}

interface LimitRow {
  /** For a flag on the rail. */
  readonly short: string
  /** For a line of its own and after "set by". */
  readonly long: string
  /** Figures that belong to it, where it has any. */
  readonly detail?: (setup: Setup, fmt: Formatter) => string
  /** It depends on the machine alone, not on the setup. */
  readonly machine: boolean
  /** rpm; null where it does not limit or was not checked. */
  readonly value: (input: LimitInput) => number | null
  /** The same by the best estimate, where that is another: above it the speed is a stop, below it a doubt. */
  readonly best?: (input: LimitInput) => number | null
}

/** kg of what turns, and of the machine. */
export const massesOf = ({ job, mass }: Pick<LimitInput, 'job' | 'mass'>): Masses => ({
  turning: mass,
  machine: job.lathe.mass ?? null,
})

const TABLE = {
  balance: {
    short: 'balance',
    long: 'balance (95 %)',
    detail: criterionWords,
    machine: false,
    value: (input) => criterionCeiling(input.setup.criterion, massesOf(input), input.unbalance.upper95_g_mm),
    best: (input) => criterionCeiling(input.setup.criterion, massesOf(input), input.unbalance.static_g_mm),
  },
  plate: {
    short: 'plate rating',
    long: "the plate's rating",
    machine: true,
    value: ({ job }) => plateLimit(job.plate),
  },
  spindle: {
    short: 'spindle',
    long: "the spindle's maximum",
    machine: true,
    value: ({ job }) => spindleLimit(job.lathe),
  },
  holding: {
    short: 'holding',
    long: 'what holds (factor 2)',
    machine: false,
    value: ({ holding }) => holding.rpm,
    // Beyond it a press of which too little is known may still hold.
    best: ({ holding }) => holding.known,
  },
} as const satisfies Record<string, LimitRow>

export type LimitId = keyof typeof TABLE

export interface Limit extends LimitRow {
  readonly id: LimitId
}

/** In order: on a tie the first one governs. */
export const LIMITS: readonly Limit[] = (Object.keys(TABLE) as LimitId[]).map((id) => ({ id, ...TABLE[id] }))

type Speeds = Readonly<Record<LimitId, number | null>>

/** Each limit's own speed, rpm; null where it does not limit or was not checked. */
export type SpeedLimits = Speeds & {
  /** The balance limit from the best estimate of the unbalance instead of its 95 % bound. */
  readonly balanceBestEstimate: number | null
  /** The holding limit of joints of which all is known: beyond the others' a press may still hold. */
  readonly holdingBestEstimate: number | null
}

const speedsBy = (of: (limit: Limit) => number | null): Speeds =>
  Object.fromEntries(LIMITS.map((l) => [l.id, of(l)])) as Record<LimitId, number | null>

/** The speed that each limit allows, rpm. */
export function speedLimits(input: LimitInput): SpeedLimits {
  const best = speedsBy((l) => (l.best ?? l.value)(input))
  return {
    ...speedsBy((l) => l.value(input)),
    balanceBestEstimate: best.balance,
    holdingBestEstimate: best.holding,
  }
}

/** Where no speed may run at all. */
const NO_SPEED = {
  clearance: { short: 'something fouls', long: 'clearance: something fouls' },
  finding: { short: 'a finding says stop', long: 'a finding that says stop' },
} as const

/** What sets the ceiling; 'clearance': what turns meets what stands still; 'finding': something else is wrong. */
export type CeilingLimit = LimitId | keyof typeof NO_SPEED

/** Short and long words for what sets a ceiling. */
export const limitWords = (limit: CeilingLimit): { readonly short: string; readonly long: string } =>
  limit in NO_SPEED ? NO_SPEED[limit as keyof typeof NO_SPEED] : TABLE[limit as LimitId]

export interface Ceiling {
  /** rpm; null where nothing limits. */
  readonly rpm: number | null
  readonly limit: CeilingLimit | null
}

/** Up to which speeds a setup may run. */
export interface Ceilings {
  /** From the 95 % bound of the unbalance. */
  readonly bound: Ceiling
  /** From its best estimate: speeds between the two are a caution. */
  readonly best: Ceiling
}

/** The lowest limit, named. */
function lowest(limits: Readonly<Record<LimitId, number | null>>): Ceiling {
  let ceiling: Ceiling = { rpm: null, limit: null }
  for (const { id } of LIMITS) {
    const rpm = limits[id]
    if (rpm !== null && (ceiling.rpm === null || rpm < ceiling.rpm)) ceiling = { rpm, limit: id }
  }
  return ceiling
}

/** The ceilings of limits and findings; a finding that stops every speed leaves none. */
export function ceilingsOf(limits: SpeedLimits, findings: readonly Finding[]): Ceilings {
  const bound = lowest(limits)
  const always = findings.filter((f) => f.effect === 'stop' && f.fromRpm === 0)
  if (always.length > 0) {
    const fouls = always.some((f) => isClearance(f.code))
    const none =
      bound.rpm === 0 && !fouls ? bound : ({ rpm: 0, limit: fouls ? 'clearance' : 'finding' } as const)
    return { bound: none, best: none }
  }
  const { balanceBestEstimate: balance, holdingBestEstimate: holding } = limits
  return { bound, best: lowest({ ...limits, balance, holding }) }
}

/** The fastest that may be asked for, rpm: the ceiling, and what findings stop from a speed of their own; null: nothing limits. */
export function fastestLeft({ bound }: Ceilings, findings: readonly Finding[]): number | null {
  const from = findings.flatMap((f) => (f.effect === 'stop' ? [f.fromRpm] : []))
  const least = Math.min(bound.rpm ?? Infinity, ...from)
  return Number.isFinite(least) ? least : null
}

/** Whether a speed is above a limit, both rpm; null limits nothing. */
export const isOver = (rpm: number, limit: number | null): boolean => limit !== null && !atMost(rpm, limit)

/** rpm that the machine itself permits, whatever is on it; Infinity where nothing says. */
export const machineLimit = (limits: SpeedLimits): number =>
  Math.min(...LIMITS.flatMap(({ id, machine }) => (machine ? [limits[id] ?? Infinity] : [])))
