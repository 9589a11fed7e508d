/** Where on the plate a station is, and which way what stands there faces. */
import { directionOf, opposite } from '../geometry/angles.ts'
import { circleRing, rectRing } from '../geometry/edges.ts'
import { outOf } from '../geometry/space/pose.ts'
import type { Point, Ring } from '../geometry/types.ts'
import {
  isShelf,
  type At,
  type Fixture,
  type Footprint,
  type Hardware,
  type OnFixture,
  type Plate,
  type Shelf,
} from '../job/schema.ts'
import { placePoint, placeRing } from './place.ts'
import { platePoint } from './platePoint.ts'
import { poseOfShelf } from './shelf.ts'

export const fixtureNamed = (hardware: readonly Hardware[], id: string): Fixture | null =>
  hardware.filter((h) => h.kind === 'fixture').find((h) => h.id === id) ?? null

/**
 * The station that `at` names, plate frame, mm; one on a shelf or on lands as seen from in front. Throws RangeError on an
 * unknown slot, hole, fixture or shelf.
 * @param hardware of the setup: a station may be on a fixture among it.
 */
export function stationPoint(plate: Plate, at: At, hardware: readonly Hardware[]): Point {
  if (!('on' in at)) return platePoint(plate, at)
  const shelf = hardware.find((h) => h.id === at.on)
  if (shelf && isShelf(shelf)) {
    const { x, y } = outOf(poseOfShelf(plate, shelf, hardware), { x: alongShelf(shelf, at), y: 0 })
    return { x, y }
  }
  if (!('hole' in at)) throw new RangeError(`no shelf ${at.on}`)
  const fixture = fixtureNamed(hardware, at.on)
  const hole = fixture?.holes.find((h) => h.id === at.hole)
  if (!fixture || !hole) throw new RangeError(`no hole ${at.hole} of ${at.on}`)
  const origin = platePoint(plate, fixture.at)
  return placePoint({ turn: facingOf(plate, fixture, []), ...origin }, hole)
}

function alongShelf(shelf: Shelf, at: OnFixture): number {
  if ('along' in at) return at.along
  const hole = shelf.holes.find((h) => h.id === at.hole)
  if (!hole) throw new RangeError(`no hole ${at.hole} of ${at.on}`)
  return hole.x
}

/** A footprint standing at a point with its length in the direction `facing` (degrees), as a ring. */
export function footprintRing(footprint: Footprint, at: Point, facing: number): Ring {
  if ('circle' in footprint) return circleRing(at, footprint.circle)
  if ('rect' in footprint) return rectRing(at, footprint.rect[0], footprint.rect[1], facing)
  return placeRing({ turn: facing, x: at.x, y: at.y }, footprint.outline)
}

/** Direction of a piece's length: as given, else along its slot, else outward from the axis. Degrees. */
export function facingOf(
  plate: Plate,
  item: { at: At; facing?: number | undefined },
  hardware: readonly Hardware[],
): number {
  if (item.facing !== undefined) return item.facing
  const at = item.at
  if ('slot' in at) return plate.slots.find((s) => s.id === at.slot)?.angle ?? 0
  return directionOf(stationPoint(plate, at, hardware))
}

/** From a station toward the axis: how a new clamp faces. Degrees. */
export const inward = (plate: Plate, at: At, hardware: readonly Hardware[] = []): number =>
  opposite(facingOf(plate, { at }, hardware))

/** mm from the axis to the outermost place where something can be bolted; the rim where there is none. */
export function outermostStation({ slots, holes, diameter }: Plate): number {
  const most = Math.max(0, ...slots.map((s) => s.to), ...holes.map((h) => Math.hypot(h.x, h.y)))
  return most > 0 ? most : diameter / 2
}
