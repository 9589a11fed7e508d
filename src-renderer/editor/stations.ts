/** Where a piece may stand: the slots' centre lines between their ends, the holes, and the open face. */
import { polar } from '../../src-core/geometry/angles.ts'
import { ROUNDING } from '../../src-core/geometry/tolerance.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import type { At, Hardware, Plate } from '../../src-core/job/schema.ts'
import { stationPoint } from '../../src-core/mounting/station.ts'
import { roundTo } from './snap.ts'

export interface Station {
  readonly at: At
  readonly point: Point
  /** mm from the point that was asked for. */
  readonly distance: number
}

/** The nearest place in a slot or hole; radius in steps of `step` mm. Null on a plate without either. */
/** @param hardware whose sub-plates' holes are stations too. */
export function nearestStation(
  plate: Plate,
  p: Point,
  step: number,
  hardware: readonly Hardware[] = [],
): Station | null {
  let best: Station | null = null
  const take = (at: At, point: Point, slack: number) => {
    const distance = Math.hypot(point.x - p.x, point.y - p.y)
    if (!best || distance < best.distance - slack) best = { at, point, distance }
  }
  for (const slot of plate.slots) {
    const direction = polar(1, slot.angle)
    const along = p.x * direction.x + p.y * direction.y
    const radius = Math.min(slot.to, Math.max(slot.from, roundTo(along, step)))
    take({ slot: slot.id, radius }, polar(radius, slot.angle), ROUNDING.length)
  }
  for (const hole of plate.holes) take({ hole: hole.id }, { x: hole.x, y: hole.y }, ROUNDING.length)
  for (const fixture of hardware) {
    if (fixture.kind !== 'fixture') continue
    for (const hole of fixture.holes) {
      const at = { on: fixture.id, hole: hole.id }
      take(at, stationPoint(plate, at, hardware), ROUNDING.length)
    }
  }
  return best
}
