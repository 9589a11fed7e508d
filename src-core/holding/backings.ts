/** Of the stops and pins of a setup: what each bears of the part, or why it holds nothing. */
import { isFlat } from '../clearance/inSpace.ts'
import { UPRIGHT } from '../geometry/space/pose.ts'
import type { MassMoments } from '../mass/massMoments.ts'
import type { Hardware } from '../job/schema.ts'
import { isSound } from '../mounting/material.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import type { Backing, Bears } from './backing.ts'
import { keptPer } from '../mounting/kept.ts'
import { pieceRulings } from './pieceRulings.ts'
import { partStand, standOf, standWords } from './stand.ts'
import { PIN_PLAY, pinContact, stopContact, type Idle, type Touching } from './stopContact.ts'
import { studJoint } from './studJoint.ts'
import { isReallyThere } from './trueSide.ts'

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
  const seat = partStand(mounted)
  return mounted.pieces.flatMap((piece, i): Backed[] => {
    if (!isKind(piece, 'stop') && !isKind(piece, 'dowel')) return []
    const { stand, seen } = standOf(mounted, piece)
    const idle = stand === seat ? seat.shelf?.item.kind === 'vee' && IN_VEE : offSeat(seat)
    if (idle) return [{ piece, backing: null, idle }]
    const touching = touchingOf(stand, seen)
    if (!touching) return []
    const { contact } = touching
    if (!contact) return [{ piece, backing: null, idle: touching }]
    const pose = stand.shelf?.pose ?? UPRIGHT
    const guided = piece.item.kind === 'dowel' ? piece.item.diameter / 2 + PIN_PLAY : 0
    if (!isFlat(mounted) && !isReallyThere(mounted, pose, contact, guided))
      return [{ piece, backing: null, idle: NO_FLAT }]
    const bears = bearsOf(stand, piece, seen, bodies[i]!)
    if (!bears) return [{ piece, backing: null, idle: NOT_HELD }]
    return [{ piece, backing: { id: piece.item.id, pose, contact, bears }, idle: null }]
  })
}

/** What a stop bears of a round in a vee is not reckoned: it counts as nothing, which is on the safe side. */
const IN_VEE: Idle = {
  contact: null,
  why: 'is not counted where the part lies in a vee',
  cure: 'Let straps alone hold the part there',
}

const offSeat = (seat: Mounted): Idle => ({
  contact: null,
  why: `does not stand on ${standWords(seat)}, which carries the part`,
  cure: `Stand it on ${standWords(seat)}`,
})

const NO_FLAT: Idle = {
  contact: null,
  why: 'meets no side of the part that stands square to what it stands on',
  cure: 'Bring it against one that does',
}

const NOT_HELD: Idle = {
  contact: null,
  why: 'is not held for certain itself',
  cure: 'Give or mend what is said of its bolt',
}

/** @param stand what it stands on, looked at as the plate, and `seen` the piece there. */
function bearsOf(stand: Mounted, piece: MountedPiece, seen: MountedPiece, body: MassMoments): Bears | null {
  if (isKind(piece, 'dowel')) {
    const { item, mass, massCentre } = piece
    return { pin: { diameter: item.diameter, mass, radius: Math.hypot(massCentre.x, massCentre.y) } }
  }
  if (pieceRulings(stand, seen).some((r) => r.makes !== null)) return null
  const built = studJoint(stand, seen, body)
  return built?.input && built.unknown.length === 0 ? { joint: built.input } : null
}
