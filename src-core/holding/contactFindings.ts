/** What contact, support, reach, fit and strength say of a mounted setup. */
import type { Finding } from '../findings/finding.ts'
import { isClamp } from '../job/schema.ts'
import { isSound } from '../mounting/material.ts'
import { findingsInPlate } from '../mounting/shelf.ts'
import type { Mounted } from '../mounting/types.ts'
import type { ClampState } from './clampState.ts'
import { holeFindings } from './holeUse.ts'
import { packingFindings } from './packingContact.ts'
import { pieceRulings } from './pieceRulings.ts'
import { findingsOf } from './ruling.ts'
import { standing, standsOf } from './stand.ts'
import { boltPlaces } from './studFit.ts'
import { twinFindings } from './twinJoint.ts'

/** @param states of its clamps. Nothing is looked at while an outline of the part is faulty. */
export function contactFindings(mounted: Mounted, states: readonly ClampState[]): readonly Finding[] {
  if (!isSound(mounted)) return []
  return [
    ...states.flatMap((s) => s.findings),
    ...standsOf(mounted).flatMap((stand) => findingsInPlate(stand, findingsOn(stand))),
  ]
}

/** Of what stands on the plate, or on a shelf that is looked at as if it were the plate. */
function findingsOn(stand: Mounted): Finding[] {
  const others = standing(stand).filter((p) => !isClamp(p.item))
  return [
    ...others.flatMap((p) =>
      p.item.kind === 'twin' ? twinFindings(stand, p, p.item) : findingsOf(pieceRulings(stand, p)),
    ),
    ...holeFindings(stand, boltPlaces(stand)),
    ...packingFindings(stand),
  ]
}
