import { angleTowards, onCircle } from './angles.ts'
import { arcFraction, ringEdges, type Edge } from './edges.ts'
import type { Point, Region, Ring } from './types.ts'

/** The point of an edge nearest to `from`, mm. */
export function nearestOnEdge(e: Edge, from: Point): Point {
  if (e.arc) {
    const angle = angleTowards(e.arc.centre, from)
    if (arcFraction(e.arc, angle) !== null) return onCircle(e.arc.centre, e.arc.radius, angle)
    const da = Math.hypot(e.a.x - from.x, e.a.y - from.y)
    const db = Math.hypot(e.b.x - from.x, e.b.y - from.y)
    return da <= db ? e.a : e.b
  }
  const dx = e.b.x - e.a.x
  const dy = e.b.y - e.a.y
  const square = dx * dx + dy * dy
  const t =
    square === 0 ? 0 : Math.max(0, Math.min(1, ((from.x - e.a.x) * dx + (from.y - e.a.y) * dy) / square))
  return { x: e.a.x + dx * t, y: e.a.y + dy * t }
}

/** The point of a ring's edges nearest to `from`, whether inside or out, and its distance in mm. */
export function nearestTo(ring: Ring, from: Point): { point: Point; distance: number } {
  let point: Point = ring[0] ?? from
  let distance = Infinity
  for (const e of ringEdges(ring)) {
    if (isPlainlyFarther(e, from, distance)) continue
    const p = nearestOnEdge(e, from)
    const d = Math.hypot(p.x - from.x, p.y - from.y)
    if (d < distance) {
      distance = d
      point = p
    }
  }
  return { point: { x: point.x, y: point.y }, distance }
}

/** No point of an edge of at most a half turn lies farther from its beginning than its end does. */
function isPlainlyFarther({ a, b, bulge }: Edge, from: Point, than: number): boolean {
  if (Math.abs(bulge) > 1) return false
  const reach = than + Math.abs(b.x - a.x) + Math.abs(b.y - a.y)
  return (a.x - from.x) ** 2 + (a.y - from.y) ** 2 > reach * reach
}

/** Distance from `from` to the material of a region, 0 inside it, mm. */
export function distanceToRegion(region: Region, from: Point): number {
  if (!isInside(region.outline, from)) return nearestTo(region.outline, from).distance
  for (const hole of region.holes) if (isInside(hole, from)) return nearestTo(hole, from).distance
  return 0
}

/** Signed crossings of a ray to +x from `p`, arcs exactly: non-zero is inside. A point on the line is undefined. */
export function windingNumber(edges: readonly Edge[], p: Point): number {
  let winding = 0
  for (const e of edges) {
    const crosses = e.a.y > p.y !== e.b.y > p.y
    if (!crosses && !e.arc) continue
    const side = sideOfChord(e, p)
    const up = e.b.y > e.a.y
    if (crosses && up === side > 0) winding += up ? 1 : -1
    if (e.arc) winding += segmentWinding(e, p, side)
  }
  return winding
}

/**
 * Above 0 where `p` lies to the left of an edge's chord, else below. Worked out the same way whichever way the edge runs,
 * and on the chord it counts as to the right of it in plan (above, where the chord is level), so that the two halves of a
 * circle share its diameter: rounding never takes a circle's middle out of both.
 */
function sideOfChord({ a, b }: Edge, p: Point): number {
  const forward = a.y < b.y || (a.y === b.y && a.x < b.x)
  const [low, high] = forward ? [a, b] : [b, a]
  const dy = high.y - low.y
  const side = (high.x - low.x) * (p.y - low.y) - dy * (p.x - low.x) || (dy > 0 ? -1 : 1)
  return forward ? side : -side
}

/** ±1 where `p` lies in the segment between an arc and its chord, which the chord alone misses. */
function segmentWinding({ arc, bulge }: Edge, p: Point, side: number): number {
  const { centre, radius } = arc!
  if ((p.x - centre.x) ** 2 + (p.y - centre.y) ** 2 >= radius * radius) return 0
  // A counter-clockwise arc lies to the right of its chord.
  if (bulge > 0) return side < 0 ? 1 : 0
  return side > 0 ? -1 : 0
}

/** Whether a point lies within a region, not in one of its holes; on a line is undefined. */
export const inRegion = ({ outline, holes }: Region, p: Point): boolean =>
  isInside(outline, p) && !holes.some((h) => isInside(h, p))

/** Whether a point lies inside a simple ring; on its line is undefined. */
export function isInside(ring: Ring, p: Point): boolean {
  return windingNumber(ringEdges(ring), p) !== 0
}

/** Whether a point lies within what rings enclose (even-odd): outlines with the holes in them as they are. */
export const isWithin = (rings: readonly Ring[], p: Point): boolean =>
  rings.filter((ring) => isInside(ring, p)).length % 2 === 1
