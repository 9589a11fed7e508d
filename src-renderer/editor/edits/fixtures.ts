/** Sub-plates: what the part stands on, and what goes with it. */
import { polar } from '../../../src-core/geometry/angles.ts'
import { ringPolygons } from '../../../src-core/mounting/material.ts'
import { nearestTo } from '../../../src-core/geometry/nearest.ts'
import { usualTorque } from '../../../src-core/hardware/preload.ts'
import { usualClass } from '../../../src-core/hardware/threads.ts'
import { nutSize } from '../../../src-core/hardware/nuts.ts'
import { washerSize } from '../../../src-core/hardware/washers.ts'
import { studFor, type Openings } from '../../../src-core/hardware/usualClamp.ts'
import type { Fixture, Footprint, Job } from '../../../src-core/job/schema.ts'
import { footprintRing, stationPoint } from '../../../src-core/mounting/station.ts'
import { isInside } from '../../../src-core/geometry/nearest.ts'
import { poseOfShelf, shelfNamed } from '../../../src-core/mounting/shelf.ts'
import { roundTo } from '../snap.ts'
import { editPiece, editSetup, type Piece, type SetupDraft } from './edit.ts'

const thicknessOf = (s: SetupDraft, id: string | null): number => {
  const piece = s.hardware.find((h) => h.id === id)
  return piece?.kind === 'fixture' ? piece.thickness : 0
}

/** mm from the plate's face to what the part stands on. */
export const groundUnder = (s: SetupDraft): number => thicknessOf(s, s.seat?.on ?? null)

/** Loose packing that stood on the face under the part goes with that face. */
function liftPacking(s: SetupDraft, from: number, to: number): void {
  for (const h of s.hardware) if (h.kind === 'packing' && h.base === from) h.base = to
}

/** Puts the part on a sub-plate, or with null on the plate. */
export const seatOn = (job: Job, setupId: string, id: string | null): Job =>
  editSetup(job, setupId, (s) => {
    liftPacking(s, groundUnder(s), thicknessOf(s, id))
    if (id === null) delete s.seat
    else s.seat = { on: id }
  })

export const setThickness = (job: Job, setupId: string, id: string, thickness: number): Job =>
  editSetup(job, setupId, (s) => {
    const piece = s.hardware.find((h) => h.id === id)
    if (piece?.kind !== 'fixture') return
    liftPacking(s, piece.thickness, thickness)
    piece.thickness = thickness
  })

/** What stood in holes of a sub-plate that is taken off, or in one hole of it, stays where it is, at a plain point. */
export function freeOf(job: Job, setupId: string, id: string, hole: string | null = null): Job {
  const hardware = job.setups.find((s) => s.id === setupId)?.hardware ?? []
  const freed = editSetup(job, setupId, (s) => {
    for (const piece of s.hardware) {
      if (!('at' in piece) || !('on' in piece.at) || piece.at.on !== id) continue
      if (hole !== null && !('hole' in piece.at && piece.at.hole === hole)) continue
      const under = shelfNamed(hardware, id)
      // A vee's station on the plate is that of its lands.
      const block = piece.kind === 'vee' && under ? shelfNamed(hardware, piece.id) : null
      const { x, y } = block
        ? poseOfShelf(job.plate, block, hardware).origin
        : stationPoint(job.plate, piece.at, hardware)
      if (piece.kind === 'vee' && under) piece.facing = under.facing
      piece.at = { x: roundTo(x, 0.001), y: roundTo(y, 0.001) }
    }
  })
  const seated = hardware.length > 0 && job.setups.find((s) => s.id === setupId)?.seat?.on === id
  return hole === null && seated ? seatOn(freed, setupId, null) : freed
}

/** Takes a hole out of a sub-plate. */
export const removeHoleOf = (job: Job, setupId: string, id: string, hole: string): Job =>
  editPiece(freeOf(job, setupId, id, hole), setupId, id, (piece) => {
    if ('holes' in piece) piece.holes = piece.holes.filter((h) => h.id !== hole)
  })

/** A bolt at a piece's station, as the plate takes it, or the openings that it goes through. */
export function usualBolt({ plate, displayUnits }: Job, openings: Openings = plate) {
  const thread = studFor(openings, displayUnits)
  const strength = thread && usualClass(thread)
  return {
    stud: { thread: thread?.name ?? null, class: strength, length: 'suit' as const },
    torque: thread && strength ? usualTorque(thread, strength) : null,
  }
}

/** mm from a bolt's washer to the edge, and between the places that are tried along a slot. */
const RIM = 3
const STEP = 2

/** As many bolts as a sub-plate starts with. */
const BOLTS = 4

/** A sub-plate on the axis, bolted through slots that it covers with its heads sunk, as far out as it has room. */
export function newSubPlate(
  job: Job,
  sizes: Pick<Fixture, 'footprint' | 'bore' | 'thickness'> & {
    readonly name?: string
    readonly density?: number
  },
): Piece<Fixture> {
  const thread = studFor(job.plate, job.displayUnits)
  const washer = thread && washerSize(thread)
  const head =
    (washer?.thickness ?? 0) + (thread ? (nutSize(thread)?.height ?? 0) : 0) + 2 * (thread?.pitch ?? 0)
  const room = (washer?.outside ?? 24) / 2 + RIM
  const bolts = boltPlaces(job, sizes.footprint, sizes.bore, room).map((at) => ({
    at,
    ...usualBolt(job),
    ...(head < sizes.thickness ? { sunk: Math.ceil(head) } : {}),
  }))
  return {
    kind: 'fixture',
    form: 'subPlate',
    ...sizes,
    at: { x: 0, y: 0 },
    facing: 0,
    holes: [],
    bolts,
    fixed: true,
  }
}

function boltPlaces({ plate }: Job, footprint: Footprint, bore: number, room: number) {
  const step = Math.max(1, Math.floor(plate.slots.length / BOLTS))
  const ring = footprintRing(footprint, { x: 0, y: 0 }, 0)
  const flat = ringPolygons(ring)[0]!
  return plate.slots.flatMap((slot, i) => {
    if (i % step !== 0) return []
    for (let r = slot.to - slot.width / 2; r >= Math.max(slot.from, bore / 2 + room); r -= STEP) {
      const p = polar(r, slot.angle)
      if (isInside(ring, p) && nearestTo(flat, p).distance >= room)
        return [{ x: roundTo(p.x, 0.01), y: roundTo(p.y, 0.01) }]
    }
    return []
  })
}
