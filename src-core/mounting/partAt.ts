/** What the part is at a point of the plate: how far off, and where the point is on it, how high and how far in. */
import { distanceToRegion, nearestTo } from '../geometry/nearest.ts'
import type { Point } from '../geometry/types.ts'
import type { Mounted } from './types.ts'

export interface PartAt {
  /** mm from the point to the part, 0 on it; infinite where there is none. */
  readonly off: number
  /** z of the front of the foremost body there, mm; null off the part. */
  readonly front: number | null
  /** mm in from the nearest edge, outer or of a hole, of that body; 0 off the part. */
  readonly edge: number
}

/** Looks at bodies that add material, in plan; what others take away is not seen. Plate frame, mm. */
export function partAt(mounted: Mounted, p: Point): PartAt {
  let off = Infinity
  let front: number | null = null
  let edge = 0
  for (const body of mounted.bodies) {
    if (body.body.effect !== 'adds') continue
    for (const region of body.regions) {
      const d = distanceToRegion(region, p)
      off = Math.min(off, d)
      if (d > 0 || (front !== null && front >= body.z1)) continue
      front = body.z1
      edge = Math.min(...[region.outline, ...region.holes].map((ring) => nearestTo(ring, p).distance))
    }
  }
  return { off, front, edge }
}
