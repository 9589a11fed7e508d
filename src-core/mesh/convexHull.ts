import type { Point } from '../geometry/types.ts'
import type { PointTable } from './pointTable.ts'

/** Convex hull, counter-clockwise, by A. M. Andrew's monotone chain (Information Processing Letters 9(5), 1979). */
export function convexHull({ xs, ys, count }: PointTable): Point[] {
  const order = Array.from({ length: count }, (_, i) => i).sort((p, q) => xs[p]! - xs[q]! || ys[p]! - ys[q]!)
  const chain = (indices: number[]) => {
    const hull: number[] = []
    for (const p of indices) {
      while (hull.length >= 2 && !turnsLeft(hull.at(-2)!, hull.at(-1)!, p)) hull.pop()
      hull.push(p)
    }
    hull.pop()
    return hull
  }
  const turnsLeft = (a: number, b: number, c: number) =>
    (xs[b]! - xs[a]!) * (ys[c]! - ys[a]!) - (xs[c]! - xs[a]!) * (ys[b]! - ys[a]!) > 0
  const lower = chain(order)
  const upper = chain(order.reverse())
  return [...lower, ...upper].map((i) => ({ x: xs[i]!, y: ys[i]! }))
}
