/**
 * Whether two shapes meet as they slide along their lines. With convex outlines (an outline that is not convex
 * stands for its hull here, which only asks for more room), they meet exactly when the vector between their bolts
 * lies in the sum of the one and the mirror of the other: a convex polygon, grown by the discs' radii.
 */
import { convexHull } from '../geometry/convexHull.ts'
import type { Point } from '../geometry/types.ts'
import { turnShape, type Shape } from './shape.ts'

interface Core {
  readonly points: readonly Point[]
  readonly radius: number
}

const coreOf = (shape: Shape): Core =>
  shape.kind === 'disc'
    ? { points: [{ x: 0, y: 0 }], radius: shape.radius }
    : { points: convexHull(shape.points), radius: 0 }

export interface Contact {
  /** mm between the shapes when the second's bolt minus the first's is (x, y); negative: so deep do they meet. */
  gap(x: number, y: number): number
}

/** @param first as it lies in the plate frame with its bolt at the origin, likewise `second`. */
export function contactOf(first: Shape, second: Shape): Contact {
  const a = coreOf(first)
  const b = coreOf(second)
  const sums = a.points.flatMap((p) => b.points.map((q) => ({ x: p.x - q.x, y: p.y - q.y })))
  const points = sums.length > 2 ? convexHull(sums) : sums
  const radius = a.radius + b.radius
  return { gap: (x, y) => signedDistance(points, x, y) - radius }
}

/** Of several pairs of shapes that move together, whichever are nearest. */
export const nearestContact = (contacts: readonly Contact[]): Contact =>
  contacts.length === 1
    ? contacts[0]!
    : { gap: (x, y) => contacts.reduce((least, c) => Math.min(least, c.gap(x, y)), Infinity) }

/** A shape that lies along `angle` degrees, in the plate frame. */
export const inPlate = (shape: Shape, angle: number): Shape => turnShape(shape, angle)

/** Distance to a counter-clockwise convex polygon, negative inside; to a point or a segment never negative. */
function signedDistance(points: readonly Point[], x: number, y: number): number {
  const n = points.length
  if (n === 1) return Math.hypot(x - points[0]!.x, y - points[0]!.y)
  let outside = Infinity
  let deepest = -Infinity
  for (let i = 0; i < n; i++) {
    const a = points[i]!
    const b = points[i + 1 === n ? 0 : i + 1]!
    const dx = b.x - a.x
    const dy = b.y - a.y
    const length = Math.hypot(dx, dy)
    if (length === 0) continue
    deepest = Math.max(deepest, ((x - a.x) * dy - (y - a.y) * dx) / length)
    const t = Math.max(0, Math.min(1, ((x - a.x) * dx + (y - a.y) * dy) / (length * length)))
    outside = Math.min(outside, Math.hypot(x - a.x - t * dx, y - a.y - t * dy))
  }
  return n > 2 && deepest < 0 ? deepest : outside
}
