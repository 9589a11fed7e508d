/**
 * The least length of b + Σ aᵢ·uᵢ for unit vectors uᵢ and each aᵢ in an interval, in closed form. The sum of the
 * segments is a zonogon (a convex polygon, symmetric about its centre, whose edges are the segments), so the answer
 * is the distance from the origin to it. One segment gives a line's nearest point, two a parallelogram.
 */
import type { Point } from '../geometry/types.ts'

export interface Span {
  readonly ux: number
  readonly uy: number
  readonly lo: number
  readonly hi: number
}

interface Nearest {
  /** Distance from the wanted point to the zonogon, 0 inside. */
  distance: number
  /** Edge it is nearest to, its side (±1) and the place along it, −1 to 1. */
  edge: number
  side: number
  along: number
  /** Inside: how far out the point lies, 0 at the centre to 1 on the edge. */
  gauge: number
}

/** Directions nearer to parallel than this (sine) add up to one edge. */
const PARALLEL = 1e-12

/** Least |b + Σ aᵢuᵢ|, in the unit of b. */
export function leastLength(b: Point, spans: readonly Span[]): number {
  return nearest(b, spans).distance
}

/** The values aᵢ that give it; where more do, those farthest from the ends of their intervals. */
export function leastAmounts(b: Point, spans: readonly Span[]): number[] {
  const found = nearest(b, spans)
  const half = spans.map((s) => (s.hi - s.lo) / 2)
  const middle = spans.map((s) => (s.lo + s.hi) / 2)
  if (found.edge < 0) return middle
  const on = spans[found.edge]!
  return spans.map((s, j) => {
    const along = s.ux * on.ux + s.uy * on.uy
    const across = s.uy * on.ux - s.ux * on.uy
    const share = Math.abs(across) <= PARALLEL ? Math.sign(along) * found.along : Math.sign(across) * found.side
    const amount = middle[j]! + half[j]! * share * found.gauge
    return Math.max(s.lo, Math.min(s.hi, amount))
  })
}

function nearest(b: Point, spans: readonly Span[]): Nearest {
  // Wanted: the point q of the zonogon about its own centre.
  let qx = -b.x
  let qy = -b.y
  for (const s of spans) {
    const middle = (s.lo + s.hi) / 2
    qx -= middle * s.ux
    qy -= middle * s.uy
  }
  const result: Nearest = { distance: Math.hypot(qx, qy), edge: -1, side: 1, along: 0, gauge: 1 }
  let inside = true
  let gauge = 0
  let gaugeEdge = -1
  let best = Infinity
  for (let i = 0; i < spans.length; i++) {
    const { ux, uy, lo, hi } = spans[i]!
    if (hi - lo <= 0) continue
    // Across the edge: the normal (−uy, ux). The edge's middle lies where every other segment reaches furthest.
    let reach = 0
    let length = 0
    let ex = 0
    let ey = 0
    const away = -uy * qx + ux * qy
    const side = away < 0 ? -1 : 1
    for (let j = 0; j < spans.length; j++) {
      const s = spans[j]!
      const half = (s.hi - s.lo) / 2
      if (half <= 0) continue
      const across = s.uy * ux - s.ux * uy
      if (Math.abs(across) <= PARALLEL) {
        length += half
        continue
      }
      const sign = across > 0 ? side : -side
      reach += half * Math.abs(across)
      ex += sign * half * s.ux
      ey += sign * half * s.uy
    }
    const t = (qx - ex) * ux + (qy - ey) * uy
    const clamped = Math.max(-length, Math.min(length, t))
    const d = Math.hypot(qx - ex - clamped * ux, qy - ey - clamped * uy)
    if (Math.abs(away) > reach) inside = false
    const g = reach > 0 ? Math.abs(away) / reach : Math.abs(away) > 0 ? Infinity : 0
    if (g > gauge || gaugeEdge < 0) {
      gauge = g
      gaugeEdge = i
    }
    if (d < best) {
      best = d
      result.edge = i
      result.side = side
      result.along = length > 0 ? clamped / length : 0
    }
  }
  if (best === Infinity) return result
  if (inside && gauge > 0) return insideAt(result, qx, qy, spans, gauge, gaugeEdge)
  result.distance = best
  if (inside && best > 0 && isFlat(spans)) return result
  if (inside) result.distance = Math.min(best, inPlane(result, best, gauge))
  return result
}
