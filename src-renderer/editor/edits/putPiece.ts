/** A choice out of the catalogue put where it is wanted: a clamp onto the part, packing under it, the rest where there is room. */
import { angleForm } from '../../../src-core/hardware/catalogue.ts'
import { castingOf, pieceOf, clampOf, subPlateOf, type Choice } from '../../../src-core/hardware/choice.ts'
import type { ClampPattern } from '../../../src-core/hardware/usualClamp.ts'
import { strapStand } from '../../../src-core/holding/stand.ts'
import { wholeTurn } from '../../../src-core/geometry/angles.ts'
import type { At, Clamp, Hardware, Job, Shelf } from '../../../src-core/job/schema.ts'
import { holesInFrame, shelfUnder } from '../../../src-core/mounting/shelf.ts'
import { inward, stationPoint } from '../../../src-core/mounting/station.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { roundTo } from '../snap.ts'
import { placeClamp } from './clampPlace.ts'
import { besidePart } from './clampTracks.ts'
import { without, type Piece } from './edit.ts'
import { newSubPlate } from './fixtures.ts'
import { freeStation } from './hardware.ts'
import { newAnglePlate, newVee } from './shelves.ts'
import { packingPlace } from './packingPlace.ts'

/** mm that a copy stands beside what lies on the axis. */
const ASIDE = 30

/** A strap where it would hold; where no slot allows that, in a free slot, pointing at the axis. */
export function clampOnPart(
  choice: Choice,
  job: Job,
  setupId: string,
  mounted: Mounted | null,
): Piece<Clamp> | null {
  const pattern = clampOf(choice, packingOf(job, setupId) > 0)
  return pattern && onPart(pattern, job, setupId, mounted)
}

const packingOf = (job: Job, setupId: string): number =>
  job.setups.find((s) => s.id === setupId)?.packing ?? 0

function onPart(pattern: ClampPattern, job: Job, setupId: string, mounted: Mounted | null): Piece<Clamp> {
  const place = mounted && placeClamp(mounted, pattern)
  if (place && 'clamp' in place) return place.clamp
  const onShelf = mounted && besidePart(strapStand(mounted))
  if (onShelf) return { ...pattern, ...onShelf }
  const at = freeStation(job, setupId)
  return { ...pattern, at, facing: roundTo(inward(job.plate, at), 0.1) }
}

/** One more of a piece that is on the plate: a clamp where it would hold too, anything else in a free slot or beside it. */
export function likeIt(item: Hardware, job: Job, setupId: string, mounted: Mounted | null): Piece {
  const slotted = 'at' in item && 'slot' in item.at
  const hardware = job.setups.find((s) => s.id === setupId)?.hardware ?? []
  const shelf = 'at' in item ? shelfUnder(hardware, item) : null
  const station = (): At =>
    shelf && 'at' in item
      ? acrossShelf(shelf, item.at)
      : slotted || !('at' in item)
        ? freeStation(job, setupId)
        : opposite(item, job, hardware)
  switch (item.kind) {
    case 'clamp':
      return onPart(without(item, 'id', 'at', 'facing', 'order'), job, setupId, mounted)
    case 'bolt':
      return {
        ...without(item, 'id'),
        throughPart: { x: item.throughPart.x + ASIDE, y: item.throughPart.y },
      }
    case 'stop': {
      const at = station()
      const facing = shelf ? wholeTurn(180 - item.facing) : roundTo(inward(job.plate, at), 0.1)
      return { ...without(item, 'id'), at, facing }
    }
    case 'weight':
      return { ...without(item, 'id'), at: station() }
    case 'dowel':
      return { ...without(item, 'id'), at: station() }
    case 'anglePlate':
      return { ...without(item, 'id'), at: station() }
    case 'vee':
      return { ...without(item, 'id'), at: station() }
    case 'fixture':
      return { ...without(item, 'id'), at: station() }
    case 'twin':
      return { ...without(item, 'id'), at: station() }
    case 'packing':
    case 'bracket':
    case 'counterweight':
    case 'press':
    case 'other': {
      const { press } = item
      const bare = slotted ? without(item, 'id', 'facing') : without(item, 'id')
      return { ...bare, at: station(), ...(press ? { press: without(press, 'nose') } : {}) }
    }
  }
}

/** As far from the middle of a shelf on the other side of it; in its middle, a little aside. */
function acrossShelf(shelf: Shelf, at: At): At {
  const on = shelf.id
  const hole = 'hole' in at ? holesInFrame(shelf).find((h) => h.id === at.hole) : null
  const [along, out] = 'along' in at ? [at.along, at.out] : [hole?.x ?? 0, hole?.y ?? 0]
  return { on, along: Math.abs(along) < 5 ? along + ASIDE : -along || 0, out }
}

/** Through the axis, on the other side of it; on the axis itself, a little aside. */
function opposite(
  { at: now }: Pick<Clamp, 'at'>,
  job: Job,
  hardware: readonly Hardware[],
): { x: number; y: number } {
  const at = stationPoint(job.plate, now, hardware)
  const other = Math.hypot(at.x, at.y) < 5 ? { x: at.x + ASIDE, y: at.y } : { x: -at.x, y: -at.y }
  return { x: roundTo(other.x, 0.01), y: roundTo(other.y, 0.01) }
}

/** Puts a choice on the plate. */
export function placed(choice: Choice, job: Job, setupId: string, mounted: Mounted | null): Piece | null {
  switch (choice.kind) {
    case 'strap':
      return clampOnPart(choice, job, setupId, mounted)
    case 'disc':
    case 'subPlate':
      return newSubPlate(job, subPlateOf(choice))
    case 'anglePlate': {
      const casting = castingOf(choice)
      return (
        casting &&
        newAnglePlate(
          job,
          angleForm((key) => choice.sizes[key] ?? 0),
          casting,
        )
      )
    }
    case 'vee': {
      const casting = castingOf(choice)
      return casting && newVee(job, choice.sizes.diameter, casting)
    }
    case 'heel':
      return pieceOf(choice, { x: 0, y: roundTo(-job.plate.diameter / 3, 1) }, 0)
    case 'packing': {
      const { length = 0, width = 0 } = choice.sizes
      const at = packingPlace(mounted, [length, width]) ?? { x: 0, y: 0 }
      const piece = pieceOf(choice, at, mounted?.ground ?? 0)
      return piece && { ...piece, facing: 0 }
    }
    case 'stud':
    case 'nut':
    case 'bracket':
    case 'round':
    case 'rectangular':
      return pieceOf(choice, freeStation(job, setupId), 0)
  }
}
