/** Where a piece of hardware stands on the plate. */
import { angleOf, polar, toDegrees } from '../geometry/angles.ts'
import { circleRing, rectRing } from '../geometry/edges.ts'
import { ringMoments } from '../geometry/ringMoments.ts'
import type { Point, Ring } from '../geometry/types.ts'
import { threadDiameter } from '../hardware/threads.ts'
import type { Footprint, Hardware, Plate } from '../job/schema.ts'
import { placePoint, placeRing } from './place.ts'
import type { Bolt, MountedPiece } from './types.ts'

/** The station that `at` names, plate frame, mm. Throws RangeError on an unknown slot or hole. */
export function stationPoint(plate: Plate, at: Hardware['at']): Point {
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

/** A footprint standing at a point with its length in the direction `facing` (degrees), as a ring. */
export function footprintRing(footprint: Footprint, at: Point, facing: number): Ring {
  if ('circle' in footprint) return circleRing(at, footprint.circle)
  if ('rect' in footprint) return rectRing(at, footprint.rect[0], footprint.rect[1], facing)
  return placeRing({ turn: facing, x: at.x, y: at.y }, footprint.outline)
}

/** Direction of a piece's length: as given, else along its slot, else outward from the axis. */
export function facingOf(plate: Plate, item: Hardware): number {
  if (item.facing !== undefined) return item.facing
  const at = item.at
  if ('slot' in at) return plate.slots.find((s) => s.id === at.slot)?.angle ?? 0
  const p = stationPoint(plate, at)
  return toDegrees(angleOf(p))
}

export function mountPiece(plate: Plate, item: Hardware): MountedPiece {
  const at = stationPoint(plate, item.at)
  const facing = facingOf(plate, item)
  const footprint = footprintRing(item.footprint, at, facing)
  const plan = item.massCentre
    ? placePoint({ turn: facing, x: at.x, y: at.y }, item.massCentre)
    : footprintCentre(item.footprint, footprint, at)
  return {
    item,
    at,
    footprint,
    z0: item.base,
    z1: item.base + item.height,
    massCentre: { ...plan, z: item.base + (item.massCentre?.z ?? item.height / 2) },
    bolt: boltOf(plate, item, at),
  }
}

function footprintCentre(footprint: Footprint, ring: Ring, at: Point): Point {
  if (!('outline' in footprint)) return at
  const m = ringMoments(ring, at)
  return m.area === 0 ? at : { x: at.x + m.x / m.area, y: at.y + m.y / m.area }
}

/** Packing lies loose; everything else is bolted: through its slot's width, its hole, or its clamp's thread. */
function boltOf(plate: Plate, item: Hardware, at: Point): Bolt | null {
  if (item.kind === 'packing') return null
  const thread = item.clamp?.thread ? threadDiameter(item.clamp.thread) : null
  if (thread !== null) return { at, diameter: thread }
  const where = item.at
  if ('slot' in where) return { at, diameter: plate.slots.find((s) => s.id === where.slot)?.width ?? 0 }
  if ('hole' in where) return { at, diameter: plate.holes.find((h) => h.id === where.hole)?.diameter ?? 0 }
  return null
}
