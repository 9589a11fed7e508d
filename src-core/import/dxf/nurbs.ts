/** Splines of DXF as curves of a parameter. */
import type { Point } from '../../geometry/types.ts'

export interface Curve {
  readonly at: (t: number) => Point
  /** Parameters between which the curve is smooth, from its beginning to its end. */
  readonly breaks: readonly number[]
}

/**
 * A rational B-spline by C. de Boor's algorithm in homogeneous coordinates (L. Piegl and W. Tiller, The NURBS Book,
 * 2nd ed. 1997, ch. 3 and 4). Knots: control points + degree + 1, not falling. Null where they do not fit.
 */
export function bSpline(
  points: readonly Point[],
  weights: readonly number[],
  degree: number,
  knots: readonly number[],
): Curve | null {
  const n = points.length
  if (!Number.isInteger(degree) || degree < 1 || degree > 25 || n < degree + 1) return null
  if (knots.length !== n + degree + 1 || knots.some((k, i) => i > 0 && k < knots[i - 1]!)) return null
  if (weights.length !== n || weights.some((w) => !(w > 0))) return null
  const breaks = [...new Set(knots.slice(degree, n + 1))]
  if (breaks.length < 2) return null
  const at = (t: number): Point => {
    const k = spanOf(knots, degree, n, t)
    const x: number[] = []
    const y: number[] = []
    const w: number[] = []
    for (let j = 0; j <= degree; j++) {
      const i = k - degree + j
      w.push(weights[i]!)
      x.push(points[i]!.x * weights[i]!)
      y.push(points[i]!.y * weights[i]!)
    }
    for (let r = 1; r <= degree; r++) {
      for (let j = degree; j >= r; j--) {
        const low = knots[k - degree + j]!
        const high = knots[k + 1 + j - r]!
        const f = high === low ? 0 : (t - low) / (high - low)
        x[j] = (1 - f) * x[j - 1]! + f * x[j]!
        y[j] = (1 - f) * y[j - 1]! + f * y[j]!
        w[j] = (1 - f) * w[j - 1]! + f * w[j]!
      }
    }
    return { x: x[degree]! / w[degree]!, y: y[degree]! / w[degree]! }
  }
  return { at, breaks }
}

/** The last span that begins at or before t and is not empty; by halving. */
function spanOf(knots: readonly number[], degree: number, n: number, t: number): number {
  if (t >= knots[n]!) {
    let k = n - 1
    while (k > degree && knots[k] === knots[n]) k--
    return k
  }
  let low = degree
  let high = n
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (knots[middle]! <= t) low = middle
    else high = middle
  }
  return low
}

/**
 * The natural cubic spline through points, its parameter the length along their chords (C. de Boor, A Practical Guide
 * to Splines, 1978, ch. IV). Null for fewer than two distinct points.
 */
export function throughPoints(raw: readonly Point[]): Curve | null {
  const points = raw.filter((p, i) => i === 0 || p.x !== raw[i - 1]!.x || p.y !== raw[i - 1]!.y)
  const n = points.length
  if (n < 2) return null
  const breaks = [0]
  for (let i = 1; i < n; i++) {
    breaks.push(breaks[i - 1]! + Math.hypot(points[i]!.x - points[i - 1]!.x, points[i]!.y - points[i - 1]!.y))
  }
  const xx = secondDerivatives(
    breaks,
    points.map((p) => p.x),
  )
  const yy = secondDerivatives(
    breaks,
    points.map((p) => p.y),
  )
  const at = (t: number): Point => {
    const k = Math.min(spanOf(breaks, 0, n - 1, t), n - 2)
    const h = breaks[k + 1]! - breaks[k]!
    const b = (t - breaks[k]!) / h
    const a = 1 - b
    const cubic = (p: number, q: number, p2: number, q2: number) =>
      a * p + b * q + ((a ** 3 - a) * p2 + (b ** 3 - b) * q2) * ((h * h) / 6)
    const [p, q] = [points[k]!, points[k + 1]!]
    return { x: cubic(p.x, q.x, xx[k]!, xx[k + 1]!), y: cubic(p.y, q.y, yy[k]!, yy[k + 1]!) }
  }
  return { at, breaks }
}

/** Tridiagonal system of the natural spline, zero at both ends. */
function secondDerivatives(t: readonly number[], v: readonly number[]): number[] {
  const n = t.length
  const result = new Array<number>(n).fill(0)
  const upper = new Array<number>(n).fill(0)
  const rhs = new Array<number>(n).fill(0)
  for (let i = 1; i + 1 < n; i++) {
    const h0 = t[i]! - t[i - 1]!
    const h1 = t[i + 1]! - t[i]!
    const pivot = 2 * (h0 + h1) - h0 * upper[i - 1]!
    upper[i] = h1 / pivot
    rhs[i] = (6 * ((v[i + 1]! - v[i]!) / h1 - (v[i]! - v[i - 1]!) / h0) - h0 * rhs[i - 1]!) / pivot
  }
  for (let i = n - 2; i > 0; i--) result[i] = rhs[i]! - upper[i]! * result[i + 1]!
  return result
}
