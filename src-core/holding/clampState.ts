/** Whether each clamp, press and bolt through the part presses it, how hard and where. */
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { called, finding, type Finding } from '../findings/finding.ts'
import { polar } from '../geometry/angles.ts'
import { circleRing } from '../geometry/edges.ts'
import type { Point } from '../geometry/types.ts'
import { strapForce } from '../hardware/preload.ts'
import { toeLength } from '../hardware/toe.ts'
import { isClamp } from '../job/schema.ts'
import { isSound } from '../mounting/material.ts'
import { pressPoint } from '../mounting/press.ts'
import { findingsInPlate } from '../mounting/shelf.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { keptPer } from '../mounting/kept.ts'
import { packingItems } from './packing.ts'
import { partContact } from './partContact.ts'
import { pieceRulings } from './pieceRulings.ts'
import { mostPull, preloadOf, type Preload } from './preloadOf.ts'
import { pressRulings } from './pressContact.ts'
import { findingsOf, type Ruling } from './ruling.ts'
import { partStand, pressesOnto, standOf, standWords } from './stand.ts'
import { strapCarries } from './strapStrength.ts'
import { roofRulings } from './roofBends.ts'
import { supportRulings, type Press } from './support.ts'
import { isBlocked, washerRulings } from './washerContact.ts'

export type Holding = 'holds' | 'nothing' | 'unknown'

export interface ClampState {
  readonly piece: MountedPiece
  /** 'nothing': known not to hold. 'unknown' counts as holding nothing. */
  readonly state: Holding
  /**
   * N on the work at both sides of the preload's scatter, after the strap's lever; `low` never more than proof load or
   * strap carry, `high` not held to them, for it counts only where it harms. 0 where it is not known.
   */
  readonly low: number
  readonly high: number
  /** N of the stud itself; null where it is not known. */
  readonly preload: { readonly low: number; readonly high: number; readonly proof: number } | null
  /** Where it presses, plate frame. */
  readonly at: Point
  readonly findings: readonly Finding[]
}

/**
 * Of all that presses the part on its seat, in the order of the setup; each piece and place as it looks from what the
 * part stands on, findings as seen from in front of the plate.
 */
export function clampStates(mounted: Mounted): readonly ClampState[] {
  const clamps = mounted.pieces.filter((p) => isClamp(p.item))
  if (!isSound(mounted)) return clamps.map((piece) => notLookedAt(piece))
  const seat = partStand(mounted)
  return clamps.map((piece) => {
    const { stand, seen } = standOf(mounted, piece)
    if (!pressesOnto(seat, stand)) return { ...offSeat(mounted, piece, seat), piece }
    const state = stateOf(stand, seen)
    return { ...state, findings: findingsInPlate(stand, state.findings), piece: seen }
  })
}

/** One that stands elsewhere does not press the part on what carries it. */
function offSeat(mounted: Mounted, piece: MountedPiece, seat: Mounted): ClampState {
  const { item, at } = piece
  const message = `${called(item)} does not press the part on ${standWords(seat)}, which carries it: it stands on ${piece.shelf ?? 'the plate'}. It counts as holding nothing, and whether it bends or tips the part is not known. Stand it on ${standWords(seat)}.`
  return {
    ...notLookedAt(piece),
    state: 'nothing',
    findings: [finding('stop', 'clamp-off-seat', item.id, message, at)],
  }
}

/** Of an outline that is being drawn badly: that is said elsewhere. */
const notLookedAt = (piece: MountedPiece): ClampState => ({
  piece,
  state: 'unknown',
  low: 0,
  high: 0,
  preload: null,
  at: pressedAt(piece),
  findings: [],
})

type Judged = Omit<ClampState, 'piece'>

/** What carries the part hangs on every piece of packing. */
const stateOf = keptPer(clampState, packingItems)

