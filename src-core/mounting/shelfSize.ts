/** The size from a shelf to the axis: as it stands, and as the part that lies on it wants it. */
import type { Shelf } from '../job/schema.ts'
import type { Mounted } from './types.ts'

export interface ShelfSize {
  /** What is set to it: the angle plate or vee that is bolted to the plate, under a loose block the one below that. */
  readonly of: Shelf
  /** mm from the axis down to the face of that; below 0 where the face lies beyond the axis. */
  readonly stands: number
  /** The same at which the part lies on it, on its packing, in the vee or in the block on it; null where nothing of it could. */
  readonly wanted: number | null
}

/** mm from the axis down to the face that is looked at, of a vee its lands; below 0 where it lies beyond the axis. */
export const faceSize = ({ axis }: Pick<NonNullable<Mounted['shelf']>, 'axis'>): number => axis.height

/** @param view the setup as it looks from the shelf that the part is seated on. */
export function shelfSize({ shelf, bodies, seat }: Mounted): ShelfSize | null {
  if (!shelf) return null
  const { item, under, round } = shelf
  const of = under ?? item
  const stands = faceSize(shelf) + (under ? item.size[1] : 0)
  if (item.kind === 'vee') {
    const off = round?.lies === false && round.why === 'off' ? round.off : round?.lies ? 0 : null
    return { of, stands, wanted: off === null ? null : stands - off }
  }
  const heights = bodies.filter((b) => b.body.effect === 'adds').map((b) => b.z0)
  const lowest = Math.min(...heights, shelf.slantedLow ?? Infinity)
  return { of, stands, wanted: heights.length === 0 ? null : stands - (lowest - seat) }
}

/** mm by which a face or packing may miss what it lies on and still be carried: a sheet of paper. Own choice. */
export const SEAT_PLAY = 0.05

/** mm by which the lowest of the part misses its shelf or the packing on it, above 0 off it; null where nothing is said of it. */
export function missesShelf(view: Mounted): number | null {
  if (!view.shelf?.carriesPart || view.shelf.item.kind === 'vee') return null
  const size = shelfSize(view)
  if (!size || size.wanted === null) return null
  const off = size.stands - size.wanted
  return Math.abs(off) > SEAT_PLAY ? off : null
}
