/**
 * Where along a slot a shape meets something: the shape slides along +x with its bolt on the x axis at (r, 0), the
 * obstacle stands still. All in the slot's frame, mm. Exact for straight edges and for a disc against straight
 * edges: each pair of edges meets over one closed interval of r, and between those intervals a shape lies either
 * wholly inside an obstacle (or round it) or clear of it, which one look at the middle decides.
 */
import { ROUNDING } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { mergeIntervals, subtractIntervals, type Interval } from './intervals.ts'
import { isConvex, type Shape } from './shape.ts'

/** Rings filled even-odd. */
export type Rings = readonly (readonly Point[])[]

/** The parts of `within` where the sliding shape is clear of the obstacle. */
export function clearOf(within: readonly Interval[], shape: Shape, obstacle: Rings): Interval[] {
  if (within.length === 0) return []
  const meets: Interval[] = []
  const convex = shape.kind === 'outline' && isConvex(shape.points) ? new ConvexOutline(shape.points) : null
  const low = within[0]!.lo
  const high = within[within.length - 1]!.hi
  for (const ring of obstacle) {
    for (let i = 0; i < ring.length; i++) {
      const a = ring[i]!
      const b = ring[i + 1 === ring.length ? 0 : i + 1]!
      const before = meets.length
      if (shape.kind === 'disc') discMeetsEdge(shape.radius, a, b, meets)
      else if (convex) convex.meetsEdge(a, b, meets)
      else outlineMeetsEdge(shape.points, a, b, meets)
      // What lies beyond the stretch asked for blocks nothing.
      while (
        meets.length > before &&
        (meets[meets.length - 1]!.hi < low || meets[meets.length - 1]!.lo > high)
      )
        meets.pop()
    }
  }
  const blocked = mergeIntervals(meets)
  return within
    .flatMap((w) => subtractIntervals(w, blocked))
    .filter((gap) => !liesWithin(shape, (gap.lo + gap.hi) / 2, obstacle))
}

// The loops below run some hundred thousand times a plan: no closures are made in them.

/** r for which the point (r, 0) is nearer than `radius` to the edge: a capsule cut by the x axis. */
function discMeetsEdge(radius: number, a: Point, b: Point, out: Interval[]): void {
  if ((a.y >= radius && b.y >= radius) || (a.y <= -radius && b.y <= -radius)) return
  let lo = Infinity
  let hi = -Infinity
  if (Math.abs(a.y) < radius) {
    const half = Math.sqrt(radius * radius - a.y * a.y)
    lo = a.x - half
    hi = a.x + half
  }
  if (Math.abs(b.y) < radius) {
    const half = Math.sqrt(radius * radius - b.y * b.y)
    lo = Math.min(lo, b.x - half)
    hi = Math.max(hi, b.x + half)
  }
  const length = Math.hypot(b.x - a.x, b.y - a.y)
  if (length > 0) {
    // Along the edge between its ends, and across it within the radius: both are linear in r.
    const ux = (b.x - a.x) / length
    const uy = (b.y - a.y) / length
    const along = linearRange(ux, -(a.x * ux + a.y * uy), 0, length)
    const across = linearRange(-uy, a.x * uy - a.y * ux, -radius, radius)
    const from = Math.max(along.lo, across.lo)
    const to = Math.min(along.hi, across.hi)
    if (from < to) {
      lo = Math.min(lo, from)
      hi = Math.max(hi, to)
    }
  }
  if (lo < hi) out.push({ lo, hi })
}

/** The r for which min ≤ slope·r + at0 ≤ max. */
function linearRange(slope: number, at0: number, min: number, max: number): Interval {
  if (Math.abs(slope) < ROUNDING.slope)
    return at0 < min || at0 > max ? { lo: Infinity, hi: -Infinity } : { lo: -Infinity, hi: Infinity }
  const p = (min - at0) / slope
  const q = (max - at0) / slope
  return p < q ? { lo: p, hi: q } : { lo: q, hi: p }
}

/** A convex outline as its left and right sides, each by rising height. */
class ConvexOutline {
  private readonly left: Point[]
  private readonly right: Point[]
  private readonly bottom: number
  private readonly top: number

  /** @param points counter-clockwise */
  constructor(points: readonly Point[]) {
    const lowest = points.reduce((k, p, i) => (p.y < points[k]!.y ? i : k), 0)
    const round = [...points.slice(lowest), ...points.slice(0, lowest)]
    const highest = round.reduce((k, p, i) => (p.y >= round[k]!.y ? i : k), 0)
    // Counter-clockwise from the lowest point the right side rises, then the left one falls.
    this.right = round.slice(0, highest + 1)
    this.left = [...round.slice(highest), round[0]!].reverse()
    this.bottom = round[0]!.y
    this.top = round[highest]!.y
  }

  /** The r at which the outline covers some of the edge: at each height a stretch, whose ends are extreme at corners. */
  meetsEdge(a: Point, b: Point, out: Interval[]): void {
    const y0 = Math.max(this.bottom, Math.min(a.y, b.y))
    const y1 = Math.min(this.top, Math.max(a.y, b.y))
    if (y0 > y1) return
    const slope = a.y === b.y ? 0 : (b.x - a.x) / (b.y - a.y)
    // A level edge covers a whole stretch of x at its height.
    const xLow = a.y === b.y ? Math.min(a.x, b.x) : a.x
    const xHigh = a.y === b.y ? Math.max(a.x, b.x) : a.x
    let lo = xLow + slope * (y0 - a.y) - sideAt(this.right, y0, 1)
    let hi = xHigh + slope * (y0 - a.y) - sideAt(this.left, y0, -1)
    if (y1 > y0) {
      lo = Math.min(lo, xLow + slope * (y1 - a.y) - sideAt(this.right, y1, 1))
      hi = Math.max(hi, xHigh + slope * (y1 - a.y) - sideAt(this.left, y1, -1))
      for (let i = firstAbove(this.right, y0); i < this.right.length && this.right[i]!.y < y1; i++)
        lo = Math.min(lo, xLow + slope * (this.right[i]!.y - a.y) - this.right[i]!.x)
      for (let i = firstAbove(this.left, y0); i < this.left.length && this.left[i]!.y < y1; i++)
        hi = Math.max(hi, xHigh + slope * (this.left[i]!.y - a.y) - this.left[i]!.x)
    }
    if (lo < hi) out.push({ lo, hi })
  }
}

/** First corner of a side above a height. */
function firstAbove(side: readonly Point[], y: number): number {
  let a = 0
  let b = side.length
  while (a < b) {
    const middle = (a + b) >> 1
    if (side[middle]!.y <= y) a = middle + 1
    else b = middle
  }
  return a
}

/** x of a side at a height within it; where the side is level there, its outer end. @param out 1 right, −1 left */
function sideAt(side: readonly Point[], y: number, out: 1 | -1): number {
  const next = firstAbove(side, y)
  const p = side[next - 1]!
  if (p.y < y && next < side.length) {
    const q = side[next]!
    return p.x + ((y - p.y) / (q.y - p.y)) * (q.x - p.x)
  }
  let x = p.x
  for (let i = next - 2; i >= 0 && side[i]!.y === y; i--) if ((side[i]!.x - x) * out > 0) x = side[i]!.x
  return x
}

/** For an outline of any form: each pair of edges by itself. */
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
