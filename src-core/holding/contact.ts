/** The convex hull of what truly touches on a seat: where presses bear, and the edges that a body can tip over. */
import { convexHull } from '../geometry/convexHull.ts'
import { nearestTo } from '../geometry/nearest.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'

/** An edge of the hull; `inward` is square to it, in the seat's plane, of length 1. */
export interface HullEdge {
  readonly from: Point
  readonly to: Point
  readonly inward: Point
}

/** d_e: mm from an edge to a place, positive on the hull's side. */
export const insetOf = ({ from, inward }: HullEdge, p: Point): number =>
  (p.x - from.x) * inward.x + (p.y - from.y) * inward.y

/** Points this much nearer to a line than the hull is long count as on it. */
const THIN = 1e-9

export class ContactHull {
  /** Counter-clockwise; two points or one where what touches has no area, none where nothing touches. */
  readonly points: readonly Point[]
  /** Round the hull, and both ways round a line or a point, so that every way to tip is there. */
  readonly edges: readonly HullEdge[]
  readonly hasArea: boolean

  /** From corners of all that touches, in the seat's (u, v); coordinates that are no number are the caller's to sort out. */
  constructor(touching: readonly Point[]) {
    const hull = withoutTwins(convexHull(touching.map(({ x, y }) => ({ x, y }))))
    const [a, b] = farthestPair(hull)
    const length = a && b ? Math.hypot(b.x - a.x, b.y - a.y) : 0
    const width = a && b && length > 0 ? widthAcross(hull, a, b, length) : 0
    this.hasArea = width > THIN * length
    if (this.hasArea) this.points = hull
    else if (a && b && length > 0) this.points = [a, b]
    else this.points = hull.slice(0, 1)
    this.edges = this.hasArea ? edgesRound(this.points) : edgesOfThin(this.points)
  }

  /** s_k: the point of the hull nearest to a place; the place itself where it is over the hull or nothing touches. */
  nearest(p: Point): Point {
    if (this.points.length === 0 || this.holds(p)) return p
    return this.points.length === 1 ? this.points[0]! : nearestTo(this.points, p).point
  }

  /** Whether a place is over the hull, its edge included. */
  holds(p: Point): boolean {
    return this.hasArea && this.edges.every((e) => insetOf(e, p) >= 0)
  }
}

/** An edge shorter than points are told apart has no direction of its own. */
function withoutTwins(points: readonly Point[]): Point[] {
  const kept: Point[] = []
  const near = (p: Point, q: Point | undefined) =>
    q !== undefined && Math.hypot(p.x - q.x, p.y - q.y) <= TOLERANCE.coincident
  for (const p of points) if (!near(p, kept.at(-1)) && !near(p, kept[0])) kept.push(p)
  return kept
}

function farthestPair(points: readonly Point[]): [Point | undefined, Point | undefined] {
  const a = points[0]
  if (!a) return [undefined, undefined]
  const from = (o: Point) => (p: Point) => Math.hypot(p.x - o.x, p.y - o.y)
  const farthest = (o: Point) => points.reduce((s, p) => (from(o)(p) > from(o)(s) ? p : s), o)
  const b = farthest(a)
  return [farthest(b), b]
}

function widthAcross(points: readonly Point[], a: Point, b: Point, length: number): number {
  const across = points.map((p) => ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / length)
  return Math.max(...across) - Math.min(...across)
}

function edgesRound(points: readonly Point[]): HullEdge[] {
  return points.map((from, i) => {
    const to = points[(i + 1) % points.length]!
    const length = Math.hypot(to.x - from.x, to.y - from.y)
    return { from, to, inward: { x: (from.y - to.y) / length, y: (to.x - from.x) / length } }
  })
}

/** A line as a rectangle without width, a point as one without length either. */
function edgesOfThin([a, b]: readonly Point[]): HullEdge[] {
  if (!a) return []
  const end = b ?? a
  const length = Math.hypot(end.x - a.x, end.y - a.y)
  const along = length > 0 ? { x: (end.x - a.x) / length, y: (end.y - a.y) / length } : { x: 1, y: 0 }
  return [
    { from: a, to: end, inward: { x: -along.y, y: along.x } },
    { from: end, to: end, inward: { x: -along.x, y: -along.y } },
    { from: end, to: a, inward: { x: along.y, y: -along.x } },
    { from: a, to: a, inward: along },
  ]
}
