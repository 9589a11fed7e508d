/** What pieces and part stand on, plate or shelf, and its joints in the plate's own frame. */
import { outOf } from '../geometry/space/pose.ts'
import { poseMass, type MassMoments } from '../mass/massMoments.ts'
import { seatShelf } from '../mounting/shelf.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { plateSeat, type Seat } from './seat.ts'

/** The setup as it looks from what carries the part: itself, or from the shelf of its seat. */
export const partStand = (mounted: Mounted): Mounted => {
  const shelf = seatShelf(mounted.setup)
  return (shelf && mounted.shelves?.find((s) => s.shelf?.item.id === shelf.id)) ?? mounted
}

/** The setup as it looks from what straps over the part stand on: its seat, or the shelf below a loose block. */
export function strapStand(mounted: Mounted): Mounted {
  const seat = partStand(mounted)
  const under = seat.shelf?.under
  return (under && mounted.shelves?.find((s) => s.shelf?.item.id === under.id)) ?? seat
}

/** The setup from each that something stands on: the plate first. */
export const standsOf = (mounted: Mounted): readonly Mounted[] => [mounted, ...(mounted.shelves ?? [])]

/** As it looks from what a piece stands on, and the piece there. */
export function standOf(mounted: Mounted, piece: MountedPiece): { stand: Mounted; seen: MountedPiece } {
  const stand = mounted.shelves?.find((s) => s.shelf?.item.id === piece.shelf)
  const seen = stand?.pieces.find((p) => p.item.id === piece.item.id)
  return stand && seen ? { stand, seen } : { stand: mounted, seen: piece }
}

/** As it looks from what a piece stands on that is seen from there already. */
export const standSeen = (mounted: Mounted, seen: MountedPiece): Mounted =>
  standsOf(mounted).find((s) => s.pieces.includes(seen)) ?? mounted

/**
 * Whether what stands somewhere may press the part on its seat: on the seat itself, or under a loose block on its shelf.
 * @param seat as it looks from what carries the part.
 */
export function pressesOnto(seat: Mounted, stand: Mounted): boolean {
  const under = seat.shelf?.under ?? null
  return stand === seat || (under !== null && stand.shelf?.item.id === under.id)
}

/** The pieces that stand on what is looked at, not on a shelf of it. */
export const standing = ({ pieces }: Pick<Mounted, 'pieces'>): readonly MountedPiece[] =>
  pieces.some((p) => p.shelf) ? pieces.filter((p) => !p.shelf) : pieces

/** A seat at a height over what is looked at; (u, v) are its (x, y). */
export const seatAt = ({ shelf }: Pick<Mounted, 'shelf'>, z: number): Seat =>
  shelf ? { ...shelf.pose, origin: outOf(shelf.pose, { x: 0, y: 0, z }) } : plateSeat(z)

/** Mass moments of what is looked at, about the origin of the plate's frame. */
export const massInPlate = ({ shelf }: Pick<Mounted, 'shelf'>, moments: MassMoments): MassMoments =>
  shelf ? poseMass(moments, shelf.pose) : moments

/** "the plate", "the shelf of A1", "V1". */
export const standWords = ({ shelf }: Pick<Mounted, 'shelf'>): string => {
  if (!shelf) return 'the plate'
  return shelf.item.kind === 'vee' ? shelf.item.id : `the shelf of ${shelf.item.id}`
}
