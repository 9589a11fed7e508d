import { polar } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import type { At, Plate } from '../job/schema.ts'

/** A station in the plate itself, plate frame, mm. Throws RangeError on an unknown slot or hole, and on one of a fixture. */
export function platePoint(plate: Plate, at: At): Point {
  if ('on' in at) throw new RangeError(`${at.on} is not the plate`)
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
