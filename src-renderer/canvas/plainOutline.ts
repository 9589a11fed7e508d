/** What of a long outline the screen can show: part of a pixel is left out. */
import { makeEdge, type Edge } from '../../src-core/geometry/edges.ts'
import type { Point, Ring } from '../../src-core/geometry/types.ts'

/** Pixels by which what is drawn may stray: an arc this flat is its chord, one this near to the last, across and up, is left out. */
const FLAT = 0.1
const NEAR = 0.25

type Run = Pick<Edge, 'b' | 'arc'>

/**
 * Edges of an outline, each from where the one before ended, at most half a pixel off. Where a vertex that was left out
 * begins an arc, a straight edge leads there first.
 *
 * @param scale pixels a millimetre
 */
export function plainOutline(ring: Ring, closed: boolean, scale: number): Run[] {
  const flat = FLAT / scale
  const near = NEAR / scale
  const runs: Run[] = []
  const count = closed ? ring.length : ring.length - 1
  let last: Point = ring[0]!
  const to = (b: Point, arc: Run['arc']) => {
    runs.push({ b, arc })
    last = b
  }
  for (let i = 0; i < count; i++) {
    const a = ring[i]!
    const b = ring[i + 1 === ring.length ? 0 : i + 1]!
    const bulge = a.bulge ?? 0
    if (bulge !== 0 && Math.abs(bulge) * Math.hypot(b.x - a.x, b.y - a.y) > 2 * flat) {
      if (last !== a) to(a, null)
      to(b, makeEdge(a, b, bulge).arc)
    } else if (i === count - 1 || Math.abs(b.x - last.x) > near || Math.abs(b.y - last.y) > near) to(b, null)
  }
  return runs
}
