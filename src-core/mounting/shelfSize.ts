/** The size from a shelf to the axis: as it stands, and as the part that lies on it wants it. */
import { dot3 } from '../geometry/space/vector.ts'
import type { Mounted } from './types.ts'

export interface ShelfSize {
  /** mm from the axis down to the shelf's face; below 0 where the face lies beyond the axis. */
  readonly stands: number
  /** The same at which the part lies on it, on its packing or in the vee; null where nothing of it could. */
  readonly wanted: number | null
}

/** @param view the setup as it looks from the shelf that the part is seated on. */
export function shelfSize({ shelf, bodies, seat }: Mounted): ShelfSize | null {
  if (!shelf) return null
  const stands = -dot3(shelf.pose.origin, shelf.pose.n) || 0
  if (shelf.item.kind === 'vee') {
    const { round } = shelf
    const off = round?.lies === false && round.why === 'off' ? round.off : round?.lies ? 0 : null
    return { stands, wanted: off === null ? null : stands - off }
  }
  const heights = bodies.filter((b) => b.body.effect === 'adds').map((b) => b.z0)
  const lowest = Math.min(...heights)
  return { stands, wanted: heights.length === 0 ? null : stands - (lowest - seat) }
}
