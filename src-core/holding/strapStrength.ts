/** What a strap can carry at its bolt. */
import { called, finding } from '../findings/finding.ts'
import { findStrapSteel, strapYield, WEAKEST_STEEL } from '../hardware/steels.ts'
import { greatestToeForce } from '../hardware/straps.ts'
import type { Clamp, Strap } from '../job/schema.ts'
import type { Mounted, MountedPiece, MountedToe } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { strapForce } from '../hardware/preload.ts'
import type { Preload } from './preloadOf.ts'
import type { Ruling } from './ruling.ts'

/** N at its toe that yields a strap at its bolt; a steel left out or not known counts as the weakest. */
export const strapCarries = (strap: Strap): number =>
  greatestToeForce(strap, strap.boltFrom, strapYield(strap.steel))

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
  const steelWords = `${steel ? steel.name : `its steel counts as the weakest, ${WEAKEST_STEEL.name}`}, yields at ${fmt.stress(strapYield(item.strap.steel))}`
  const message = `The strap of ${called(item)} bends: it carries ${fmt.force(carries)} at its toe and would get ${fmt.force(high)}. ${cure}; bolt ${fmt.length(toe.toWork)} from the work, ${steelWords}.`
  return [{ finding: finding('stop', 'strap-yields', item.id, message, piece.at), makes: null }]
}
