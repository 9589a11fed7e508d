/** Clamps, packing and weights on the plate. */
import type { Draft } from 'mutative'
import { stationPoint } from '../../../src-core/mounting/station.ts'
import {
  angleTowards,
  directionOf,
  polar,
  toDegrees,
  turnBetween,
  wholeTurn,
} from '../../../src-core/geometry/angles.ts'
import { usualTorque } from '../../../src-core/hardware/preload.ts'
import { centredReach } from '../../../src-core/hardware/straps.ts'
import { usualClass } from '../../../src-core/hardware/threads.ts'
import { studFor } from '../../../src-core/hardware/usualClamp.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import {
  isStationed,
  type At,
  type Box,
  type Hardware,
  type HardwareKind,
  type Job,
  type Plate,
  type StockItem,
  type Weight,
} from '../../../src-core/job/schema.ts'
import { editPiece, editSetup, freshId, type HardwareDraft, type Piece } from './edit.ts'
import { freeOf, seatOn } from './fixtures.ts'
import { seatOnShelf, withoutFoot } from './shelves.ts'
import { roundTo } from '../snap.ts'

const PREFIX: Record<HardwareKind, string> = {
  clamp: 'c',
  press: 'c',
  packing: 'p',
  bracket: 'b',
  counterweight: 'w',
  weight: 'w',
  bolt: 't',
  stop: 's',
  dowel: 'd',
  fixture: 'F',
  anglePlate: 'A',
  vee: 'V',
  twin: 'T',
  other: 'o',
}

/**
 * Puts a piece at a station. A press keeps pointing at its nose; a clamp that stays in its slot keeps its toe's aim, one
 * that changes slots turns with them, as other long pieces do.
 */
export function movePiece(job: Job, setupId: string, id: string, at: At): Job {
  const hardware = hardwareIn(job, setupId)
  return editPiece(job, setupId, id, (piece) => {
    if (!('at' in piece)) return
    const before = slotAngle(job.plate, piece.at)
    const after = slotAngle(job.plate, at)
    const aim = piece.kind === 'clamp' && before === after ? aimOf(job.plate, piece, hardware) : null
    if (piece.kind === 'vee' && 'on' in at && !('on' in piece.at)) withoutFoot(piece)
    piece.at = { ...at }
    if (piece.kind === 'press' && piece.press?.nose) pointAtNose(job.plate, piece, hardware)
    else if (piece.kind === 'clamp' && aim) pointAt(job.plate, piece, aim, hardware)
    else if ('facing' in piece && piece.facing !== undefined && before !== null && after !== null)
      piece.facing = roundTo(wholeTurn(piece.facing + after - before), 0.001)
  })
}

const hardwareIn = (job: Job, setupId: string): readonly Hardware[] =>
  job.setups.find((s) => s.id === setupId)?.hardware ?? []

type ClampDraft = Extract<HardwareDraft, { kind: 'clamp' }>

/** Where the strap's end lies. */
function aimOf(plate: Plate, { at, facing, strap }: ClampDraft, hardware: readonly Hardware[]): Point {
  const bolt = stationPoint(plate, at, hardware)
  const step = polar(strap.boltFrom, facing)
  return { x: bolt.x + step.x, y: bolt.y + step.y }
}

/** Degrees: a bolt that is slid past what its strap points at does not swing the strap round. */
const MOST_SWING = 60

/** Turns a strap about its bolt toward a point; to a tenth of a degree. */
function pointAt(
  plate: Plate,
  piece: ClampDraft,
  aim: Point,
  hardware: readonly Hardware[],
  most = MOST_SWING,
): void {
  const bolt = stationPoint(plate, piece.at, hardware)
  if (Math.hypot(aim.x - bolt.x, aim.y - bolt.y) < 1) return
  const wanted = toDegrees(angleTowards(bolt, aim))
  if (Math.abs(turnBetween(wanted, piece.facing)) > most) return
  if (Math.abs(turnBetween(wanted, piece.facing)) < 0.05) return
  piece.facing = wholeTurn(roundTo(wanted, 0.1))
}

/** Points a clamp's strap at a point, or a press's nose onto it. */
export const moveNose = (job: Job, setupId: string, id: string, nose: Point): Job =>
  editPiece(job, setupId, id, (piece) => {
    if (piece.kind === 'clamp') return pointAt(job.plate, piece, nose, hardwareIn(job, setupId), 360)
    if (piece.kind !== 'press') return
    piece.press = { ...piece.press, nose: { x: nose.x, y: nose.y } }
    pointAtNose(job.plate, piece, hardwareIn(job, setupId))
  })

