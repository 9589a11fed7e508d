/** What a part stands on that does not lie flat: angle plates and vees, and the frame of their shelf or lands. */
import type { Finding } from '../findings/finding.ts'
import { facingPose } from '../geometry/space/facing.ts'
import { outOf, type Pose } from '../geometry/space/pose.ts'
import type { Point } from '../geometry/types.ts'
import { isShelf, type Hardware, type Plate, type Setup, type Shelf } from '../job/schema.ts'
import { stationPoint } from './station.ts'
import type { Mounted } from './types.ts'

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

/** A place of what is looked at, as seen from in front of the plate. */
export function placeInPlate({ shelf }: Pick<Mounted, 'shelf'>, { x, y }: Point): Point {
  if (!shelf) return { x, y }
  const at = outOf(shelf.pose, { x, y })
  return { x: at.x, y: at.y }
}

/** Findings made on what is looked at, with their places as seen from in front of the plate. */
export const findingsInPlate = <F extends Finding>(
  mounted: Pick<Mounted, 'shelf'>,
  findings: readonly F[],
): readonly F[] =>
  mounted.shelf ? findings.map((f) => (f.at ? { ...f, at: placeInPlate(mounted, f.at) } : f)) : findings
