import { finding, type Finding } from '../findings/finding.ts'
import { cutWords } from '../cutting/cutPlace.ts'
import { isBoreCut, type Job, type Setup } from '../job/schema.ts'
import { centrifugalForce } from '../unbalance/static.ts'
import { formatter } from '../units/format.ts'

/** Difference that this setup's cut makes to the static unbalance. */
export function afterCutFinding(job: Job, setup: Setup, before: number, after: number): Finding[] {
  const cuts = setup.cuts ?? []
  const [first] = cuts
  if (!first) return []
  const fmt = formatter(job.displayUnits)
  const item = isBoreCut(first) ? first.bore : first.id
  const what = cuts.length === 1 ? `After ${cutWords(first)}` : 'After the cuts'
  const word =
    Math.abs(after - before) < 0.02 * Math.max(before, 1)
      ? 'hardly changes'
      : after > before
        ? 'grows'
        : 'falls'
  const message = `${what} the static unbalance ${word}: ${fmt.unbalance(before)} as mounted, ${fmt.unbalance(after)} then.`
  const severity =
    setup.speed !== null && centrifugalForce(after, setup.speed) > 1.2 * centrifugalForce(before, setup.speed)
      ? 'caution'
      : 'note'
  return [finding(severity, 'after-cut', item, message)]
}
