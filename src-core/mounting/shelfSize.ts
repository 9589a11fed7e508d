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
  const lowest = Math.min(...heights)
  return { of, stands, wanted: heights.length === 0 ? null : stands - (lowest - seat) }
}