function clampState(mounted: Mounted, piece: MountedPiece): Judged {
  const { item, toe } = piece
  const at = pressedAt(piece)
  const { preload, missing } = preloadOf('stud' in item ? item : { stud: {} }, uncertaintiesOf(mounted.job))
  const force = preload ? onWork(piece, preload) : { low: 0, high: 0 }
  const own = [...pieceRulings(mounted, piece), ...contactRulings(mounted, piece)]
  const off = own.some((r) => r.finding.code === 'toe-off' || r.finding.code === 'washer-off')
  const rulings: Ruling[] = [...own, ...(off ? [] : carriedRulings(mounted, piece, force.high))]
  const lacks = lacking(piece, missing)
  const makes = (what: Ruling['makes']) => rulings.some((r) => r.makes === what)
  const blocked = item.kind === 'bolt' && isBoltBlocked(mounted, piece)
  let state: Holding = 'holds'
  if (lacks.length > 0 || item.kind === 'press' || makes('unknown')) state = 'unknown'
  if (makes('nothing') || blocked) state = 'nothing'
  return {
    state,
    low: state === 'holds' ? force.low : 0,
    high: state === 'nothing' ? 0 : force.high,
    preload: preload && { low: preload.low, high: preload.high, proof: preload.proof },
    at,
    findings: [
      ...findingsOf(rulings),
      ...(state === 'unknown' ? unknownFindings(piece, lacks, toe ? toe.at : at) : []),
    ],
  }
}

/**
 * N on the work. Its low side reckons with the strap's end, which is the longer lever, and is never more than the
 * strap carries; its high side with where the toe's pad begins.
 */
function onWork({ item, toe }: MountedPiece, preload: Preload): { low: number; high: number } {
  if (item.kind !== 'clamp' || !toe) return preload
  if (toe.toHeel === null) return { low: 0, high: 0 }
  const nearest = Math.max(0, toe.toWork - toeLength(item.strap))
  return {
    low: Math.min(strapForce(preload.low, toe.toWork, toe.toHeel), strapCarries(item.strap)),
    high: strapForce(preload.high, nearest, toe.toHeel),
  }
}

function lacking({ item, toe, fastenings }: MountedPiece, missing: readonly string[]): string[] {
  if (item.kind === 'press') return []
  return [
    ...missing,
    ...(toe && toe.toHeel === null ? ['heel not given'] : []),
    ...(toe && toe.toHeel !== null && toe.heel === null ? ["the heel's height not given"] : []),
    ...(fastenings.some((f) => f.length === null) ? ["the stud's length not given"] : []),
  ]
}

function unknownFindings({ item }: MountedPiece, lacks: readonly string[], at: Point): Finding[] {
  const name = called(item)
  const say = (message: string) => [finding('caution', 'clamp-not-judged', item.id, message, at)]
  if (item.kind === 'press')
    return say(
      `What ${name} presses on is not known. It counts as holding nothing: put a clamp with its strap, stud and heel in its place. Whether it stays on itself is not known.`,
    )
  if (lacks.length === 0) return []
  return say(
    `${name} is not judged: ${lacks.join(', ')}. It counts as holding nothing, and whether it stays on itself is not known.`,
  )
}

/** What it presses on. A toe is looked at with its piece. */
const contactRulings = keptPer((mounted, piece): readonly Ruling[] => {
  const { item, fastenings } = piece
  if (item.kind === 'press') {
    // Which way it faces is not known where neither nose nor direction is given.
    const known = pressPoint(piece) !== null || (item.facing !== undefined && item.press?.boltToWork)
    return known ? pressRulings(mounted, piece, pressedAt(piece)) : []
  }
  if (item.kind !== 'bolt' || !fastenings[0]) return []
  const { preload } = preloadOf(item, uncertaintiesOf(mounted.job))
  return washerRulings(mounted, piece, fastenings[0], mostPull(preload))
})

const isBoltBlocked = keptPer(
  (mounted, { at, fastenings: [f] }) =>
    f !== undefined && f.thread !== null && isBlocked(mounted, at, f.thread.diameter, f.grip),
)

/** What carries the part under it. */
function carriedRulings(mounted: Mounted, piece: MountedPiece, high: number): Ruling[] {
  const { item, toe, at, fastenings } = piece
  const contact = partContact(mounted)
  const under = (press: Press) => {
    const rulings = supportRulings(mounted, piece, press, contact, high)
    return rulings.length > 0 ? rulings : roofRulings(mounted, piece, press, high)
  }
  if (item.kind === 'clamp' && toe?.rest) return under({ ...toe, z: toe.rest.z, width: item.strap.width })
  const [fastening] = fastenings
  if (item.kind !== 'bolt' || !fastening) return []
  const width = fastening.washer.diameter
  return under({ pad: circleRing(at, width), at, z: fastening.grip, width })
}

/** As known, else from its bolt along its length. */
function pressedAt(piece: MountedPiece): Point {
  const known = pressPoint(piece)
  if (known) return { x: known.x, y: known.y }
  const { item, at, facing } = piece
  const out = polar((item.kind === 'press' && item.press?.boltToWork) || 0, facing)
  return { x: at.x + out.x, y: at.y + out.y }
}
