import { turning } from '../geometry/angles.ts'
import type { Point, Region, Ring, Vertex } from '../geometry/types.ts'
import type { Placement } from './types.ts'

/** Part frame to plate frame. */
export function placePoint(placement: Placement, p: Point): Point {
  const { c, s } = turning(placement.turn)
  return { x: placement.x + c * p.x - s * p.y, y: placement.y + s * p.x + c * p.y }
}

/** Plate frame to part frame. */
export function unplacePoint(placement: Placement, p: Point): Point {
  const { c, s } = turning(placement.turn)
  const x = p.x - placement.x
  const y = p.y - placement.y
  return { x: c * x + s * y, y: -s * x + c * y }
}

/** Points of the part frame in the plate frame. */
export function placePoints(placement: Placement, points: readonly Point[]): Point[] {
  const { c, s } = turning(placement.turn)
  return points.map((p) => ({ x: placement.x + c * p.x - s * p.y, y: placement.y + s * p.x + c * p.y }))
}

/** A ring keeps its bulges: a turn does not change an arc. */
export function placeRing(placement: Placement, ring: Ring): Vertex[] {
  const { c, s } = turning(placement.turn)
  return ring.map((v) => ({
    x: placement.x + c * v.x - s * v.y,
    y: placement.y + s * v.x + c * v.y,
    bulge: v.bulge ?? 0,
  }))
}

export function placeRegion(placement: Placement, region: Region): Region {
  return {
    outline: placeRing(placement, region.outline),
    holes: region.holes.map((h) => placeRing(placement, h)),
  }
}
