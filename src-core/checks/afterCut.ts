import { cutWords } from '../cutting/cutPlace.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { isBoreCut, type Job, type Setup } from '../job/schema.ts'
import type { Unbalance } from '../unbalance/assembly.ts'
import { centrifugalForce, STANDARD_GRAVITY } from '../unbalance/static.ts'
import { formatter } from '../units/format.ts'

/** A change below this share of the unbalance is none worth a word. */
const SLIGHT = 0.02
/** A pull that grows by more than this factor, to more than this share of the weight, is a caution. Rules of thumb. */
const GROWTH = 1.2
const LEAST_PULL = 0.01

/** Difference that this setup's cuts make to the static unbalance. @param mass kg of everything that turns. */
export function afterCutFinding(job: Job, setup: Setup, mass: number, unbalance: Unbalance): Finding[] {
  const cuts = setup.cuts ?? []
  const [first] = cuts
  if (!first) return []
  const { static_g_mm: before, after_cut_g_mm: after } = unbalance
  const fmt = formatter(job.displayUnits)
  const item = isBoreCut(first) ? first.bore : first.id
  const what = cuts.length === 1 ? `After ${cutWords(first)}` : 'After the cuts'
  const [was, is] = [fmt.unbalance(before), fmt.unbalance(after)]
  if (was === is || Math.abs(after - before) < SLIGHT * Math.max(before, 1)) {
    const message = `${what} the static unbalance hardly changes: ${was}.`
    return [finding('note', 'after-cut', item, message)]
  }
  const message = `${what} the static unbalance ${after > before ? 'grows' : 'falls'}: ${was} as mounted, ${is} then.`
  const pull = setup.speed === null ? 0 : centrifugalForce(after, setup.speed)
  const grows = after > GROWTH * before && pull > LEAST_PULL * mass * STANDARD_GRAVITY
  return [finding(grows ? 'caution' : 'note', 'after-cut', item, message)]
}
