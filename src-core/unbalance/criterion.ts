/** What a job's criterion allows, and up to which speed. */
import type { Criterion, Setup } from '../job/schema.ts'
import { significant, type Formatter } from '../units/format.ts'
import { STANDARD_GRAVITY, angularSpeed, permissibleUnbalance, rpmOf } from './static.ts'

/** Largest static unbalance, g·mm, that the criterion allows at a speed for a rotating mass in kg. */
export function allowedUnbalance(criterion: Criterion, mass: number, rpm: number): number {
  switch (criterion.kind) {
    case 'force':
      return criterion.value / (1e-6 * angularSpeed(rpm) ** 2)
    case 'weightShare':
      return (criterion.value * mass * STANDARD_GRAVITY) / (1e-6 * angularSpeed(rpm) ** 2)
    case 'grade':
      return permissibleUnbalance(criterion.value, mass, rpm)
  }
}

/** rpm up to which an unbalance in g·mm meets the criterion; null where there is none to limit. */
export function criterionCeiling(criterion: Criterion, mass: number, unbalance: number): number | null {
  if (!(unbalance > 0)) return null
  switch (criterion.kind) {
    case 'force':
      return rpmOf(Math.sqrt(criterion.value / (unbalance * 1e-6)))
    case 'weightShare':
      return rpmOf(Math.sqrt((criterion.value * mass * STANDARD_GRAVITY) / (unbalance * 1e-6)))
    case 'grade':
      return rpmOf((criterion.value * mass * 1000) / unbalance)
  }
}

/** The setup's criterion in words: a force, a share of the weight or a grade. */
export function criterionWords(setup: Setup, fmt: Formatter): string {
  const { kind, value } = setup.criterion
  if (kind === 'force') return fmt.force(value)
  if (kind === 'weightShare') return `${significant(value * 100, 3)} % of the rotating weight`
  return `grade G ${significant(value, 3)}`
}
