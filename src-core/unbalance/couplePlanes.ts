/** The couple in words: how far from the plate what is heavy pulls, and what settles it. */
import { isCounterweight, type Setup } from '../job/schema.ts'
import type { Formatter } from '../units/format.ts'
import type { UnbalanceTerm } from './assembly.ts'

export interface CouplePlanes {
  /** mm in front of the plate's face at which part and all that holds it pull, taken together. */
  readonly work: number
  /** The same of the weights; null where none pull the other way. */
  readonly weights: number | null
}

/**
 * Σ U·z/Σ U of the terms, each reckoned along the direction in which what is no weight pulls. Null where that pulls
 * nowhere.
 */
export function couplePlanes(terms: readonly UnbalanceTerm[], setup: Setup): CouplePlanes | null {
  const isWeight = new Map(setup.hardware.map((h) => [h.id, isCounterweight(h)]))
  const work = terms.filter((t) => !isWeight.get(t.item))
  const weights = terms.filter((t) => isWeight.get(t.item))
  const sum = work.reduce((s, t) => ({ x: s.x + t.unbalance_g_mm.x, y: s.y + t.unbalance_g_mm.y }), {
    x: 0,
    y: 0,
  })
  const size = Math.hypot(sum.x, sum.y)
  if (size === 0) return null
  const along = (t: UnbalanceTerm) => (t.unbalance_g_mm.x * sum.x + t.unbalance_g_mm.y * sum.y) / size
  const plane = (of: readonly UnbalanceTerm[]) => {
    const total = of.reduce((s, t) => s + along(t), 0)
    return { total, z: of.reduce((s, t) => s + along(t) * t.centre_mm.z, 0) / total }
  }
  const back = plane(weights)
  return { work: plane(work).z, weights: weights.length > 0 && back.total < 0 ? back.z : null }
}

/** mm: two planes nearer than this are one to a machinist. Own choice. */
const ONE_PLANE = 5

/** Short sentence first. @param moment N·m of the couple at the chosen speed; null where none is chosen. */
export function coupleWords(
  { work, weights }: CouplePlanes,
  moment: number | null,
  fmt: Pick<Formatter, 'length' | 'torque'>,
): string {
  const rocks =
    moment === null ? '' : ` At the chosen speed the whole rocks the spindle with ${fmt.torque(moment)}.`
  if (weights === null)
    return `Weights stand near the plate, the work is heavy ${fmt.length(work)} in front of it: they settle what pulls to one side and leave a couple.${rocks}`
  const apart = work - weights
  if (Math.abs(apart) < ONE_PLANE)
    return `Weights and work pull in one plane, ${fmt.length(work)} in front of the plate.${rocks}`
  const isFar = apart > 0
  const short = isFar ? 'Weights near the plate, work far out' : 'Weights far out, work near the plate'
  const cure = isFar ? 'Weights that stand further out' : 'Weights nearer the plate'
  return `${short}: a couple is left. The weights pull ${fmt.length(weights)} in front of the plate, the work ${fmt.length(work)}.${rocks} ${cure}, or a slower speed, make it less.`
}
