/** What contact, support, reach, fit and strength say of a mounted setup. */
import type { Finding } from '../findings/finding.ts'
import { isClamp } from '../job/schema.ts'
import { isSound } from '../mounting/material.ts'
import type { Mounted } from '../mounting/types.ts'
import type { ClampState } from './clampState.ts'
import { holeFindings } from './holeUse.ts'
import { packingFindings } from './packingContact.ts'
import { pieceRulings } from './pieceRulings.ts'
import { findingsOf } from './ruling.ts'
import { boltPlaces } from './studFit.ts'
import { twinFindings } from './twinJoint.ts'

/** @param states of its clamps. Nothing is looked at while an outline of the part is faulty. */
export function contactFindings(mounted: Mounted, states: readonly ClampState[]): readonly Finding[] {
  if (!isSound(mounted)) return []
  const others = mounted.pieces.filter((p) => !isClamp(p.item))
  return [
    ...states.flatMap((s) => s.findings),
    ...others.flatMap((p) =>
      p.item.kind === 'twin' ? twinFindings(mounted, p, p.item) : findingsOf(pieceRulings(mounted, p)),
    ),
    ...holeFindings(mounted, boltPlaces(mounted)),
    ...packingFindings(mounted),
  ]
}
