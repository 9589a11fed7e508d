/** Polygons drawn in by a little all round: what is left has that much material about it. */
import { polygonOffset } from '../polygon.ts'
import type { Point } from '../types.ts'

/** Share of the inset that is tried next where nothing is left, and how often. */
const LESS = 1 / 4
const TRIES = 4

/**
 * Rings with material to the left of each side, in by `by` mm or, where they are too narrow for it, by a quarter of that
 * and so on; none where nothing is left of the least.
 */
export function drawnIn(rings: readonly Point[][], by: number): Point[][] {
  const own = rings.length === 1 ? convexInset(rings[0]!, by) : null
  if (own) return [own]
  for (let i = 0, inset = by; i < TRIES; i++, inset *= LESS) {
    const left = polygonOffset(rings, -inset)
    if (left.length > 0) return left
  }
  return []
}

/** Of a convex polygon that keeps all its sides; null for any other. */
function convexInset(polygon: readonly Point[], by: number): Point[] | null {
  const count = polygon.length
  const at = (i: number) => polygon[(i + count) % count]!
  const ways = polygon.map((p, i) => {
    const q = at(i + 1)
    const length = Math.hypot(q.x - p.x, q.y - p.y)
    return { x: (q.x - p.x) / length, y: (q.y - p.y) / length }
  })
  const inset: Point[] = []
  for (let i = 0; i < count; i++) {
    const a = ways[(i + count - 1) % count]!
    const b = ways[i]!
    const sine = a.x * b.y - a.y * b.x
    const cosine = a.x * b.x + a.y * b.y
    if (sine < -STRAIGHT || cosine <= -STRAIGHT_BACK) return null
    // Along the corner's bisector: both sides come in by as much.
    const k = by / (1 + cosine)
    inset.push({ x: at(i).x - k * (a.y + b.y), y: at(i).y + k * (a.x + b.x) })
  }
  const kept = inset.every((p, i) => {
    const q = inset[(i + 1) % count]!
    return (q.x - p.x) * ways[i]!.x + (q.y - p.y) * ways[i]!.y > 0
  })
  return kept ? inset : null
}

/** Sine below which a corner is none. */
const STRAIGHT = 1e-9
/** Cosine of the sharpest corner that is drawn in by its bisector. */
const STRAIGHT_BACK = 0.999
