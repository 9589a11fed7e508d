import { polar } from '../angles.ts'
import type { Point } from '../types.ts'
import type { Pose } from './pose.ts'

/**
 * A face square to the plate that looks in the direction `facing`, degrees, through a point of the plate: u along it,
 * v out from the plate, n out of it.
 */
export function facingPose({ x, y }: Point, facing: number): Pose {
  const n = polar(1, facing)
  const u = polar(1, facing + 90)
  return {
    origin: { x, y, z: 0 },
    u: { x: u.x, y: u.y, z: 0 },
    v: { x: 0, y: 0, z: 1 },
    n: { x: n.x, y: n.y, z: 0 },
  }
}
