/** Other ways to hold, to start from: a bolt through the part, a stop block, a dowel, and another workpiece opposite. They are then put where they belong. */
import { usualTorque } from '../../../src-core/hardware/preload.ts'
import { usualClass } from '../../../src-core/hardware/threads.ts'
import { studFor } from '../../../src-core/hardware/usualClamp.ts'
import type { At, Dowel, Job, StopBlock, ThroughBolt, Twin } from '../../../src-core/job/schema.ts'
import { partStand, strapStand } from '../../../src-core/holding/stand.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { wholeTurn } from '../../../src-core/geometry/angles.ts'
import { seatFixture } from '../../../src-core/mounting/fixtures.ts'
import { centrePoint } from '../../../src-core/mounting/cutAway.ts'
import { sizeFor } from '../../../src-core/units/convert.ts'
import type { DisplayUnits } from '../../../src-core/units/format.ts'
import { findSetup, setupPlacement } from '../../../src-core/mounting/mount.ts'
import { inward } from '../../../src-core/mounting/station.ts'
import { roundTo } from '../snap.ts'
import { besidePart } from './clampTracks.ts'
import { stationOnShelf } from './onShelf.ts'
import type { Piece } from './edit.ts'
import { freeStation } from './hardware.ts'

/** mm: sizes to start from, to be typed over. */
const stopSize = (units: DisplayUnits): [number, number, number] => [
  sizeFor(units, 40, 3 / 2),
  sizeFor(units, 30, 5 / 4),
  sizeFor(units, 30, 5 / 4),
]
const dowelSize = (units: DisplayUnits) => ({
  diameter: sizeFor(units, 12, 1 / 2),
  length: sizeFor(units, 20, 3 / 4),
})

function stud({ plate, displayUnits }: Job): Pick<ThroughBolt, 'stud' | 'torque'> {
  const thread = studFor(plate, displayUnits)
  const strength = thread && usualClass(thread)
  return {
    stud: { thread: thread?.name ?? null, class: strength, length: 'suit' },
    torque: thread && strength ? usualTorque(thread, strength) : null,
  }
}

/** Through the point of the part that is on the axis. */
export const newBolt = (job: Job, setupId: string): Piece<ThroughBolt> => {
  const { x, y } = centrePoint(job.part, findSetup(job, setupId))
  return { kind: 'bolt', throughPart: { x, y }, ...stud(job), fixed: true }
}

/** @param mounted null where the setup cannot be mounted: then on the plate. */
export function newStop(job: Job, setupId: string, mounted: Mounted | null = null): Piece<StopBlock> {
  const at = freeStation(job, setupId)
  return {
    kind: 'stop',
    at,
    facing: roundTo(inward(job.plate, at), 0.1),
    ...(mounted && besidePart(strapStand(mounted))),
    size: stopSize(job.displayUnits),
    ...stud(job),
    fixed: true,
  }
}

/** In the first hole of what carries the part, as thick as it; without one in a slot. */
export function newDowel(job: Job, setupId: string, mounted: Mounted | null = null): Piece<Dowel> {
  const stand = mounted && partStand(mounted)
  const hole = (stand?.job ?? job).plate.holes[0]
  const station = (at: At) => (stand?.shelf ? stationOnShelf(stand.shelf.item, at) : at)
  const beside = (stand && besidePart(stand)?.at) ?? freeStation(job, setupId)
  const at = hole ? station({ hole: hole.id }) : beside
  return {
    kind: 'dowel',
    at,
    ...dowelSize(job.displayUnits),
    ...(hole ? { diameter: hole.diameter } : {}),
    fixed: true,
  }
}

/** mm and degrees: a millionth, so that it settles the part to nothing that counts. */
const FINE = 1e-6

/** The part once more, turned half round the axis, as high as the part, through the same holes. */
export function newTwin(job: Job, setupId: string): Piece<Twin> {
  const setup = findSetup(job, setupId)
  const { x, y, turn } = setupPlacement(job.part, setup)
  const bolts = setup.hardware.flatMap((h) =>
    h.kind === 'bolt'
      ? [
          {
            at: h.throughPart,
            stud: h.stud,
            nut: h.nut,
            washer: h.washer,
            torque: h.torque,
            lubricated: h.lubricated,
          },
        ]
      : [],
  )
  return {
    kind: 'twin',
    at: { x: roundTo(-x, FINE), y: roundTo(-y, FINE) },
    facing: roundTo(wholeTurn(turn + 180), FINE),
    raised: (seatFixture(setup)?.thickness ?? 0) + setup.packing,
    bolts,
    fixed: true,
  }
}
