/**
 * Where along a slot a shape meets something: the shape slides along +x with its bolt on the x axis at (r, 0), the
 * obstacle stands still. All in the slot's frame, mm. Exact for straight edges and for a disc against straight
 * edges: each pair of edges meets over one closed interval of r, and between those intervals a shape lies either
 * wholly inside an obstacle (or round it) or clear of it, which one look at the middle decides.
 */
import type { Point } from '../geometry/types.ts'
import { mergeIntervals, subtractIntervals, type Interval } from './intervals.ts'
import type { Shape } from './shape.ts'

/** Rings filled even-odd. */
export type Rings = readonly (readonly Point[])[]

/** The parts of `within` where the sliding shape is clear of the obstacle. */
export function clearOf(within: readonly Interval[], shape: Shape, obstacle: Rings): Interval[] {
  if (within.length === 0) return []
  const meets: Interval[] = []
  for (const ring of obstacle) {
    for (let i = 0; i < ring.length; i++) {
      const a = ring[i]!
      const b = ring[i + 1 === ring.length ? 0 : i + 1]!
      if (shape.kind === 'disc') discMeetsEdge(shape.radius, a, b, meets)
      else outlineMeetsEdge(shape.points, a, b, meets)
    }
  }
  const blocked = mergeIntervals(meets)
  return within
    .flatMap((w) => subtractIntervals(w, blocked))
    .filter((gap) => !liesWithin(shape, (gap.lo + gap.hi) / 2, obstacle))
}

/** r for which the point (r, 0) is nearer than `radius` to the edge: a capsule cut by the x axis. */
function discMeetsEdge(radius: number, a: Point, b: Point, out: Interval[]): void {
  if ((a.y >= radius && b.y >= radius) || (a.y <= -radius && b.y <= -radius)) return
  let lo = Infinity
  let hi = -Infinity
  for (const p of [a, b]) {
    if (Math.abs(p.y) >= radius) continue
    const half = Math.sqrt(radius * radius - p.y * p.y)
    lo = Math.min(lo, p.x - half)
    hi = Math.max(hi, p.x + half)
  }
  const dx = b.x - a.x
  const dy = b.y - a.y
  const length = Math.hypot(dx, dy)
  if (length > 0) {
    // Along the edge between its ends, and across it within the radius: both are linear in r.
    let from = -Infinity
    let to = Infinity
    const clip = (slope: number, at0: number, min: number, max: number) => {
      if (Math.abs(slope) < 1e-15) {
        if (at0 < min || at0 > max) to = -Infinity
        return
      }
      const p = (min - at0) / slope
      const q = (max - at0) / slope
      from = Math.max(from, Math.min(p, q))
      to = Math.min(to, Math.max(p, q))
    }
    clip(dx / length, -(a.x * dx + a.y * dy) / length, 0, length)
    clip(-dy / length, (a.x * dy - a.y * dx) / length, -radius, radius)
    if (from < to) {
      lo = Math.min(lo, from)
      hi = Math.max(hi, to)
    }
  }
  if (lo < hi) out.push({ lo, hi })
}

function outlineMeetsEdge(points: readonly Point[], a: Point, b: Point, out: Interval[]): void {
  const low = Math.min(a.y, b.y)
  const high = Math.max(a.y, b.y)
  for (let i = 0; i < points.length; i++) {
    const p = points[i]!
    const q = points[i + 1 === points.length ? 0 : i + 1]!
    const y0 = Math.max(low, Math.min(p.y, q.y))
    const y1 = Math.min(high, Math.max(p.y, q.y))
    if (y0 > y1) continue
    let lo = Infinity
    let hi = -Infinity
    for (const y of y0 === y1 ? [y0] : [y0, y1]) {
      // A level edge covers a whole range of x at its height.
      const [o0, o1] = spanAt(a, b, y)
      const [s0, s1] = spanAt(p, q, y)
      lo = Math.min(lo, o0 - s1)
      hi = Math.max(hi, o1 - s0)
    }
    if (lo < hi) out.push({ lo, hi })
  }
}

function spanAt(a: Point, b: Point, y: number): readonly [number, number] {
  if (a.y === b.y) return a.x < b.x ? [a.x, b.x] : [b.x, a.x]
  const x = a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)
  return [x, x]
}

/** For a shape at r that meets no edge: whether it lies inside the obstacle or the obstacle inside it. */
function liesWithin(shape: Shape, r: number, obstacle: Rings): boolean {
  if (shape.kind === 'disc') return isCovered({ x: r, y: 0 }, obstacle)
  const first = shape.points[0]!
  if (isCovered({ x: first.x + r, y: first.y }, obstacle)) return true
  return obstacle.some((ring) => ring[0] && isCovered({ x: ring[0].x - r, y: ring[0].y }, [shape.points]))
}

/** Even-odd. */
export function isCovered(p: Point, rings: Rings): boolean {
  let inside = false
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const a = ring[i]!
      const b = ring[j]!
      if (a.y > p.y !== b.y > p.y && p.x < a.x + ((p.y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside
    }
  }
  return inside
}

/** The part of `within` where the whole shape stays within `limit` mm of the axis. */
export function withinRadius(within: Interval, shape: Shape, limit: number): Interval | null {
  let { lo, hi } = within
  const take = (p: Point, reach: number) => {
    const square = reach * reach - p.y * p.y
    if (!(reach >= 0) || square < 0) {
      hi = -Infinity
      return
    }
    hi = Math.min(hi, Math.sqrt(square) - p.x)
    lo = Math.max(lo, -Math.sqrt(square) - p.x)
  }
  if (shape.kind === 'disc') take({ x: 0, y: 0 }, limit - shape.radius)
  else for (const p of shape.points) take(p, limit)
  return lo <= hi ? { lo, hi } : null
}
