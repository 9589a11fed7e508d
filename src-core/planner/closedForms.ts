/**
 * What a machinist works out with a pencil: one weight for one radius, a weight moved to another radius, one weight
 * shared by two allowed angles, the sum of several, and the balance of masses in two planes. Angles in degrees
 * counter-clockwise from +x; masses and radii in any one unit each (mass in kg and radius in mm in this program).
 */
import { directionOf, opposite, polar, toRadians } from '../geometry/angles.ts'
import { ROUNDING, TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Point3 } from '../geometry/types.ts'

/** A mass at a radius and an angle. */
export interface PlacedMass {
  readonly mass: number
  readonly radius: number
  readonly angle: number
}

/** A vector by length and direction; `angle` 0 for the null vector. */
export interface Polar {
  readonly amount: number
  readonly angle: number
}

export const toPolar = (v: Point): Polar => ({ amount: Math.hypot(v.x, v.y), angle: directionOf(v) })

/** Mass in kg that gives `unbalance` g·mm at `radius` mm: m = U / r. Throws RangeError unless radius > 0. */
export function massForRadius(unbalance: number, radius: number): number {
  if (!(radius > 0)) throw new RangeError('a radius above 0 is wanted')
  return unbalance / radius / 1000
}

/** Radius in mm at which `mass` kg gives `unbalance` g·mm: r = U / m. Throws RangeError unless mass > 0. */
export function radiusForMass(unbalance: number, mass: number): number {
  if (!(mass > 0)) throw new RangeError('a mass above 0 is wanted')
  return unbalance / (mass * 1000)
}

/** The mass that does at radius `to` what `mass` does at radius `from`: m·from = m'·to. */
export function changeRadius(mass: number, from: number, to: number): number {
  if (!(to > 0)) throw new RangeError('a radius above 0 is wanted')
  return (mass * from) / to
}

/** Σ mᵢ·rᵢ as a vector, in the product of the units given. */
export function sumOfMoments(masses: readonly PlacedMass[]): Polar {
  let x = 0
  let y = 0
  for (const { mass, radius, angle } of masses) {
    const v = polar(mass * radius, angle)
    x += v.x
    y += v.y
  }
  return toPolar({ x, y })
}

/** The one mass at `radius` that balances the others in their plane: opposite their sum. */
export function balanceInOnePlane(masses: readonly PlacedMass[], radius: number): PlacedMass {
  if (!(radius > 0)) throw new RangeError('a radius above 0 is wanted')
  const sum = sumOfMoments(masses)
  return { mass: sum.amount / radius, radius, angle: opposite(sum.angle) }
}

export type SplitOutcome =
  | { readonly kind: 'split'; readonly first: number; readonly second: number }
  /** The two angles lie on one line through the axis: nothing across it can be made of them. */
  | { readonly kind: 'in line' }
  /** The wanted angle lies outside the two: one share would have to be taken away. */
  | { readonly kind: 'negative'; readonly first: number; readonly second: number }

/**
 * Shares a correction `amount` wanted at `angle` between two allowed angles a and b at the same radius:
 * W_a = W·sin(b − θ)/sin(b − a), W_b = W·sin(θ − a)/sin(b − a) (resolution along two directions; the working rule
 * for splitting balance weights). At other radii convert with `changeRadius` first.
 */
export function splitOverTwoAngles(amount: number, angle: number, a: number, b: number): SplitOutcome {
  const across = Math.sin(toRadians(b - a))
  if (Math.abs(across) < toRadians(TOLERANCE.inLine)) return { kind: 'in line' }
  const first = (amount * Math.sin(toRadians(b - angle))) / across
  const second = (amount * Math.sin(toRadians(angle - a))) / across
  const slack = ROUNDING.fraction * Math.abs(amount)
  if (first < -slack || second < -slack) return { kind: 'negative', first, second }
  return { kind: 'split', first: Math.max(0, first), second: Math.max(0, second) }
}

/** An unbalance vector at a height z along the axis. */
export type UnbalanceAt = Point3

/**
 * Correction vectors in two planes that null both the sum of the unbalances and their moment about an axis across
 * the spindle: U_Q = −Σ Uᵢ(zᵢ − z_P)/(z_Q − z_P), U_P = −Σ Uᵢ − U_Q. Throws RangeError where the planes are one.
 */
export function splitOverTwoPlanes(
  unbalances: readonly UnbalanceAt[],
  zP: number,
  zQ: number,
): { p: Polar; q: Polar } {
  if (zP === zQ) throw new RangeError('two different planes are wanted')
  let sumX = 0
  let sumY = 0
  let qx = 0
  let qy = 0
  for (const u of unbalances) {
    const share = (u.z - zP) / (zQ - zP)
    sumX += u.x
    sumY += u.y
    qx -= u.x * share
    qy -= u.y * share
  }
  return { p: toPolar({ x: -sumX - qx, y: -sumY - qy }), q: toPolar({ x: qx, y: qy }) }
}
