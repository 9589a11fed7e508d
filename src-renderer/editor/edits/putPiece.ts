/** A choice out of the catalogue put where it is wanted: a clamp onto the part, a heel block under a strap, packing under the part. */
import { angleOf, opposite, polar, toDegrees } from '../../../src-core/geometry/angles.ts'
import { findThread } from '../../../src-core/hardware/threads.ts'
import { isBox, type At, type Box, type Hardware, type Job } from '../../../src-core/job/schema.ts'
import { stationPoint, facingOf } from '../../../src-core/mounting/station.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { placeStrap } from './clampPlace.ts'
import type { Piece } from './edit.ts'
import { freeStation } from './hardware.ts'
import { roundTo } from '../snap.ts'
import { pieceOf, type Choice } from '../../../src-core/hardware/choice.ts'

/** A strap where it would hold, its nose on the part; where no slot allows that, in a free slot and without a nose. */
export function clampOnPart(
  choice: Choice,
  job: Job,
  setupId: string,
  mounted: Mounted | null,
): Piece<Box> | null {
  const piece = pieceOf(choice, freeStation(job, setupId), mounted?.partFront ?? 0)
  return piece && onPart(piece, job, mounted)
}

function onPart(piece: Piece<Box>, job: Job, mounted: Mounted | null): Piece<Box> {
  if (!('rect' in piece.footprint)) return piece
  const [length, width] = piece.footprint.rect
  const bolt = findThread(piece.press?.thread ?? '')?.diameter ?? 0
  const place = mounted && placeStrap(mounted, { length, width, bolt })
  if (!place) return piece
  const { at, base, boltToWork, nose } = place
  // From the bolt in toward the axis, along its slot.
  return { ...piece, at, base, facing: facingIn(job, at), press: { ...piece.press, boltToWork, nose } }
}

const without = <T extends object, K extends keyof T>(whole: T, key: K): Omit<T, K> =>
  Object.fromEntries(Object.entries(whole).filter(([k]) => k !== key)) as Omit<T, K>
const withoutId = (item: Hardware): Piece =>
  Object.fromEntries(Object.entries(item).filter(([k]) => k !== 'id')) as Piece

/** One more of a piece that is on the plate: a clamp where it would hold too, anything else in a free slot or beside it. */
export function likeIt(item: Hardware, job: Job, setupId: string, mounted: Mounted | null): Piece {
  if (!isBox(item)) return withoutId(item)
  const copy = without(item, 'id')
  const rest = without(copy, 'facing')
  if (item.kind === 'press') {
    const press = without(item.press ?? {}, 'nose')
    return onPart({ ...rest, at: freeStation(job, setupId), press }, job, mounted)
  }
  if ('slot' in item.at) return { ...rest, at: freeStation(job, setupId) }
  const at = stationPoint(job.plate, item.at)
  // Through the axis, on the other side of it; on the axis itself, a little aside.
  const other = Math.hypot(at.x, at.y) < 5 ? { x: at.x + 30, y: at.y } : { x: -at.x, y: -at.y }
  return { ...copy, at: { x: roundTo(other.x, 0.01), y: roundTo(other.y, 0.01) } }
}

function facingIn(job: Job, at: At): number {
  const p = stationPoint(job.plate, at)
  return roundTo(opposite(toDegrees(angleOf(p))), 0.1)
}

/** Puts a choice on the plate. `chosen` is the piece that is selected: a heel block goes under its heel. */
export function placed(
  choice: Choice,
  job: Job,
  setupId: string,
  mounted: Mounted | null,
  chosen: Hardware | null,
): Piece | null {
  const setup = job.setups.find((s) => s.id === setupId)
  switch (choice.kind) {
    case 'strap':
      return clampOnPart(choice, job, setupId, mounted)
    case 'heel':
      return pieceOf(choice, heelPoint(job, chosen), 0)
    case 'packing':
      return pieceOf(choice, { x: 0, y: roundTo(job.plate.diameter / 6, 1) }, 0)
    case 'stud':
    case 'nut':
    case 'bracket':
    case 'round':
    case 'rectangular':
      return setup ? pieceOf(choice, freeStation(job, setupId), 0) : null
  }
}

function heelPoint(job: Job, chosen: Hardware | null): At {
  if (chosen?.kind !== 'press') return { x: 0, y: roundTo(-job.plate.diameter / 3, 1) }
  const bolt = stationPoint(job.plate, chosen.at)
  const back = polar(chosen.press?.boltToHeel ?? 30, facingOf(job.plate, chosen) + 180)
  return { x: roundTo(bolt.x + back.x, 0.1), y: roundTo(bolt.y + back.y, 0.1) }
}
