/** A vee as a loose block on a shelf: as it looks from there, and as it stands before the plate. */
import { directionOf } from '../geometry/angles.ts'
import { rectRing } from '../geometry/edges.ts'
import { outOf, type Pose } from '../geometry/space/pose.ts'
import type { Point, Ring } from '../geometry/types.ts'
import type { Plate, Vee } from '../job/schema.ts'
import { fasten } from './fastening.ts'
import { stationOver } from './fixtures.ts'
import { pieceOf } from './piece.ts'
import { asWeighed, veeSolids } from './shelfSolids.ts'
import type { MountedPiece, MountedSolid } from './types.ts'

/** What of a block lies on its shelf. @param at where its end that looks to the plate has its middle. */
export const blockFoot = ({ size: [across, , out] }: Vee, at: Point): Ring =>
  rectRing({ x: at.x, y: at.y + out / 2 }, across, out, 0)

/** Its frame is the plate's, its lands look along x. */
const UNMOVED = { x: 0, y: 0 }

/**
 * As it looks from the shelf: an upright block, its mouth left open, for its bolts and for what stands beside it.
 * @param face the shelf, looked at as if it were the plate.
 */
export function blockOnShelf(face: Plate, item: Vee, at: Point): MountedPiece {
  const [, deep, length] = item.size
  const own = asWeighed(item, veeSolids({ ...item, facing: 0 }, UNMOVED))
  const mass = own.reduce((sum, s) => sum + s.mass, 0)
  const height = deep + own.reduce((sum, s) => sum + s.mass * s.massCentre.x, 0) / mass
  const main: MountedSolid = {
    role: 'fixture',
    ring: blockFoot(item, at),
    holes: [rectRing({ x: at.x, y: at.y + length / 2 }, item.opening, length, 0)],
    z0: 0,
    z1: deep,
    mass,
    massCentre: { x: at.x, y: at.y + length / 2, z: height },
  }
  const bolts = item.bolts.map((bolt) => {
    const point = { x: at.x + (bolt.at?.x ?? 0), y: at.y + (bolt.at?.y ?? 0) }
    return fasten(face, stationOver(face, point), point, bolt, deep)
  })
  const solids = [main, ...bolts.flatMap((b) => b.solids)]
  return { ...pieceOf(item, at, OUTWARD, main, solids, null), fastenings: bolts.map((b) => b.fastening) }
}

/** Degrees in the shelf's frame: away from the plate. */
const OUTWARD = 90

/** Its own solids where it stands. @param pose of the shelf. @param at its station there. */
export function blockBefore(pose: Pose, item: Vee, at: Point): MountedSolid[] {
  const lands = outOf(pose, { x: at.x, y: 0, z: item.size[1] })
  return asWeighed(item, veeSolids({ ...item, facing: directionOf(pose.n) }, lands, at.y))
}
