/**
 * The least length of b + Σ aᵢ·uᵢ for unit vectors uᵢ and each aᵢ in an interval, in closed form. The sum of the
 * segments is a zonogon (a convex polygon, symmetric about its centre, whose edges lie along the segments), so the
 * answer is the distance from the origin to it. One segment is a line's nearest point, two make a parallelogram.
 */
import { ROUNDING } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'

export interface Span {
  readonly ux: number
  readonly uy: number
  readonly lo: number
  readonly hi: number
}

/** Least |b + Σ aᵢuᵢ|, in the unit of b. */
export function leastLength(bx: number, by: number, spans: readonly Span[]): number {
  const n = spans.length
  let qx = -bx
  let qy = -by
  for (let i = 0; i < n; i++) {
    const s = spans[i]!
    const middle = (s.lo + s.hi) / 2
    qx -= middle * s.ux
    qy -= middle * s.uy
  }
  let inside = true
  let flat = true
  let best = Infinity
  for (let i = 0; i < n; i++) {
    const { ux, uy, lo, hi } = spans[i]!
    if (hi - lo <= 0) continue
    const across = ux * qy - uy * qx
    const side = across < 0 ? -1 : 1
    let reach = 0
    let length = 0
    let ex = 0
    let ey = 0
    for (let j = 0; j < n; j++) {
      const s = spans[j]!
      const half = (s.hi - s.lo) / 2
      if (half <= 0) continue
      const sine = s.uy * ux - s.ux * uy
      if (sine <= ROUNDING.fraction && sine >= -ROUNDING.fraction) {
        length += half
        continue
      }
      const sign = sine > 0 ? side : -side
      reach += sine > 0 ? half * sine : -half * sine
      ex += sign * half * s.ux
      ey += sign * half * s.uy
    }
    if (reach > 0) flat = false
    if (across * side > reach) inside = false
    const t = (qx - ex) * ux + (qy - ey) * uy
    const on = t < -length ? -length : t > length ? length : t
    const dx = qx - ex - on * ux
    const dy = qy - ey - on * uy
    const square = dx * dx + dy * dy
    if (square < best) best = square
  }
  if (best === Infinity) return Math.sqrt(qx * qx + qy * qy)
  return inside && !flat ? 0 : Math.sqrt(best)
}

/** The amounts aᵢ that give it; where more do, those farthest from the ends of their intervals. */
export function leastAmounts(b: Point, spans: readonly Span[]): number[] {
  const middle = spans.map((s) => (s.lo + s.hi) / 2)
  const q = spans.reduce((p, s, i) => ({ x: p.x - middle[i]! * s.ux, y: p.y - middle[i]! * s.uy }), {
    x: -b.x,
    y: -b.y,
  })
  const edges = spans.flatMap((s, i) => (s.hi > s.lo ? [edgeOf(spans, i, q)] : []))
  if (edges.length === 0) return middle
  const flat = edges.every((e) => e.reach === 0)
  if (flat || edges.some((e) => e.away > e.reach)) {
    const nearest = edges.reduce((a, e) => (e.distance < a.distance ? e : a))
    return amountsOn(spans, middle, nearest, 1)
  }
  // Inside: the point on the edge in the same direction from the centre, brought in again.
  const outermost = edges.reduce((a, e) => (e.away / e.reach > a.away / a.reach ? e : a))
  const gauge = outermost.away / outermost.reach
  if (gauge <= 0) return middle
  const edge = edgeOf(spans, outermost.index, { x: q.x / gauge, y: q.y / gauge })
  return amountsOn(spans, middle, edge, gauge)
}

interface Edge {
  readonly index: number
  /** Side of the centre it lies on, and the wanted point's and the edge's own distance across from the centre. */
  readonly side: number
  readonly away: number
  readonly reach: number
  readonly distance: number
  /** Place of the nearest point along the edge, −1 to 1. */
  readonly along: number
}

/** The edge along span `index` on the side of q, where every other segment reaches furthest across it. */
function edgeOf(spans: readonly Span[], index: number, q: Point): Edge {
  const { ux, uy } = spans[index]!
  const across = ux * q.y - uy * q.x
  const side = across < 0 ? -1 : 1
  let reach = 0
  let length = 0
  let ex = 0
  let ey = 0
  for (const s of spans) {
    const half = (s.hi - s.lo) / 2
    if (half <= 0) continue
    const sine = s.uy * ux - s.ux * uy
    if (Math.abs(sine) <= ROUNDING.fraction) {
      length += half
      continue
    }
    const sign = sine > 0 ? side : -side
    reach += half * Math.abs(sine)
    ex += sign * half * s.ux
    ey += sign * half * s.uy
  }
  const t = (q.x - ex) * ux + (q.y - ey) * uy
  const on = Math.max(-length, Math.min(length, t))
  const distance = Math.hypot(q.x - ex - on * ux, q.y - ey - on * uy)
  return { index, side, away: Math.abs(across), reach, distance, along: length > 0 ? on / length : 0 }
}

function amountsOn(spans: readonly Span[], middle: readonly number[], edge: Edge, gauge: number): number[] {
  const on = spans[edge.index]!
  return spans.map((s, j) => {
    const cosine = s.ux * on.ux + s.uy * on.uy
    const sine = s.uy * on.ux - s.ux * on.uy
    const share =
      Math.abs(sine) <= ROUNDING.fraction ? Math.sign(cosine) * edge.along : Math.sign(sine) * edge.side
    const amount = middle[j]! + ((s.hi - s.lo) / 2) * share * gauge
    return Math.max(s.lo, Math.min(s.hi, amount))
  })
}
