/**
 * The flat seat of a joint: a frame of its own in the plate's frame. n points out of the seat into the body that sits
 * on it, u and v lie in the seat, u × v = n. Places in the seat are (u, v) in mm from its origin.
 */
import type { Point, Point3 } from '../geometry/types.ts'

export interface Seat {
  /** mm, plate frame. */
  readonly origin: Point3
  readonly u: Point3
  readonly v: Point3
  readonly n: Point3
}

export const dot3 = (a: Point3, b: Point3): number => a.x * b.x + a.y * b.y + a.z * b.z

export const cross3 = (a: Point3, b: Point3): Point3 => ({
  x: a.y * b.z - a.z * b.y,
  y: a.z * b.x - a.x * b.z,
  z: a.x * b.y - a.y * b.x,
})

export const minus3 = (a: Point3, b: Point3): Point3 => ({ x: a.x - b.x, y: a.y - b.y, z: a.z - b.z })

export const scale3 = (a: Point3, k: number): Point3 => ({ x: k * a.x, y: k * a.y, z: k * a.z })

/** A seat parallel to the plate's face at height z, mm; (u, v) are the plate's (x, y). */
export const plateSeat = (z: number): Seat => ({
  origin: { x: 0, y: 0, z },
  u: { x: 1, y: 0, z: 0 },
  v: { x: 0, y: 1, z: 0 },
  n: { x: 0, y: 0, z: 1 },
})

/** A seat by its origin, its outward normal and a direction that u follows as nearly as the seat lets it. */
export function seatFrame(origin: Point3, normal: Point3, along: Point3): Seat {
  const n = scale3(normal, 1 / Math.hypot(normal.x, normal.y, normal.z))
  const flat = minus3(along, scale3(n, dot3(along, n)))
  const u = scale3(flat, 1 / Math.hypot(flat.x, flat.y, flat.z))
  return { origin, u, v: cross3(n, u), n }
}

/** A point of the plate's frame as (x, y) = (u, v) in the seat and z = height over it, mm. */
export function toSeat(seat: Seat, p: Point3): Point3 {
  const r = minus3(p, seat.origin)
  return { x: dot3(r, seat.u), y: dot3(r, seat.v), z: dot3(r, seat.n) }
}

/** A place (u, v) in the seat as a point of the plate's frame, mm. */
export function fromSeat({ origin, u, v }: Seat, p: Point): Point3 {
  return {
    x: origin.x + p.x * u.x + p.y * v.x,
    y: origin.y + p.x * u.y + p.y * v.y,
    z: origin.z + p.x * u.z + p.y * v.z,
  }
}
