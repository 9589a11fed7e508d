import { finding, type Finding } from '../findings/finding.ts'
import type { Job, Setup } from '../job/schema.ts'
import { centrifugalForce } from '../unbalance/static.ts'
import { formatter } from '../units/format.ts'

/** Difference that this setup's cut makes to the static unbalance. */
export function afterCutFinding(job: Job, setup: Setup, before: number, after: number): Finding[] {
  if (!setup.cut) return []
  const fmt = formatter(job.displayUnits)
  const bore = setup.cut.bore
  const word =
    Math.abs(after - before) < 0.02 * Math.max(before, 1)
      ? 'hardly changes'
      : after > before
        ? 'grows'
        : 'falls'
  const message = `Cutting bore ${bore}, the static unbalance ${word}: ${fmt.unbalance(before)} as mounted, ${fmt.unbalance(after)} after the cut.`
  const severity =
    setup.speed !== null && centrifugalForce(after, setup.speed) > 1.2 * centrifugalForce(before, setup.speed)
      ? 'caution'
      : 'note'
  return [finding(severity, 'after-cut', bore, message)]
}
