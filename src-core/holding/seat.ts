/**
 * The flat seat of a joint: a pose in the plate's frame. n points out of the seat into the body that sits on it, u and v
 * lie in the seat. Places in the seat are (u, v) in mm from its origin.
 */
import { UPRIGHT, type Pose } from '../geometry/space/pose.ts'

export type Seat = Pose

/** A seat parallel to the plate's face at height z, mm; (u, v) are the plate's (x, y). */
export const plateSeat = (z: number): Seat => ({ ...UPRIGHT, origin: { x: 0, y: 0, z } })
