/**
 * The upper bound of a vector's length that holds with a given probability, when the vector is normal about its
 * estimate with a covariance. Its length is not normal (near zero it is Rayleigh-like, and doubt across the vector
 * lengthens it too), so the probability within a circle is integrated and inverted:
 *
 *   P(|U| ≤ R) = ∫ φ(v) · [Φ((h − a)/σ₁) − Φ((−h − a)/σ₁)] dv,   h = √(R² − v²)
 *
 * with the axes turned to the principal axes of the covariance (σ₁ ≥ σ₂), the estimate at (a, b), v normal about b
 * with σ₂. Substituting v = R·sin t removes the root's edges; Gauss–Legendre then converges fast.
 */
import type { Point } from '../geometry/types.ts'
import type { Covariance } from './covariance.ts'
import { erf } from './erf.ts'

const normal = (x: number): number => (x > 8 ? 1 : x < -8 ? 0 : (1 + erf(x * Math.SQRT1_2)) / 2)

const NODES = legendre(40)
/** Tails beyond this many sigma are left out: under 1e-15. */
const REACH = 8

/** Nodes and weights on [-1, 1] by Newton's method on the Legendre polynomial. */
function legendre(n: number): readonly (readonly [number, number])[] {
  return Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5))
    let slope = 1
    for (let round = 0; round < 20; round++) {
      let p0 = 1
      let p1 = x
      for (let k = 2; k <= n; k++) [p0, p1] = [p1, ((2 * k - 1) * x * p1 - (k - 1) * p0) / k]
      slope = (n * (x * p1 - p0)) / (x * x - 1)
      x -= p1 / slope
    }
    return [x, 2 / ((1 - x * x) * slope * slope)] as const
  })
}

/** P(|U| ≤ radius) for U normal about `mean`. */
export function probabilityWithin(mean: Point, cov: Covariance, radius: number): number {
  return within(principal(mean, cov), radius)
}

interface Principal {
  readonly a: number
  readonly b: number
  readonly s1: number
  readonly s2: number
}

function principal(mean: Point, { xx, xy, yy }: Covariance): Principal {
  const half = (xx - yy) / 2
  const root = Math.hypot(half, xy)
  const middle = (xx + yy) / 2
  const angle = 0.5 * Math.atan2(xy, half)
  const c = Math.cos(angle)
  const s = Math.sin(angle)
  return {
    a: c * mean.x + s * mean.y,
    b: -s * mean.x + c * mean.y,
    s1: Math.sqrt(middle + root),
    s2: Math.sqrt(Math.max(0, middle - root)),
  }
}

function within({ a, b, s1, s2 }: Principal, radius: number): number {
  if (radius <= 0) return 0
  const chord = (v: number) => {
    const h = Math.sqrt(Math.max(0, radius * radius - v * v))
    return normal((h - a) / s1) - normal((-h - a) / s1)
  }
  if (s2 <= 1e-9 * s1) return Math.abs(b) >= radius ? 0 : chord(b)
  const low = Math.max(-1, (b - REACH * s2) / radius)
  const high = Math.min(1, (b + REACH * s2) / radius)
  if (low >= high) return 0
  const t0 = Math.asin(low)
  const t1 = Math.asin(high)
  let sum = 0
  for (const [node, weight] of NODES) {
    const t = (t0 + t1) / 2 + (node * (t1 - t0)) / 2
    const v = radius * Math.sin(t)
    const z = (v - b) / s2
    sum += weight * Math.exp(-(z * z) / 2) * chord(v) * radius * Math.cos(t)
  }
  return (sum * (t1 - t0)) / 2 / (s2 * Math.sqrt(2 * Math.PI))
}

/** Radius, in the unit of `mean`, within which |U| lies with probability `share` (0.95). */
export function upperBound(mean: Point, cov: Covariance, share = 0.95): number {
  const p = principal(mean, cov)
  const estimate = Math.hypot(mean.x, mean.y)
  if (!(p.s1 > 0)) return estimate
  let low = 0
  let high = estimate + 4 * p.s1
  let atLow = -share
  let atHigh = within(p, high) - share
  // Regula falsi (Illinois): the probability rises steadily with the radius; an end kept twice counts half.
  let kept = 0
  for (let round = 0; round < 60 && high - low > 1e-9 * high; round++) {
    const guess = (low * atHigh - high * atLow) / (atHigh - atLow)
    const at = within(p, guess) - share
    if (Math.abs(at) < 1e-10) return guess
    if (at < 0) {
      low = guess
      atLow = at
      if (kept === 1) atHigh /= 2
      kept = 1
    } else {
      high = guess
      atHigh = at
      if (kept === -1) atLow /= 2
      kept = -1
    }
  }
  return (low + high) / 2
}
