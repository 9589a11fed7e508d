/**
 * Covariance of the static unbalance U = Σ mᵢ·rᵢ. Each item's mass (relative standard uncertainty u) and position
 * (standard uncertainty s along and across) are independent of the others', so to first order
 *
 *   cov U = Σ (u·m)²·r·rᵀ + (m·s)²·1     in (g·mm)² with m in g and r in mm
 *
 * (law of propagation of uncertainty, JCGM 100:2008, 5.1.2).
 */
import type { Point } from '../geometry/types.ts'

export interface Covariance {
  readonly xx: number
  readonly xy: number
  readonly yy: number
}

export interface DoubtfulMass {
  /** kg */
  readonly mass: number
  /** mm from the axis */
  readonly at: Point
  /** Relative standard uncertainty of the mass. */
  readonly massShare: number
  /** Standard uncertainty of the position, mm, each way. */
  readonly position: number
}

/** In (g·mm)², by the formula above. */
export function unbalanceCovariance(items: readonly DoubtfulMass[]): Covariance {
  let xx = 0
  let xy = 0
  let yy = 0
  for (const { mass, at, massShare, position } of items) {
    const grams = mass * 1000
    const radial = (grams * massShare) ** 2
    const spread = (grams * position) ** 2
    xx += radial * at.x * at.x + spread
    xy += radial * at.x * at.y
    yy += radial * at.y * at.y + spread
  }
  return { xx, xy, yy }
}
