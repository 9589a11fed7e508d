/** Convex hulls with few corners, and their least width. mm. */
import { convexHull } from './convexHull.ts'
import type { Point } from './types.ts'

const across = (a: Point, b: Point, p: Point): number => {
  const length = Math.hypot(b.x - a.x, b.y - a.y)
  if (length === 0) return Math.hypot(p.x - a.x, p.y - a.y)
  return Math.abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / length
}

/** Corners of the convex hull less those that stand out over their neighbours' chord by `chord` mm at most: never wider than it. */
export function fewHullPoints(points: readonly Point[], chord: number): Point[] {
  const hull = convexHull(points)
  if (hull.length < 4) return hull
  const kept = [hull[0]!]
  let last = 0
  for (let next = 2; next <= hull.length; next++) {
    const end = hull[next % hull.length]!
    const skipped = hull.slice(last + 1, next)
    if (skipped.every((p) => across(hull[last]!, end, p) <= chord)) continue
    last = next - 1
    kept.push(hull[last]!)
  }
  return kept
}

/** Least distance between two parallel lines that hold all points between them; 0 of fewer than three. */
export function leastWidth(points: readonly Point[]): number {
  const hull = convexHull(points)
  if (hull.length < 3) return 0
  const widths = hull.map((a, i) => {
    const b = hull[(i + 1) % hull.length]!
    return Math.max(...hull.map((p) => across(a, b, p)))
  })
  return Math.min(...widths)
}
