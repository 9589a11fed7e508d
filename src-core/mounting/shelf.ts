/**
 * What a part stands on that does not lie flat: angle plates and vees, and the frame of their shelf or lands. A vee is
 * bolted to the plate by its foot, or is a block on the shelf of an angle plate and then looks as that does.
 */
import { keptLast } from '../geometry/kept.ts'
import type { Finding } from '../findings/finding.ts'
import { facingPose } from '../geometry/space/facing.ts'
import { outOf, type Pose } from '../geometry/space/pose.ts'
import type { Point } from '../geometry/types.ts'
import {
  isShelf,
  type AnglePlate,
  type Hardware,
  type OnFixture,
  type Plate,
  type Setup,
  type Shelf,
  type Vee,
} from '../job/schema.ts'
import { platePoint } from './platePoint.ts'
import type { Mounted } from './types.ts'

/** A vee that lies on a shelf. */
export type VeeBlock = Vee & { readonly at: Extract<OnFixture, { along: unknown }> }

export const isVeeBlock = (item: Hardware): item is VeeBlock => item.kind === 'vee' && 'along' in item.at

/** The angle plate that a vee lies on as a block; null for all else. */
export function shelfOfBlock(hardware: readonly Hardware[], item: Hardware): AnglePlate | null {
  if (!isVeeBlock(item)) return null
  return hardware.filter((h) => h.kind === 'anglePlate').find((h) => h.id === item.at.on) ?? null
}

/** Of an angle plate its shelf's face, of a vee its lands; the origin in the plate's face. */
export function poseOfShelf(plate: Plate, item: Shelf, hardware: readonly Hardware[]): Pose {
  const under = shelfOfBlock(hardware, item)
  if (!under || !isVeeBlock(item)) return facingPose(platePoint(plate, item.at), item.facing)
  const pose = poseOfShelf(plate, under, [])
  return { ...pose, origin: outOf(pose, { x: item.at.along, y: 0, z: item.size[1] }) }
}

/** mm from the plate's face to where its shelf or lands begin: 0 but of a block on a shelf. */
export const standsOut = (item: Shelf): number => (isVeeBlock(item) ? item.at.out : 0)

/** The slots of an angle plate's shelf; a vee has none. */
export const slotsOf = (item: Shelf): AnglePlate['slots'] => (item.kind === 'anglePlate' ? item.slots : [])

/** mm of material behind its face: an angle plate's thickness, a vee from its lands to its back. */
export const depthOf = (item: Shelf): number => (item.kind === 'anglePlate' ? item.thickness : item.size[1])

/** Its holes as its frame has them: those of a block count from its own end. */
export function holesInFrame(item: Shelf): Shelf['holes'] {
  const out = standsOut(item)
  return out === 0 ? item.holes : item.holes.map((h) => ({ ...h, y: h.y + out }))
}

const stood = keptLast<Vee, Vee>()

/** A block on a shelf looks where that looks; an object of its own as long as both are the same. */
function asItStands(hardware: readonly Hardware[], item: Shelf): Shelf {
  const under = shelfOfBlock(hardware, item)
  if (!under || item.kind !== 'vee') return item
  return stood(item, [under], () => ({ ...item, facing: under.facing }))
}

/** The angle plates and vees of a setup, each facing as it stands. */
export const shelvesOf = ({ hardware }: Pick<Setup, 'hardware'>): Shelf[] =>
  hardware.filter(isShelf).map((h) => asItStands(hardware, h))

/** One of them by its id; null where there is none. */
export function shelfNamed(hardware: readonly Hardware[], id: string): Shelf | null {
  const item = hardware.filter(isShelf).find((h) => h.id === id)
  return item ? asItStands(hardware, item) : null
}

/** The angle plate or vee that the part is seated on; null where it stands flat. */
export const seatShelf = ({ seat, hardware }: Pick<Setup, 'seat' | 'hardware'>): Shelf | null =>
  seat ? shelfNamed(hardware, seat.on) : null

/** The angle plate or vee that a piece stands on; null for one that stands on the plate or a sub-plate. */
export const shelfUnder = (hardware: readonly Hardware[], item: Hardware): Shelf | null =>
  'at' in item && 'on' in item.at ? shelfNamed(hardware, item.at.on) : null

/** Whether a shelf carries another or what stands there: itself, or the block on it. @param on what something stands on. */
export const carries = (hardware: readonly Hardware[], shelf: Shelf, on: Shelf | null): boolean =>
  on !== null && (on.id === shelf.id || shelfOfBlock(hardware, on)?.id === shelf.id)

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
