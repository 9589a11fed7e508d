/** What a job's criterion allows, and up to which speed. */
import type { Criterion, Setup } from '../job/schema.ts'
import { significant, type Formatter } from '../units/format.ts'
import { STANDARD_GRAVITY, angularSpeed, permissibleUnbalance, rpmOf } from './static.ts'

/** kg: what turns, and the machine as it stands; null where that is not known. */
export interface Masses {
  readonly turning: number
  readonly machine: number | null
}

/** Force in N that a criterion allows at any speed; null for one that is no force, or whose weight is not known. */
function allowedForce({ kind, value }: Criterion, { turning, machine }: Masses): number | null {
  switch (kind) {
    case 'force':
      return value
    case 'weightShare':
      return value * turning * STANDARD_GRAVITY
    case 'machineShare':
      return machine === null ? null : value * machine * STANDARD_GRAVITY
    case 'grade':
      return null
  }
}

/** Whether all is known that a criterion is judged by. */
export const isCriterionKnown = ({ kind }: Criterion, { machine }: Masses): boolean =>
  kind !== 'machineShare' || machine !== null

/** Largest static unbalance, g·mm, that the criterion allows at a speed: none where what it allows is not known. */
export function allowedUnbalance(criterion: Criterion, masses: Masses, rpm: number): number {
  if (criterion.kind === 'grade') return permissibleUnbalance(criterion.value, masses.turning, rpm)
  return (allowedForce(criterion, masses) ?? 0) / (1e-6 * angularSpeed(rpm) ** 2)
}

/** rpm up to which an unbalance in g·mm meets the criterion; null where there is none to limit, or it is not known. */
export function criterionCeiling(criterion: Criterion, masses: Masses, unbalance: number): number | null {
  if (!(unbalance > 0)) return null
  if (criterion.kind === 'grade') return rpmOf((criterion.value * masses.turning * 1000) / unbalance)
  const force = allowedForce(criterion, masses)
  return force === null ? null : rpmOf(Math.sqrt(force / (unbalance * 1e-6)))
}

/** The setup's criterion in words: a force, a share of a weight or a grade. */
export function criterionWords({ criterion: { kind, value } }: Setup, fmt: Formatter): string {
  switch (kind) {
    case 'force':
      return fmt.force(value)
    case 'weightShare':
      return `${significant(value * 100, 3)} % of the rotating weight`
    case 'machineShare':
      return `${significant(value * 100, 3)} % of the machine's own weight`
    case 'grade':
      return `grade G ${significant(value, 3)}`
  }
}
