/**
 * Isometric projection (ISO 5456-3): the three axes 120° apart and of one scale. Seen from the tailstock, from above and
 * from the operator's side, so the direction toward the eye is (-1, 1, 1) of the plate frame.
 */
import type { Point, Point3 } from '../../geometry/types.ts'

const COS = Math.cos(Math.PI / 6)
const SIN = 0.5

/** Place on the picture, one unit a mm along each axis. */
export const project = ({ x, y, z }: Point3): Point => ({ x: (x + z) * COS, y: y + (x - z) * SIN })

/** How near the eye a point is; only differences count. */
export const nearness = ({ x, y, z }: Point3): number => y + z - x
