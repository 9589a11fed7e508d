/** Pieces that lie one upon the other at one place, of which only the uppermost is seen from the front. */
import { flattenRing } from '../../geometry/flatten.ts'
import { isInside, nearestTo } from '../../geometry/nearest.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import type { Ring } from '../../geometry/types.ts'
import type { MountedPiece } from '../../mounting/types.ts'

/** Piece by piece, by index: the ones right under it, uppermost first; null for one that lies under another itself. */
export function pilesOf(pieces: readonly MountedPiece[]): (readonly number[] | null)[] {
  const byHeight = [...pieces.keys()].sort((a, b) => pieces[b]!.z1 - pieces[a]!.z1)
  const under: (number[] | null)[] = pieces.map(() => [])
  for (const i of byHeight) {
    const top = byHeight.find(
      (k) => k !== i && under[k] !== null && under[i]!.length === 0 && liesUpon(pieces[k]!, pieces[i]!),
    )
    if (top === undefined) continue
    under[top]!.push(i)
    under[i] = null
  }
  return under
}

const liesUpon = (upper: MountedPiece, lower: MountedPiece): boolean =>
  Math.hypot(upper.at.x - lower.at.x, upper.at.y - lower.at.y) < TOLERANCE.gap &&
  upper.z0 > lower.z1 - TOLERANCE.height &&
  within(lower.footprint, upper.footprint)

const within = (ring: Ring, outer: Ring): boolean =>
  flattenRing(ring, TOLERANCE.clashChord).every(
    (p) => isInside(outer, p) || nearestTo(outer, p).distance < TOLERANCE.gap,
  )
