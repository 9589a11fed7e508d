import type { Point, Region, Ring, Vertex } from '../geometry/types.ts'
import type { Placement } from './types.ts'

/** Part frame to plate frame. */
export function placePoint(placement: Placement, p: Point): Point {
  const c = Math.cos((placement.turn * Math.PI) / 180)
  const s = Math.sin((placement.turn * Math.PI) / 180)
  return { x: placement.x + c * p.x - s * p.y, y: placement.y + s * p.x + c * p.y }
}

/** Plate frame to part frame. */
export function unplacePoint(placement: Placement, p: Point): Point {
  const c = Math.cos((placement.turn * Math.PI) / 180)
  const s = Math.sin((placement.turn * Math.PI) / 180)
  const x = p.x - placement.x
  const y = p.y - placement.y
  return { x: c * x + s * y, y: -s * x + c * y }
}

/** Points of the part frame in the plate frame. */
export function placePoints(placement: Placement, points: readonly Point[]): Point[] {
  const c = Math.cos((placement.turn * Math.PI) / 180)
  const s = Math.sin((placement.turn * Math.PI) / 180)
  return points.map((p) => ({ x: placement.x + c * p.x - s * p.y, y: placement.y + s * p.x + c * p.y }))
}

/** A ring keeps its bulges: a turn does not change an arc. */
export function placeRing(placement: Placement, ring: Ring): Vertex[] {
  const c = Math.cos((placement.turn * Math.PI) / 180)
  const s = Math.sin((placement.turn * Math.PI) / 180)
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
