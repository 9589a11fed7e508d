/** What a strap can carry at its bolt. */
import { called, finding } from '../findings/finding.ts'
import { findStrapSteel, WEAKEST_STEEL } from '../hardware/steels.ts'
import type { Clamp, Strap } from '../job/schema.ts'
import type { Mounted, MountedPiece, MountedToe } from '../mounting/types.ts'
import { formatter, plain } from '../units/format.ts'
import { strapForce } from './preload.ts'
import type { Preload } from './preloadOf.ts'
import type { Ruling } from './ruling.ts'

/** mm³: section modulus of a strap at its bolt, less the opening: (w − o)·t²/6. */
export const strapModulus = ({ width, opening, thickness }: Strap): number =>
  (Math.max(0, width - opening) * thickness ** 2) / 6

/** N at the toe that yields the strap at its bolt: M = F·a = σ·(w − o)·t²/6, a bolt to work in mm. */
export function strapCarries(strap: Strap): number {
  const steel = findStrapSteel(strap.steel ?? '') ?? WEAKEST_STEEL
  return (steel.yieldsAt * strapModulus(strap)) / strap.boltFrom
}

/** Over yield at the high side of the preload: stop, with the torque that fits. */
export function strapRulings(
  mounted: Mounted,
  piece: MountedPiece,
  item: Clamp,
  toe: MountedToe,
  preload: Preload,
): Ruling[] {
  if (toe.toHeel === null) return []
  const carries = strapCarries(item.strap)
  const high = strapForce(preload.high, toe.toWork, toe.toHeel)
  if (high <= carries * (1 + 1e-9)) return []
  const fmt = formatter(mounted.job.displayUnits)
  const steel = findStrapSteel(item.strap.steel ?? '')
  const fits = ((item.torque ?? 0) * carries) / high
  const cure =
    carries > 0
      ? `Tighten to ${fmt.torque(Math.floor(fits * 10) / 10)} or less, bring the bolt nearer to the work, or use a thicker strap`
      : 'Use a wider strap'
  const steelWords = `${steel ? steel.name : `its steel counts as the weakest, ${WEAKEST_STEEL.name}`}, yields at ${plain((steel ?? WEAKEST_STEEL).yieldsAt, 0)} N/mm²`
  const message = `The strap of ${called(item)} bends: it carries ${fmt.force(carries)} at its toe and would get ${fmt.force(high)}. ${cure}; bolt ${fmt.length(toe.toWork)} from the work, ${steelWords}.`
  return [{ finding: finding('stop', 'strap-yields', item.id, message, piece.at), makes: null }]
}
