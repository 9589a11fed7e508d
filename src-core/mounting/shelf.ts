/** What a part stands on that does not lie flat: angle plates and vees, and the frame of their shelf or lands. */
import { facingPose } from '../geometry/space/facing.ts'
import type { Pose } from '../geometry/space/pose.ts'
import type { Point, Point3 } from '../geometry/types.ts'
import { isShelf, type Hardware, type Plate, type Setup, type Shelf } from '../job/schema.ts'
import { stationPoint } from './station.ts'

/** Of an angle plate its shelf's face, of a vee its lands. */
export const poseOfShelf = (plate: Plate, item: Shelf): Pose =>
  facingPose(stationPoint(plate, item.at, []), item.facing)

export const shelvesOf = ({ hardware }: Pick<Setup, 'hardware'>): Shelf[] => hardware.filter(isShelf)

export const shelfNamed = (hardware: readonly Hardware[], id: string): Shelf | null =>
  hardware.filter(isShelf).find((h) => h.id === id) ?? null

/** The angle plate or vee that the part is seated on; null where it stands flat. */
export const seatShelf = ({ seat, hardware }: Pick<Setup, 'seat' | 'hardware'>): Shelf | null =>
  seat ? shelfNamed(hardware, seat.on) : null

/** The angle plate or vee that a piece stands on; null for one that stands on the plate or a sub-plate. */
export const shelfUnder = (hardware: readonly Hardware[], item: Hardware): Shelf | null =>
  'at' in item && 'on' in item.at ? shelfNamed(hardware, item.at.on) : null

/** Where on a shelf a station of it is: along, and out from the plate. Throws RangeError on an unknown hole. */
export function shelfStation(shelf: Shelf, at: { hole: string } | { along: number; out: number }): Point {
  if ('along' in at) return { x: at.along, y: at.out }
  const hole = shelf.holes.find((h) => h.id === at.hole)
  if (!hole) throw new RangeError(`no hole ${at.hole} of ${shelf.id}`)
  return { x: hole.x, y: hole.y }
}

/** A place of a shelf, plate frame; `z` is the height over its face. */
export const onShelf = (plate: Plate, item: Shelf, p: Point3): Point3 => {
  const { origin, u, n } = poseOfShelf(plate, item)
  return {
    x: origin.x + p.x * u.x + p.z * n.x,
    y: origin.y + p.x * u.y + p.z * n.y,
    z: p.y,
  }
}
