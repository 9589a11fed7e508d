/** Plan shapes of stacks and pieces in their own frame: the bolt at the origin, the length along +x. mm. */
import { roundCircle, turnPoint } from '../geometry/angles.ts'
import { rectRing } from '../geometry/edges.ts'
import { flattenRing } from '../geometry/flatten.ts'
import { ringCentre } from '../geometry/ringMoments.ts'
import { polygonOffset } from '../geometry/polygon.ts'
import { convexHull } from '../geometry/convexHull.ts'
import { ROUNDING, TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { Footprint } from '../job/schema.ts'

/** A disc about the origin, or an outline of straight edges, counter-clockwise. */
export type Shape =
  | { readonly kind: 'disc'; readonly radius: number }
  | { readonly kind: 'outline'; readonly points: readonly Point[] }

const ORIGIN: Point = { x: 0, y: 0 }

/** A footprint as a shape, arcs as chords that stray by no more than the tolerance. */
export function footprintShape(footprint: Footprint): Shape {
  if ('circle' in footprint) return { kind: 'disc', radius: footprint.circle / 2 }
  const ring =
    'rect' in footprint ? rectRing(ORIGIN, footprint.rect[0], footprint.rect[1], 0) : footprint.outline
  return { kind: 'outline', points: counterClockwise(flattenRing(ring, TOLERANCE.footprintChord)) }
}

/** Plan centre of a footprint in its own frame: where a piece of even thickness has its mass. */
export function footprintCentre(footprint: Footprint): Point {
  return 'outline' in footprint ? ringCentre(footprint.outline) : ORIGIN
}

/** Turned about the bolt, counter-clockwise. */
export function turnShape(shape: Shape, degrees: number): Shape {
  if (shape.kind === 'disc' || degrees === 0) return shape
  return { kind: 'outline', points: shape.points.map((p) => turnPoint(p, degrees)) }
}

/** Grown by `by` mm all round. */
export function growShape(shape: Shape, by: number): Shape {
  if (shape.kind === 'disc') return { kind: 'disc', radius: shape.radius + by }
  if (by === 0) return shape
  const grown = polygonOffset([shape.points], by)
  const largest = grown.reduce<Point[]>((a, b) => (signedArea(b) > signedArea(a) ? b : a), [])
  if (largest.length === 0) return shape
  // The library's rounding may dent a convex outline by a nanometre.
  return { kind: 'outline', points: isConvex(shape.points) ? convexHull(largest) : largest }
}

/** Whether `outer` covers `inner`, both with their bolts in one place. */
export function coversShape(outer: Shape, inner: Shape): boolean {
  if (outer.kind === 'disc') return farthestOut(inner) <= outer.radius + ROUNDING.length
  if (!isConvex(outer.points)) return false
  return outer.points.every((a, i) => {
    const b = outer.points[(i + 1) % outer.points.length]!
    const length = Math.hypot(b.x - a.x, b.y - a.y)
    const inward = (p: Point) => ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / length
    if (inner.kind === 'disc') return inward(ORIGIN) >= inner.radius - ROUNDING.length
    return inner.points.every((p) => inward(p) >= -ROUNDING.length)
  })
}

/** Convex outline around both, for pieces neither of which covers the other. */
export function hullOfShapes(a: Shape, b: Shape): Shape {
  return { kind: 'outline', points: convexHull([...shapePoints(a), ...shapePoints(b)]) }
}

/** mm from the bolt to the farthest point. */
export function farthestOut(shape: Shape): number {
  if (shape.kind === 'disc') return shape.radius
  return Math.max(...shape.points.map((p) => Math.hypot(p.x, p.y)))
}

/** mm from the bolt straight along +x to the last edge of the shape's convex hull; 0 where the bolt is not over it. */
export function outwardEdge(shape: Shape): number {
  if (shape.kind === 'disc') return shape.radius
  const hull = convexHull([...shape.points])
  let reach = 0
  hull.forEach((a, i) => {
    const b = hull[(i + 1) % hull.length]!
    if (a.y > 0 === b.y > 0) return
    reach = Math.max(reach, a.x + (a.y / (a.y - b.y)) * (b.x - a.x))
  })
  return reach
}

/** The shape's outline as points; a disc's lie on a polygon drawn around it. */
function shapePoints(shape: Shape): readonly Point[] {
  if (shape.kind === 'outline') return shape.points
  const n = 64
  return roundCircle(ORIGIN, shape.radius / Math.cos(Math.PI / n), n)
}

/** mm², positive for a counter-clockwise ring. */
export function signedArea(points: readonly Point[]): number {
  let twice = 0
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length]!
    twice += p.x * q.y - q.x * p.y
  })
  return twice / 2
}

const counterClockwise = (points: Point[]) => (signedArea(points) < 0 ? points.reverse() : points)

/** Counter-clockwise points that never turn right. */
export function isConvex(points: readonly Point[]): boolean {
  return points.every((a, i) => {
    const b = points[(i + 1) % points.length]!
    const c = points[(i + 2) % points.length]!
    return (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x) >= -ROUNDING.area
  })
}
