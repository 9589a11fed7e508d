/** The pull beside the weight of the machine itself. */
import { finding, type Finding } from '../findings/finding.ts'
import type { Job, Lathe } from '../job/schema.ts'
import type { Unbalance } from '../unbalance/assembly.ts'
import { STANDARD_GRAVITY, centrifugalForce } from '../unbalance/static.ts'
import { formatter, type Formatter } from '../units/format.ts'

/** Share of its own weight at which a lathe may begin to shake or walk, standing free and bolted down. Rules of thumb, Evenswing's own. */
export const SHAKES = { free: 0.05, bolted: 0.15 } as const

/** Share of its weight that a lathe is let be pulled with, as it stands. */
export const shakesFrom = ({ boltedDown }: Lathe): number => (boltedDown ? SHAKES.bolted : SHAKES.free)

const standing = ({ boltedDown }: Lathe): string => (boltedDown ? 'bolted down' : 'standing free')

/** `More than 5 % of a lathe's weight, standing free,`. */
export const shakesWords = (lathe: Lathe, fmt: Formatter): string =>
  `More than ${fmt.percent(shakesFrom(lathe))} of a lathe's weight, ${standing(lathe)},`

/** @param rpm the chosen speed; nothing is said without it, or without the machine's mass. */
export function machineWeightFindings(
  { lathe, displayUnits }: Job,
  rpm: number | null,
  unbalance: Unbalance,
): Finding[] {
  if (rpm === null || !lathe.mass) return []
  const fmt = formatter(displayUnits)
  const weight = lathe.mass * STANDARD_GRAVITY
  const force = centrifugalForce(unbalance.upper95_g_mm, rpm)
  const most = shakesFrom(lathe)
  const figures = `${fmt.force(force)} (95 % bound) at ${fmt.speed(rpm)} against ${fmt.force(weight)}, ${standing(lathe)}; up to ${fmt.percent(most)} is let pass, a rule of thumb of Evenswing's own`
  if (force <= most * weight) {
    const message = `The pull is ${fmt.percent(force / weight)} of the machine's own weight: ${figures}.`
    return [finding('note', 'pull-of-machine', 'lathe', message)]
  }
  const cure = lathe.boltedDown
    ? 'Balance it better or run slower.'
    : 'Balance it better, run slower, or bolt the lathe down.'
  const message = `The pull may shake the machine: it is ${fmt.percent(force / weight)} of its own weight. ${figures}. ${cure}`
  return [finding('caution', 'pull-of-machine', 'lathe', message)]
}
