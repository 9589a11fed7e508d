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
  for (let i = 0; i < polygon.length; i++) {
    const p = polygon[i]!
    const q = polygon[i + 1 === polygon.length ? 0 : i + 1]!
    corners[3 * i] = o.x + p.x * u.x + p.y * v.x + z0 * n.x
    corners[3 * i + 1] = o.y + p.x * u.y + p.y * v.y + z0 * n.y
    corners[3 * i + 2] = o.z + p.x * u.z + p.y * v.z + z0 * n.z
    const length = Math.hypot(q.x - p.x, q.y - p.y)
    const a = (q.y - p.y) / length
    const b = (p.x - q.x) / length
    normals[3 * i] = a * u.x + b * v.x
    normals[3 * i + 1] = a * u.y + b * v.y
    normals[3 * i + 2] = a * u.z + b * v.z
  }
  const through = scale3(n, z1 - z0)
  return { corners, normals, through, front: n, box: prismBox(polygon, z0, z1, pose) }
}

/** The box about a prism over any polygon. */
export function prismBox(polygon: readonly Point[], z0: number, z1: number, { origin, u, v, n }: Pose): Box3 {
  const span = (k: 'x' | 'y' | 'z'): [number, number] => {
    let [low, high] = [Infinity, -Infinity]
    const [uk, vk] = [u[k], v[k]]
    for (let i = 0; i < polygon.length; i++) {
      const at = polygon[i]!.x * uk + polygon[i]!.y * vk
      if (at < low) low = at
      if (at > high) high = at
    }
    const [a, b] = [z0 * n[k], z1 * n[k]]
    return [origin[k] + low + Math.min(a, b), origin[k] + high + Math.max(a, b)]
  }
  const [[x0, x1], [y0, y1], [z, front]] = [span('x'), span('y'), span('z')]
  return { low: { x: x0, y: y0, z }, high: { x: x1, y: y1, z: front } }
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

type Edge = (ax: number, ay: number, az: number, bx: number, by: number, bz: number) => void

/** Each edge of a piece once, by its ends. */
export function eachEdge({ corners, through }: Convex, edge: Edge): void {
  const count = corners.length
  for (let i = 0; i < count; i += 3) {
    const j = i + 3 === count ? 0 : i + 3
    const [px, py, pz] = [corners[i]!, corners[i + 1]!, corners[i + 2]!]
    const [qx, qy, qz] = [corners[j]!, corners[j + 1]!, corners[j + 2]!]
    edge(px, py, pz, qx, qy, qz)
    edge(px + through.x, py + through.y, pz + through.z, qx + through.x, qy + through.y, qz + through.z)
    edge(px, py, pz, px + through.x, py + through.y, pz + through.z)
  }
}
