/** What convex pieces cover when they are looked at along a direction: the hull of their corners, no more and no less. */
import { convexHull } from '../convexHull.ts'
import type { Point, Point3 } from '../types.ts'
import { eachEdge, type Convex } from './convex.ts'
import { dot3 } from './vector.ts'

/**
 * In plan, what of each piece lies between two heights, ends included: counter-clockwise polygons, none for a piece of which
 * no more than an edge is there. A slice of a convex piece has its corners at the piece's own and where edges pass a height.
 */
export function planBetween(pieces: readonly Convex[], from: number, to: number): Point[][] {
  return pieces.flatMap((piece): Point[][] => {
    const { low, high } = piece.box
    if (low.z > to || high.z < from) return []
    const points: Point[] = []
    eachEdge(piece, (ax, ay, az, bx, by, bz) => {
      if ((az > to && bz > to) || (az < from && bz < from)) return
      const take = (t: number) => points.push({ x: ax + t * (bx - ax), y: ay + t * (by - ay) })
      const rise = bz - az
      const at = (z: number) => Math.min(1, Math.max(0, (z - az) / rise))
      take(rise === 0 ? 0 : at(rise > 0 ? from : to))
      take(rise === 0 ? 1 : at(rise > 0 ? to : from))
    })
    return polygonOf(points)
  })
}

/** Each piece as it looks from where `across` points right and `up` up, both of length 1. */
export const seenAlong = (pieces: readonly Convex[], across: Point3, up: Point3): Point[][] =>
  pieces.flatMap((piece) => {
    const points: Point[] = []
    const take = (p: Point3) => points.push({ x: dot3(p, across), y: dot3(p, up) })
    eachEdge(piece, (ax, ay, az, bx, by, bz) => {
      take({ x: ax, y: ay, z: az })
      take({ x: bx, y: by, z: bz })
    })
    return polygonOf(points)
  })

const polygonOf = (points: readonly Point[]): Point[][] => {
  const hull = convexHull(points)
  return hull.length < 3 ? [] : [hull]
}
