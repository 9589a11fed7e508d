/**
 * Polygon union, intersection, difference and offset on flattened rings (Clipper2). Rings in any winding, even-odd
 * filled, so an outline and its holes can be given as they are. Callers pass rings that have passed
 * `regionFaults`: the library may not return from a self-crossing one. Results are exact to a micrometre and serve
 * checks and pictures; masses come from the exact rings.
 */
import { areaPathsD, booleanOpD, ClipType, EndType, FillRule, inflatePathsD, JoinType } from 'clipper2-ts'
import { boxOf, nearBox, type Polygons } from './polygonBox.ts'
import { TOLERANCE } from './tolerance.ts'
import type { Point } from './types.ts'

/** Decimals of a millimetre that the library keeps. */
const DECIMALS = 6

const copy = (polygons: Polygons) => polygons.map((ring) => ring.map(({ x, y }) => ({ x, y })))

function combine(type: ClipType, a: Polygons, b: Polygons): Point[][] {
  return booleanOpD(type, copy(a), copy(b), FillRule.EvenOdd, DECIMALS)
}

/** Even-odd outlines in and out, mm: so are those of the two below. */
export function polygonIntersection(a: Polygons, b: Polygons): Point[][] {
  return combine(ClipType.Intersection, within(a, b), within(b, a))
}
export const polygonUnion = (a: Polygons, b: Polygons) => combine(ClipType.Union, a, b)
export const polygonDifference = (a: Polygons, b: Polygons) => combine(ClipType.Difference, a, within(b, a))

/** What of `a` can matter to `b`. */
const within = (a: Polygons, b: Polygons): Polygons => nearBox(a, boxOf(b))

/** Grows (by > 0) or shrinks outlines by `by` mm with round corners; holes must wind the other way. */
export function polygonOffset(polygons: Polygons, by: number): Point[][] {
  return inflatePathsD(copy(polygons), by, JoinType.Round, EndType.Polygon, 2, DECIMALS, TOLERANCE.offsetArc)
}

/** Net area, mm²: what `combine` returns winds outlines and holes oppositely. */
export function polygonArea(polygons: Polygons): number {
  return Math.abs(areaPathsD(copy(polygons)))
}

/** Mean of the vertices of the largest ring: a place to point at, mm; null where there is none. */
export function polygonPlace(polygons: Polygons): Point | null {
  let best: readonly Point[] | null = null
  let most = -1
  for (const ring of polygons) {
    const area = polygonArea([ring])
    if (area > most) {
      most = area
      best = ring
    }
  }
  if (!best || best.length === 0) return null
  const sum = best.reduce((s, p) => ({ x: s.x + p.x, y: s.y + p.y }), { x: 0, y: 0 })
  return { x: sum.x / best.length, y: sum.y / best.length }
}
