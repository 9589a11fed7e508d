/**
 * The limits on the spindle speed, one row each, in order: ceiling, rail, step of speed, command line and sheet read
 * this table, so a limit added here appears in all of them.
 */
import { plateLimit, spindleLimit } from '../checks/rating.ts'
import { cuttingRpm } from '../cutting/rpm.ts'
import { atMost } from '../geometry/tolerance.ts'
import type { Finding } from '../findings/finding.ts'
import type { Clamping } from '../holding/clamps.ts'
import type { Job, Setup } from '../job/schema.ts'
import type { MountedBore } from '../mounting/types.ts'
import type { Unbalance } from '../unbalance/assembly.ts'
import { criterionCeiling, criterionWords } from '../unbalance/criterion.ts'

export interface LimitInput {
  readonly job: Job
  readonly setup: Setup
  readonly workBore: MountedBore | null
  /** kg of everything that turns. */
  readonly mass: number
  readonly unbalance: Unbalance
  readonly clamping: Clamping | null
}

interface LimitRow {
  /** For a flag on the rail. */
  readonly short: string
  /** For a line of its own and after "set by". */
  readonly long: string
  /** Figures that belong to it, where it has any. */
  readonly detail?: (setup: Setup) => string
  /** It depends on the machine alone, not on the setup. */
  readonly machine: boolean
  /** rpm; null where it does not limit or was not checked. */
  readonly value: (input: LimitInput) => number | null
}

const TABLE = {
  balance: {
    short: 'balance',
    long: 'balance (95 %)',
    detail: criterionWords,
    machine: false,
    value: ({ setup, mass, unbalance }) => criterionCeiling(setup.criterion, mass, unbalance.upper95_g_mm),
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
  cutting: {
    short: 'cutting speed',
    long: 'cutting speed',
    machine: false,
    value: ({ setup, workBore }) =>
      setup.cut && workBore ? cuttingRpm(setup.cut.speed, workBore.bore.diameter) : null,
  },
  clamps: {
    short: 'clamps',
    long: 'the clamps (factor 2)',
    machine: false,
    value: ({ clamping }) => clamping?.rpm_at_factor_2 ?? null,
  },
} as const satisfies Record<string, LimitRow>

export type LimitId = keyof typeof TABLE

export interface Limit extends LimitRow {
  readonly id: LimitId
}

/** In order: on a tie the first one governs. */
export const LIMITS: readonly Limit[] = (Object.keys(TABLE) as LimitId[]).map((id) => ({ id, ...TABLE[id] }))

/** Each limit's own speed, rpm; null where it does not limit or was not checked. */
export type SpeedLimits = Readonly<Record<LimitId, number | null>> & {
  /** The balance limit from the best estimate of the unbalance instead of its 95 % bound. */
  readonly balanceBestEstimate: number | null
}

export function speedLimits(input: LimitInput): SpeedLimits {
  const values = Object.fromEntries(LIMITS.map((l) => [l.id, l.value(input)])) as Record<
    LimitId,
    number | null
  >
  const { setup, mass, unbalance } = input
  return {
    ...values,
    balanceBestEstimate: criterionCeiling(setup.criterion, mass, unbalance.static_g_mm),
  }
}

/** What sets the ceiling; 'clearance': something fouls, so no speed may run. */
export type CeilingLimit = LimitId | 'clearance'

const FOULED = { short: 'something fouls', long: 'clearance: something fouls' } as const

/** Short and long words for what sets a ceiling. */
export const limitWords = (limit: CeilingLimit): { readonly short: string; readonly long: string } =>
  limit === 'clearance' ? FOULED : TABLE[limit]

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
  if (findings.some((f) => f.effect === 'stop' && f.fromRpm === 0)) {
    const none = { rpm: 0, limit: 'clearance' } as const
    return { bound: none, best: none }
  }
  return { bound: lowest(limits), best: lowest({ ...limits, balance: limits.balanceBestEstimate }) }
}

/** Whether a speed is above a limit, both rpm; null limits nothing. */
export const isOver = (rpm: number, limit: number | null): boolean => limit !== null && !atMost(rpm, limit)

/** rpm that the machine itself permits, whatever is on it; Infinity where nothing says. */
export const machineLimit = (limits: SpeedLimits): number =>
  Math.min(...LIMITS.flatMap(({ id, machine }) => (machine ? [limits[id] ?? Infinity] : [])))
