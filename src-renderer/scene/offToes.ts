/** Toes that do not lie as they should: wholly on the part, or across the crown of a round in a vee. Work, overlay and side view ask with each move of the pointer: known once for a setup as mounted. */
import { onCrown, toeShortfall } from '../../src-core/holding/toeContact.ts'
import { toeLies } from '../../src-core/mounting/toeLies.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'

interface OffToe {
  /** What the toe lies over, in words. */
  readonly over: string
  /** mm that it is short of the part; null where sliding it in would not help. */
  readonly short: number | null
}

const kept = new WeakMap<Mounted, ReadonlyMap<string, OffToe>>()

/** By the clamp's id. */
export function offToes(mounted: Mounted): ReadonlyMap<string, OffToe> {
  const known = kept.get(mounted)
  if (known) return known
  const off = new Map<string, OffToe>()
  for (const piece of mounted.pieces) {
    if (!piece.toe || onCrown(mounted, piece.toe)) continue
    const over = toeLies(mounted, piece.toe)
    if (over) off.set(piece.item.id, { over, short: toeShortfall(mounted, piece) })
  }
  kept.set(mounted, off)
  return off
}
