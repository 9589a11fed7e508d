/** What is moved in the side view: along the spindle, and across it in the direction that a shelf faces. mm. */
import { polar, turnBetween } from '../../../src-core/geometry/angles.ts'
import { isShelf, type Hardware, type Job, type Plate } from '../../../src-core/job/schema.ts'
import { findSetup } from '../../../src-core/mounting/mount.ts'
import { seatShelf } from '../../../src-core/mounting/shelf.ts'
import { roundTo } from '../snap.ts'
import type { Target } from '../target.ts'
import { editPiece, editSetup } from './edit.ts'
import { setPacking } from './packingPlace.ts'

export interface SideMove {
  /** Along the spindle, from the plate. */
  readonly out: number
  /** Across it. */
  readonly up: number
}

const FINE = 1e-3

/** The job with part or piece moved as far as it may go that way; the same job where it may not move at all. */
export function moveInSide(job: Job, setupId: string, target: Target, move: SideMove, up: number): Job {
  const setup = findSetup(job, setupId)
  if (target.kind === 'part') {
    if (move.out === 0) return job
    if (seatShelf(setup))
      return editSetup(job, setupId, (s) => {
        if (s.seat) s.seat.standOff = Math.max(0, roundTo((s.seat.standOff ?? 0) + move.out, FINE))
      })
    return setPacking(job, setupId, Math.max(0, roundTo(setup.packing + move.out, FINE)))
  }
  if (target.kind !== 'piece') return job
  const piece = setup.hardware.find((h) => h.id === target.id)
  return piece ? movePieceInSide(job, setupId, piece, move, up) : job
}

function movePieceInSide(job: Job, setupId: string, piece: Hardware, move: SideMove, up: number): Job {
  return editPiece(job, setupId, piece.id, (p) => {
    if (p.kind === 'bolt') {
      // Through a part on a shelf: its place counts out from the part's back.
      if (seatShelf(findSetup(job, setupId))) p.throughPart.y = roundTo(p.throughPart.y + move.out, FINE)
      return
    }
    const { at } = p
    if ('along' in at) {
      at.out = roundTo(at.out + move.out, FINE)
      if ('base' in p) p.base = roundTo(p.base + move.up, FINE)
      return
    }
    if ('base' in p && !isShelf(piece)) p.base = roundTo(p.base + move.out, FINE)
    if ('slot' in at) at.radius = slotRadius(job.plate, at, move.up, up)
    else if ('x' in at) {
      const by = polar(move.up, up)
      at.x = roundTo(at.x + by.x, FINE)
      at.y = roundTo(at.y + by.y, FINE)
    }
  })
}

/** Along its slot, as far as that runs the way that is up. */
function slotRadius(plate: Plate, at: { slot: string; radius: number }, by: number, up: number): number {
  const slot = plate.slots.find((s) => s.id === at.slot)
  if (!slot) return at.radius
  const share = polar(1, turnBetween(slot.angle, up)).x
  if (Math.abs(share) < 0.1) return at.radius
  return roundTo(Math.min(slot.to, Math.max(slot.from, at.radius + by / share)), FINE)
}
