/** Solids that do not stand upright: an outline of some thickness in any pose, with the upright box about it. */
import { edgesBox, ringEdges } from '../geometry/edges.ts'
import { outOf, type Pose } from '../geometry/space/pose.ts'
import { centreOf, ringMoments } from '../geometry/ringMoments.ts'
import type { Point, Point3, Ring } from '../geometry/types.ts'
import type { Lying, MountedSolid } from './types.ts'

/** The upright box about a solid that lies: its sides are those of the pose where that is square to the plate. */
export function envelopeOf({ pose, ring, z0, z1 }: Lying): Pick<MountedSolid, 'ring' | 'z0' | 'z1'> {
  const { x0, x1, y0, y1 } = edgesBox(ringEdges(ring))
  const corners = [x0, x1].flatMap((x) =>
    [y0, y1].flatMap((y) => [z0, z1].map((z) => outOf(pose, { x, y, z }))),
  )
  const heights = corners.map((c) => c.z)
  return { ring: planBox(pose, corners), z0: Math.min(...heights), z1: Math.max(...heights) }
}

/** The rectangle along a pose's u, in plan, about points. */
function planBox({ u }: Pose, corners: readonly Point3[]): Point[] {
  const length = Math.hypot(u.x, u.y)
  const along = length > 0 ? { x: u.x / length, y: u.y / length } : { x: 1, y: 0 }
  const a = corners.map((c) => c.x * along.x + c.y * along.y)
  const b = corners.map((c) => c.y * along.x - c.x * along.y)
  const at = (p: number, q: number) => ({ x: p * along.x - q * along.y, y: p * along.y + q * along.x })
  const [a0, a1, b0, b1] = [Math.min(...a), Math.max(...a), Math.min(...b), Math.max(...b)]
  return [at(a0, b0), at(a1, b0), at(a1, b1), at(a0, b1)]
}

/** A uniform solid without holes. @param perMm3 kg/mm³ */
export function lyingSolid(
  role: MountedSolid['role'],
  pose: Pose,
  ring: Ring,
  z0: number,
  z1: number,
  perMm3: number,
): MountedSolid {
  const lies = { pose, ring, z0, z1 }
  const m = ringMoments(ring, ring[0])
  const middle = { ...centreOf(m, ring[0]), z: (z0 + z1) / 2 }
  return {
    role,
    ...envelopeOf(lies),
    lies,
    mass: m.area * (z1 - z0) * perMm3,
    massCentre: outOf(pose, middle),
  }
}
