/** The solids of a piece as they are seen: each weight of a stack by itself, though they turn as one. */
import type { MountedPiece, MountedSolid } from '../../mounting/types.ts'

/** More discs of one kind than this are drawn as one: their lines would run into one. */
const MOST = 40

/** Those of a stack lie one upon the other from the plate up, in the order of the stack. */
export function seenSolids({ item, solids }: MountedPiece): readonly MountedSolid[] {
  if (item.kind !== 'weight') return solids
  let nth = 0
  const counts = item.stack.map((s) => s.count)
  const weights = solids.filter((s) => s.role === 'weight')
  if (weights.length !== counts.length) return solids
  return solids.flatMap((solid) => {
    if (solid.role !== 'weight') return [solid]
    const count = counts[nth++]!
    if (count < 2 || count > MOST) return [solid]
    const each = (solid.z1 - solid.z0) / count
    return Array.from({ length: count }, (_, k) => ({
      ...solid,
      z0: solid.z0 + k * each,
      z1: solid.z0 + (k + 1) * each,
      mass: solid.mass / count,
    }))
  })
}
