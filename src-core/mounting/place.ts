import { turning } from '../geometry/angles.ts'
import type { Point, Point3, Region, Ring, Vertex } from '../geometry/types.ts'
import type { Mesh } from '../job/schema.ts'
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

/** A mesh's vertices, `back` being the height of the plane from which it counts its own. */
export function placeVertices(placement: Placement, { vertices }: Mesh, back: number): Point3[] {
  const { c, s } = turning(placement.turn)
  return Array.from({ length: Math.floor(vertices.length / 3) }, (_, i) => {
    const [x, y, z] = [vertices[3 * i]!, vertices[3 * i + 1]!, vertices[3 * i + 2]!]
    return { x: placement.x + c * x - s * y, y: placement.y + s * x + c * y, z: z + back }
  })
}

/** A region of the part's frame in the plate's. */
export function placeRegion(placement: Placement, region: Region): Region {
  return {
    outline: placeRing(placement, region.outline),
    holes: region.holes.map((h) => placeRing(placement, h)),
  }
}
