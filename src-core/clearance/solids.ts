/** Mounted things as flattened polygons with heights, for clash checks in plan and in z. */
import { flattenRegion, flattenRing } from '../geometry/flatten.ts'
import { circleRing } from '../geometry/edges.ts'
import { polygonDifference, polygonUnion } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { isPrism, type Body } from '../job/schema.ts'
import { silhouette } from '../mesh/silhouette.ts'
import { placePoints } from '../mounting/place.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'

export type Polygons = Point[][]

export interface Box {
  readonly x0: number
  readonly y0: number
  readonly x1: number
  readonly y1: number
}

export function boxOf(polygons: Polygons): Box {
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity }
  for (const ring of polygons) {
    for (const { x, y } of ring) {
      box.x0 = Math.min(box.x0, x)
      box.y0 = Math.min(box.y0, y)
      box.x1 = Math.max(box.x1, x)
      box.y1 = Math.max(box.y1, y)
    }
  }
  return box
}

export const boxesMeet = (a: Box, b: Box): boolean => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1

/**
 * Whether the area that rings enclose (even-odd) comes into a box or to its edge. Of polygons that do not, nothing is
 * left within the box whatever is cut from or joined to them, and the polygon library need not be asked.
 */
export function reaches(polygons: Polygons, { x0, y0, x1, y1 }: Box): boolean {
  const left = x0 - TOLERANCE.polygonRounding
  const right = x1 + TOLERANCE.polygonRounding
  const low = y0 - TOLERANCE.polygonRounding
  const high = y1 + TOLERANCE.polygonRounding
  const cx = (x0 + x1) / 2
  const cy = (y0 + y1) / 2
  let inside = false
  for (const ring of polygons) {
    let a = ring[ring.length - 1]!
    for (const b of ring) {
      const above = a.y > cy
      if (above !== b.y > cy && cx < a.x + ((b.x - a.x) * (cy - a.y)) / (b.y - a.y)) inside = !inside
      const apart =
        (a.x < left && b.x < left) ||
        (a.x > right && b.x > right) ||
        (a.y < low && b.y < low) ||
        (a.y > high && b.y > high)
      if (!apart && lineMeets(a, b, left, right, low, high)) return true
      a = b
    }
  }
  return inside
}

/** Whether a box has corners on both sides of the line through two points, or on it. */
function lineMeets(a: Point, b: Point, left: number, right: number, low: number, high: number): boolean {
  const dx = b.x - a.x
  const dy = b.y - a.y
  const side = (x: number, y: number) => dx * (y - a.y) - dy * (x - a.x)
  const [p, q, r, s] = [side(left, low), side(right, low), side(left, high), side(right, high)]
  return !((p > 0 && q > 0 && r > 0 && s > 0) || (p < 0 && q < 0 && r < 0 && s < 0))
}

/** Millimetres by which two height ranges overlap. */
export const heightOverlap = (a: { z0: number; z1: number }, b: { z0: number; z1: number }): number =>
  Math.min(a.z1, b.z1) - Math.max(a.z0, b.z0)

export const footprintPolygons = (piece: MountedPiece): Polygons => [
  flattenRing(piece.footprint, TOLERANCE.clashChord),
]
export const discPolygons = (centre: Point, diameter: number): Polygons => [
  flattenRing(circleRing(centre, diameter), TOLERANCE.clashChord),
]

export interface FlatBody {
  readonly id: string
  readonly adds: boolean
  readonly polygons: Polygons
  readonly box: Box
  readonly z0: number
  readonly z1: number
}

const kept = new WeakMap<Mounted, readonly FlatBody[]>()

/** The part's bodies flattened; kept per mounted setup, for several checks ask it. */
export function flatBodies(mounted: Mounted): readonly FlatBody[] {
  let bodies = kept.get(mounted)
  if (!bodies) kept.set(mounted, (bodies = flatten(mounted)))
  return bodies
}

const flat = new WeakMap<Body, readonly (readonly Point[])[]>()

/** A body's outlines as points, part frame; kept per body object, which is immutable, so a drag flattens it once. */
function flatOutlines(body: Body): readonly (readonly Point[])[] {
  let rings = flat.get(body)
  if (!rings) {
    const regions = isPrism(body) ? [body] : silhouette(body.mesh)
    flat.set(body, (rings = regions.flatMap((r) => flattenRegion(r, TOLERANCE.clashChord))))
  }
  return rings
}

function flatten(mounted: Mounted): FlatBody[] {
  return mounted.bodies.map(({ body, z0, z1 }) => {
    const polygons = flatOutlines(body).map((ring) => placePoints(mounted.placement, ring))
    return { id: body.id, adds: body.effect === 'adds', polygons, box: boxOf(polygons), z0, z1 }
  })
}

/**
 * The part's material anywhere between two heights, near a box: adding bodies, less what removing bodies and bores
 * cut earlier take away through the whole of the range. What does not come into the box is left out.
 */
export function materialBetween(
  mounted: Mounted,
  bodies: readonly FlatBody[],
  z0: number,
  z1: number,
  near: Box,
): Polygons {
  let material: Polygons = []
  const isNear = (b: FlatBody) => boxesMeet(b.box, near) && reaches(b.polygons, near)
  for (const b of bodies) {
    if (!b.adds || heightOverlap(b, { z0, z1 }) <= TOLERANCE.height || !isNear(b)) continue
    const low = Math.max(b.z0, z0)
    const high = Math.min(b.z1, z1)
    let left = b.polygons
    for (const r of bodies) {
      if (!r.adds && r.z0 <= low + TOLERANCE.height && r.z1 >= high - TOLERANCE.height && isNear(r))
        left = polygonDifference(left, r.polygons)
    }
    for (const bore of mounted.bores) {
      if (bore.state === 'open' && bore.z0 <= low + TOLERANCE.height && bore.z1 >= high - TOLERANCE.height)
        left = polygonDifference(left, discPolygons(bore.centre, bore.bore.diameter))
    }
    material = material.length === 0 ? left : polygonUnion(material, left)
  }
  return material
}