/** Says of a press that its nose is where a strap's toe comes, from the bolt toward the axis. */
export function placeNose(job: Job, setupId: string, press: Box): Job {
  const bolt = stationPoint(job.plate, press.at, hardwareIn(job, setupId))
  const reach = 'rect' in press.footprint ? centredReach(press.footprint.rect[0]) : 35
  const nose = polar(Math.hypot(bolt.x, bolt.y) - reach, directionOf(bolt))
  return moveNose(job, setupId, press.id, { x: Math.round(nose.x), y: Math.round(nose.y) })
}

/** Puts a bolt through another point of the part, part frame. */
export const moveBolt = (job: Job, setupId: string, id: string, throughPart: Point): Job =>
  editPiece(job, setupId, id, (piece) => {
    if (piece.kind === 'bolt') piece.throughPart = { x: throughPart.x, y: throughPart.y }
  })

/** Turns a piece about its station. */
export const turnPiece = (job: Job, setupId: string, id: string, by: number): Job =>
  editPiece(job, setupId, id, (piece) => {
    if (!('facing' in piece) || piece.facing === undefined || (piece.kind === 'press' && piece.press?.nose))
      return
    piece.facing = roundTo(wholeTurn(piece.facing + by), 0.001)
  })

function pointAtNose(plate: Plate, piece: Draft<Box>, hardware: readonly Hardware[]): void {
  const nose = piece.press?.nose
  if (!piece.press || !nose) return
  const bolt = stationPoint(plate, piece.at, hardware)
  const reach = Math.hypot(nose.x - bolt.x, nose.y - bolt.y)
  if (reach < 0.1) return
  piece.facing = wholeTurn(roundTo(toDegrees(angleTowards(bolt, nose)), 0.1))
  piece.press.boltToWork = roundTo(reach, 0.1)
}

function slotAngle(plate: Plate, at: At): number | null {
  return 'slot' in at ? (plate.slots.find((s) => s.id === at.slot)?.angle ?? null) : null
}

export const removePiece = (job: Job, setupId: string, id: string): Job =>
  editSetup(freeOf(job, setupId, id), setupId, (s) => {
    s.hardware = s.hardware.filter((h) => h.id !== id)
  })

/** Adds a piece with the next free id of its kind; gives the job and that id. A first sub-plate, angle plate or vee takes the part. */
export function addPiece(job: Job, setupId: string, piece: Piece): { job: Job; id: string } {
  const setup = job.setups.find((s) => s.id === setupId)
  const id = freshId(PREFIX[piece.kind], setup?.hardware ?? [])
  const added = editSetup(job, setupId, (s) => {
    s.hardware.push({ id, ...structuredClone(piece) } as HardwareDraft)
  })
  if (setup?.seat) return { id, job: added }
  if (piece.kind === 'anglePlate' || piece.kind === 'vee') return { id, job: seatOnShelf(added, setupId, id) }
  return { id, job: piece.kind === 'fixture' ? seatOn(added, setupId, id) : added }
}

/** A weight of the stock on a stud of its own, tightened by hand, standing at a station. */
export function weightFromStock(job: Job, stock: StockItem, at: At): Piece<Weight> {
  const thread = studFor(job.plate, job.displayUnits, stock.hole ?? null)
  const strength = thread && usualClass(thread)
  return {
    kind: 'weight',
    ...(stock.name === undefined ? {} : { name: stock.name }),
    at,
    stack: [{ stock: stock.id, count: 1 }],
    stud: { thread: thread?.name ?? null, class: strength, length: 'suit' },
    torque: thread && strength ? usualTorque(thread, strength) : null,
    fixed: false,
  }
}

/** The slot with the fewest pieces in it, and the middle of it: where a new piece is put down. */
export function freeStation(job: Job, setupId: string): At {
  const setup = job.setups.find((s) => s.id === setupId)
  const used = new Map<string, number>()
  for (const h of (setup?.hardware ?? []).filter(isStationed))
    if ('slot' in h.at) used.set(h.at.slot, (used.get(h.at.slot) ?? 0) + 1)
  const slot = [...job.plate.slots].sort((a, b) => (used.get(a.id) ?? 0) - (used.get(b.id) ?? 0))[0]
  if (!slot) return { x: 0, y: -job.plate.diameter / 3 }
  return { slot: slot.id, radius: roundTo((slot.from + slot.to) / 2, 1) }
}
