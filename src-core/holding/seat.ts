/**
 * The flat seat of a joint: a pose in the plate's frame. n points out of the seat into the body that sits on it, u and v
 * lie in the seat. Places in the seat are (u, v) in mm from its origin.
 */
import { into, outOf, poseOf, type Pose } from '../geometry/space/pose.ts'
import type { Point, Point3 } from '../geometry/types.ts'

export { cross3, dot3, minus3 } from '../geometry/space/vector.ts'

export type Seat = Pose

/** A seat parallel to the plate's face at height z, mm; (u, v) are the plate's (x, y). */
export const plateSeat = (z: number): Seat => ({
  origin: { x: 0, y: 0, z },
  u: { x: 1, y: 0, z: 0 },
  v: { x: 0, y: 1, z: 0 },
  n: { x: 0, y: 0, z: 1 },
})

/** A seat by its origin, its outward normal and a direction that u follows as nearly as the seat lets it. */
export const seatFrame = poseOf

/** A point of the plate's frame as (x, y) = (u, v) in the seat and z = height over it, mm. */
export const toSeat = into

/** A place (u, v) in the seat as a point of the plate's frame, mm. */
export const fromSeat = (seat: Seat, { x, y }: Point): Point3 => outOf(seat, { x, y, z: 0 })
