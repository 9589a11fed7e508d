/** Where a new strap clamp goes: a slot in which its bolt stands clear of the part and its nose presses on it. */
import { directionOf, polar, turnBetween } from '../../../src-core/geometry/angles.ts'
import { distanceToRegion } from '../../../src-core/geometry/nearest.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import { centredReach } from '../../../src-core/hardware/straps.ts'
import { isClamp, isStationed, type At, type Slot } from '../../../src-core/job/schema.ts'
import { stationPoint } from '../../../src-core/mounting/station.ts'
import { partAt } from '../../../src-core/mounting/partAt.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { roundTo } from '../snap.ts'

export interface ClampPlace {
  readonly at: At
  readonly nose: Point
  /** z of the face that the nose presses on. */
  readonly base: number
  readonly boltToWork: number
}

/** mm that the bolt stays off the part's edge beyond its own radius, and that the nose goes in from it at least. */
const CLEAR = 3
const ONTO = 5

/** Of the slots that would do, the one farthest round from the clamps that are there; null where none would. */
export function placeStrap(
  mounted: Mounted,
  { length, width, bolt }: { length: number; width: number; bolt: number },
): ClampPlace | null {
  const { plate } = mounted.job
  const clamps = mounted.setup.hardware
    .filter((h) => isClamp(h))
    .filter(isStationed)
    .map((h) => directionOf(stationPoint(plate, h.at)))
  let best: ClampPlace | null = null
  let widest = -1
  for (const slot of plate.slots) {
    const gap = Math.min(360, ...clamps.map((a) => Math.abs(turnBetween(a, slot.angle))))
    if (gap <= widest) continue
    const found = gap < 1 ? null : inSlot(mounted, slot, { length, width, bolt })
    if (!found) continue
    best = found
    widest = gap
  }
  return best
}

/** The place nearest the axis; the strap lies along the slot, its nose two fifths of its length in from the bolt. */
function inSlot(
  mounted: Mounted,
  slot: Slot,
  { length, width, bolt }: { length: number; width: number; bolt: number },
): ClampPlace | null {
  const reach = centredReach(length)
  const outermost = mounted.job.lathe.swingOverBed / 2 - CLEAR
  for (let radius = slot.from; radius <= slot.to; radius++) {
    if (Math.hypot(radius + length / 2, width / 2) > outermost) return null
    const stands = polar(radius, slot.angle)
    if (partAt(mounted, stands).off < bolt / 2 + CLEAR) continue
    const nose = polar(radius - reach, slot.angle)
    const on = partAt(mounted, nose)
    if (on.front === null || on.edge < ONTO) continue
    if (meets(mounted, stands, length, width, slot.angle)) continue
    return {
      at: { slot: slot.id, radius },
      nose: { x: roundTo(nose.x, 0.1), y: roundTo(nose.y, 0.1) },
      base: on.front,
      boltToWork: roundTo(reach, 0.1),
    }
  }
  return null
}

/** Whether the strap comes over the bore, where the bar goes, or onto another piece; tried at points across it. */
function meets(mounted: Mounted, at: Point, length: number, width: number, angle: number): boolean {
  const bore = mounted.workBore
  const others = mounted.pieces.filter((p) => p.item.kind !== 'packing').map((p) => p.footprint)
  for (let i = -4; i <= 4; i++)
    for (let j = -1; j <= 1; j++) {
      const along = polar((i * length) / 8, angle)
      const across = polar((j * width) / 2, angle + 90)
      const p = { x: at.x + along.x + across.x, y: at.y + along.y + across.y }
      if (bore && Math.hypot(p.x - bore.centre.x, p.y - bore.centre.y) < bore.bore.diameter / 2 + CLEAR)
        return true
      if (others.some((outline) => distanceToRegion({ outline, holes: [] }, p) <= 0)) return true
    }
  return false
}
