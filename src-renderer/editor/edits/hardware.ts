/** Clamps, packing and weights on the plate. */
import type { Draft } from 'mutative'
import { stationPoint } from '../../../src-core/mounting/station.ts'
import { angleTowards, toDegrees, wholeTurn } from '../../../src-core/geometry/angles.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import {
  isStationed,
  type At,
  type Box,
  type HardwareKind,
  type Job,
  type Plate,
  type StockItem,
} from '../../../src-core/job/schema.ts'
import { editPiece, editSetup, freshId, type HardwareDraft, type Piece } from './edit.ts'
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
  other: 'o',
}

/** Puts a piece at a station. A strap keeps pointing at its nose; other long pieces keep their angle to the slot. */
export const movePiece = (job: Job, setupId: string, id: string, at: At): Job =>
  editPiece(job, setupId, id, (piece) => {
    if (!('at' in piece)) return
    const before = slotAngle(job.plate, piece.at)
    const after = slotAngle(job.plate, at)
    piece.at = { ...at }
    if (piece.kind === 'press' && piece.press?.nose) pointAtNose(job.plate, piece)
    else if (
      'facing' in piece &&
      piece.facing !== undefined &&
      before !== null &&
      after !== null &&
      before !== after
    )
      piece.facing = wholeTurn(piece.facing + after - before)
  })

export const moveNose = (job: Job, setupId: string, id: string, nose: Point): Job =>
  editPiece(job, setupId, id, (piece) => {
    if (piece.kind !== 'press' || !piece.press) return
    piece.press.nose = { x: nose.x, y: nose.y }
    pointAtNose(job.plate, piece)
  })

function pointAtNose(plate: Plate, piece: Draft<Box>): void {
  const nose = piece.press?.nose
  if (!piece.press || !nose) return
  const bolt = stationPoint(plate, piece.at)
  const reach = Math.hypot(nose.x - bolt.x, nose.y - bolt.y)
  if (reach < 0.1) return
  piece.facing = wholeTurn(roundTo(toDegrees(angleTowards(bolt, nose)), 0.1))
  piece.press.boltToWork = roundTo(reach, 0.1)
}

function slotAngle(plate: Plate, at: At): number | null {
  return 'slot' in at ? (plate.slots.find((s) => s.id === at.slot)?.angle ?? null) : null
}

export const removePiece = (job: Job, setupId: string, id: string): Job =>
  editSetup(job, setupId, (s) => {
    s.hardware = s.hardware.filter((h) => h.id !== id)
  })

/** Adds a piece with the next free id of its kind; gives the job and that id. */
export function addPiece(job: Job, setupId: string, piece: Piece): { job: Job; id: string } {
  const setup = job.setups.find((s) => s.id === setupId)
  const id = freshId(PREFIX[piece.kind], setup?.hardware ?? [])
  return {
    id,
    job: editSetup(job, setupId, (s) => {
      s.hardware.push({ id, ...structuredClone(piece) } as HardwareDraft)
    }),
  }
}

/** A weight from the stock, standing on the plate's face at a station. */
export function weightFromStock(stock: StockItem, at: At): Piece<Box> {
  return {
    kind: 'counterweight',
    ...(stock.name === undefined ? {} : { name: stock.name }),
    mass: stock.mass,
    at,
    footprint: stock.footprint,
    base: 0,
    height: stock.height,
    fixed: false,
  }
}

export function newPacking(at: Point, height: number): Piece<Box> {
  const size = 25
  // A steel parallel: its mass follows from its size.
  const mass = Number((size * size * Math.max(1, height) * 7850e-9).toFixed(4))
  return {
    kind: 'packing',
    name: 'parallel',
    mass,
    at,
    footprint: { rect: [size, size] },
    facing: 0,
    base: 0,
    height: Math.max(1, height),
    fixed: true,
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
