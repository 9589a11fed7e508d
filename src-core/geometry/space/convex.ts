/** Convex pieces in space: right prisms over convex polygons, of which blocks and, by their sides, cylinders are made. */
import type { Point, Point3 } from '../types.ts'
import type { Box3 } from './box3.ts'
import type { Pose } from './pose.ts'
import { scale3 } from './vector.ts'

/** In the frame that its pose stood in, mm. Corners and normals are flat lists x, y, z of its back face, in one order. */
export interface Convex {
  readonly corners: Float64Array
  /** Outward normal, of length 1, of the side from each corner to the next. */
  readonly normals: Float64Array
  /** From the back face to the front one. */
  readonly through: Point3
  /** Outward normal of the front face, of length 1. */
  readonly front: Point3
  readonly box: Box3
}

/** Over a counter-clockwise convex polygon in a pose's plane, from height z0 to z1 along its normal, z1 > z0. */
export function convexPrism(polygon: readonly Point[], z0: number, z1: number, pose: Pose): Convex {
  const { origin: o, u, v, n } = pose
  const corners = new Float64Array(3 * polygon.length)
  const normals = new Float64Array(3 * polygon.length)
  const low = { x: Infinity, y: Infinity, z: Infinity }
  const high = { x: -Infinity, y: -Infinity, z: -Infinity }
  for (let i = 0; i < polygon.length; i++) {
    const p = polygon[i]!
    const q = polygon[i + 1 === polygon.length ? 0 : i + 1]!
    const x = o.x + p.x * u.x + p.y * v.x + z0 * n.x
    const y = o.y + p.x * u.y + p.y * v.y + z0 * n.y
    const z = o.z + p.x * u.z + p.y * v.z + z0 * n.z
    corners[3 * i] = x
    corners[3 * i + 1] = y
    corners[3 * i + 2] = z
    const length = Math.hypot(q.x - p.x, q.y - p.y)
    const a = (q.y - p.y) / length
    const b = (p.x - q.x) / length
    normals[3 * i] = a * u.x + b * v.x
    normals[3 * i + 1] = a * u.y + b * v.y
    normals[3 * i + 2] = a * u.z + b * v.z
    low.x = Math.min(low.x, x)
    low.y = Math.min(low.y, y)
    low.z = Math.min(low.z, z)
    high.x = Math.max(high.x, x)
    high.y = Math.max(high.y, y)
    high.z = Math.max(high.z, z)
  }
  const through = scale3(pose.n, z1 - z0)
  for (const k of ['x', 'y', 'z'] as const) {
    low[k] += Math.min(0, through[k])
    high[k] += Math.max(0, through[k])
  }
  return { corners, normals, through, front: pose.n, box: { low, high } }
}

/** The corner farthest in a direction, written to `to`; how far that is, along a direction of length 1 in mm. */
export function farthestCorner(
  { corners, through }: Convex,
  x: number,
  y: number,
  z: number,
  to: Float64Array,
): number {
  let best = 0
  let most = -Infinity
  for (let i = 0; i < corners.length; i += 3) {
    const far = corners[i]! * x + corners[i + 1]! * y + corners[i + 2]! * z
    if (far > most) {
      most = far
      best = i
    }
  }
  const up = through.x * x + through.y * y + through.z * z
  const k = up > 0 ? 1 : 0
  to[0] = corners[best]! + k * through.x
  to[1] = corners[best + 1]! + k * through.y
  to[2] = corners[best + 2]! + k * through.z
  return most + Math.max(0, up)
}
