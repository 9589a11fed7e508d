/** Of the stops and pins of a setup: what each bears of the part, or why it holds nothing. */
import type { MassMoments } from '../mass/massMoments.ts'
import type { Hardware } from '../job/schema.ts'
import { isSound } from '../mounting/material.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import type { Backing, Bears } from './backing.ts'
import { keptPer } from '../mounting/kept.ts'
import { pieceRulings } from './pieceRulings.ts'
import { partStand } from './stand.ts'
import { pinContact, stopContact, type Idle, type Touching } from './stopContact.ts'
import { studJoint } from './studJoint.ts'

export interface Backed {
  readonly piece: MountedPiece
  /** Null: it holds nothing, for the reason that `idle` gives. */
  readonly backing: Backing | null
  readonly idle: Idle | null
}

const isKind = <K extends Hardware['kind']>(
  piece: MountedPiece,
  kind: K,
): piece is MountedPiece & { readonly item: Extract<Hardware, { kind: K }> } => piece.item.kind === kind

const touchingOf = keptPer((mounted, piece): Touching | null => {
  const fmt = formatter(mounted.job.displayUnits)
  if (isKind(piece, 'stop')) return stopContact(mounted, piece, fmt)
  return isKind(piece, 'dowel') ? pinContact(mounted, piece, fmt) : null
})

/** @param bodies mass moments of the pieces, in their order. Of a faulty outline none are looked at. */
export function backingsOf(mounted: Mounted, bodies: readonly MassMoments[]): Backed[] {
  if (!isSound(mounted)) return []
  const onPlate = partStand(mounted) === mounted
  return mounted.pieces.flatMap((piece, i): Backed[] => {
    const backs = isKind(piece, 'stop') || isKind(piece, 'dowel')
    if (backs && (!onPlate || piece.shelf)) return [{ piece, backing: null, idle: OFF_PLATE }]
    const touching = touchingOf(mounted, piece)
    if (!touching) return []
    if (!touching.contact) return [{ piece, backing: null, idle: touching }]
    const bears = bearsOf(mounted, piece, bodies[i]!)
    if (!bears) return [{ piece, backing: null, idle: NOT_HELD }]
    return [{ piece, backing: { id: piece.item.id, contact: touching.contact, bears }, idle: null }]
  })
}

/** What a stop bears of a part on a shelf is not reckoned: it counts as nothing, which is on the safe side. */
const OFF_PLATE: Idle = {
  contact: null,
  why: 'is not counted where the part or it stands on a shelf',
  cure: 'Let clamps alone hold the part there',
}

const NOT_HELD: Idle = {
  contact: null,
  why: 'is not held for certain itself',
  cure: 'Give or mend what is said of its bolt',
}

function bearsOf(mounted: Mounted, piece: MountedPiece, body: MassMoments): Bears | null {
  if (isKind(piece, 'dowel')) {
    const { item, mass, massCentre } = piece
    return { pin: { diameter: item.diameter, mass, radius: Math.hypot(massCentre.x, massCentre.y) } }
  }
  if (pieceRulings(mounted, piece).some((r) => r.makes !== null)) return null
  const built = studJoint(mounted, piece, body)
  return built?.input && built.unknown.length === 0 ? { joint: built.input } : null
}
