/** Where on the plate a station is, and which way what stands there faces. */
import { directionOf, opposite, polar } from '../geometry/angles.ts'
import { circleRing, rectRing } from '../geometry/edges.ts'
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

export const fixtureNamed = (hardware: readonly Hardware[], id: string): Fixture | null =>
  hardware.filter((h) => h.kind === 'fixture').find((h) => h.id === id) ?? null

/**
 * The station that `at` names, plate frame, mm. Throws RangeError on an unknown slot, hole or fixture.
 * @param hardware of the setup: a station may be a hole of a fixture among it.
 */
export function stationPoint(plate: Plate, at: At, hardware: readonly Hardware[]): Point {
  if ('on' in at) {
    const shelf = hardware.find((h) => h.id === at.on)
    if (shelf && isShelf(shelf)) return onShelf(plate, shelf, alongShelf(shelf, at), hardware)
    if (!('hole' in at)) throw new RangeError(`no shelf ${at.on}`)
    const fixture = fixtureNamed(hardware, at.on)
    const hole = fixture?.holes.find((h) => h.id === at.hole)
    if (!fixture || !hole) throw new RangeError(`no hole ${at.hole} of ${at.on}`)
    const origin = stationPoint(plate, fixture.at, [])
    return placePoint({ turn: facingOf(plate, fixture, []), ...origin }, hole)
  }
  if ('slot' in at) {
    const slot = plate.slots.find((s) => s.id === at.slot)
    if (!slot) throw new RangeError(`no slot ${at.slot}`)
    return polar(at.radius, slot.angle)
  }
  if ('hole' in at) {
    const hole = plate.holes.find((h) => h.id === at.hole)
    if (!hole) throw new RangeError(`no hole ${at.hole}`)
    return { x: hole.x, y: hole.y }
  }
  return { x: at.x, y: at.y }
}

/** A place on a shelf or on lands, as seen from in front; of a block on a shelf that lies as high as it over that. */
function onShelf(plate: Plate, shelf: Shelf, along: number, hardware: readonly Hardware[]): Point {
  const { at } = shelf
  const under = 'along' in at ? hardware.find((h) => h.kind === 'anglePlate' && h.id === at.on) : undefined
  if (under?.kind === 'anglePlate' && 'along' in at) {
    const foot = onShelf(plate, under, at.along + along, [])
    const up = polar(shelf.size[1], under.facing)
    return { x: foot.x + up.x, y: foot.y + up.y }
  }
  const origin = stationPoint(plate, at, [])
  const by = polar(along, shelf.facing + 90)
  return { x: origin.x + by.x, y: origin.y + by.y }
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
