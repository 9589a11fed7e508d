/**
 * Isometric projection (ISO 5456-3): the three axes 120° apart and of one scale. Seen from the tailstock, from above and
 * from the operator's side, so the direction toward the eye is (-1, 1, 1) of the plate frame.
 */
import { into, type Pose } from '../../geometry/space/pose.ts'
import type { Point, Point3 } from '../../geometry/types.ts'

const COS = Math.cos(Math.PI / 6)
const SIN = 0.5

/** How a set-up is looked at. */
export interface Eye {
  /** Place on the picture. */
  readonly project: (p: Point3) => Point
  /** How near the eye a point is; only differences count. */
  readonly nearness: (p: Point3) => number
}

/** Place on the picture, one unit a mm along each axis. */
export const project = ({ x, y, z }: Point3): Point => ({ x: (x + z) * COS, y: y + (x - z) * SIN })

/** How near the eye a point is; only differences count. */
export const nearness = ({ x, y, z }: Point3): number => y + z - x

export const ISOMETRIC: Eye = { project, nearness }

/** Against a face's normal, its u to the right and its v up, from its origin. */
export const squareTo = (face: Pose): Eye => ({
  project: (p) => {
    const { x, y } = into(face, p)
    return { x, y }
  },
  nearness: (p) => into(face, p).z,
})

/** How much a direction goes toward the eye: above 0 for a face's normal where it is seen. */
export const towards = (eye: Eye, way: Point3): number =>
  eye.nearness(way) - eye.nearness({ x: 0, y: 0, z: 0 })
