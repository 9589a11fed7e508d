/**
 * Where a thing is and how it is turned: a frame of its own in the plate's frame, or in another's. u and v lie in its
 * plane, n = u × v stands out of it, each of length 1. A place in it is (x, y) along u and v and z along n, mm.
 */
import type { Point, Point3 } from '../types.ts'
import { cross3, dot3, minus3, plus3, scale3 } from './vector.ts'

export interface Pose {
  readonly origin: Point3
  readonly u: Point3
  readonly v: Point3
  readonly n: Point3
}

/** As the plate lies. */
export const UPRIGHT: Pose = {
  origin: { x: 0, y: 0, z: 0 },
  u: { x: 1, y: 0, z: 0 },
  v: { x: 0, y: 1, z: 0 },
  n: { x: 0, y: 0, z: 1 },
}

/** By origin, normal and a direction that u follows as nearly as it lies square to the normal; neither needs length 1. */
export function poseOf(origin: Point3, normal: Point3, along: Point3): Pose {
  const n = scale3(normal, 1 / Math.hypot(normal.x, normal.y, normal.z))
  const flat = minus3(along, scale3(n, dot3(along, n)))
  const u = scale3(flat, 1 / Math.hypot(flat.x, flat.y, flat.z))
  return { origin, u, v: cross3(n, u), n }
}

/** A direction in a pose as one in the frame that the pose stands in. */
export const turnedBy = ({ u, v, n }: Pose, d: Point3): Point3 => ({
  x: d.x * u.x + d.y * v.x + d.z * n.x,
  y: d.x * u.y + d.y * v.y + d.z * n.y,
  z: d.x * u.z + d.y * v.z + d.z * n.z,
})

/** A place in a pose, in its plane where no height is given, as one in the frame that the pose stands in. */
export const outOf = (pose: Pose, { x, y, z = 0 }: Point & { readonly z?: number }): Point3 =>
  plus3(pose.origin, turnedBy(pose, { x, y, z }))

/** A place as one in a pose. */
export function into({ origin, u, v, n }: Pose, p: Point3): Point3 {
  const r = minus3(p, origin)
  return { x: dot3(r, u), y: dot3(r, v), z: dot3(r, n) }
}

/** The pose, in the frame of `outer`, of what stands at `inner` in it. */
export const composed = (outer: Pose, inner: Pose): Pose => ({
  origin: outOf(outer, inner.origin),
  u: turnedBy(outer, inner.u),
  v: turnedBy(outer, inner.v),
  n: turnedBy(outer, inner.n),
})
