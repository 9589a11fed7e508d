/** Whether the part is carried straight under a toe, and whether it bends where it is not. */
import { called, finding } from '../findings/finding.ts'
import { ringEdges } from '../geometry/edges.ts'
import { nearestOnEdge } from '../geometry/nearest.ts'
import { boxesMeet, boxOf, type Polygons } from '../geometry/polygonBox.ts'
import { polygonArea, polygonIntersection } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Ring } from '../geometry/types.ts'
import type { Hardware } from '../job/schema.ts'
import { discPolygons, ringPolygons } from '../mounting/material.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter, plain } from '../units/format.ts'
import { solidUnder } from './bearing.ts'
import type { Carried } from './packing.ts'
import type { Ruling } from './ruling.ts'

/**
 * N/mm² that a part may be bent with where nothing carries it under a toe: well under half of what the weakest usual
 * iron breaks at in tension, 150. Own choice.
 */
const BENDS_AT = 60

/** mm between two sets of outlines that do not overlap; Infinity where one has none. */
export function gapBetween(a: Polygons, b: Polygons): number {
  const least = (from: Polygons, to: Polygons) => {
    const edges = to.flatMap((ring) => ringEdges(ring))
    let gap = Infinity
    for (const p of from.flat()) {
      for (const e of edges) {
        const q = nearestOnEdge(e, p)
        gap = Math.min(gap, Math.hypot(p.x - q.x, p.y - q.y))
      }
    }
    return gap
  }
  return Math.min(least(a, b), least(b, a))
}

/** mm to the nearest of what carries the part; null where nothing does. */
function nearestOf(from: Polygons, contact: readonly Carried[]): number | null {
  const gap = Math.min(...contact.map((c) => gapBetween(from, c.on)))
  return Number.isFinite(gap) ? gap : null
}

/** Whether a place of support lies under a pad; kept, for where a piece presses never changes in one place of it. */
const known = new WeakMap<Carried, WeakMap<Hardware, boolean>>()

function isUnder(carried: Carried, item: Hardware, ring: Ring): boolean {
  let pieces = known.get(carried)
  if (!pieces) known.set(carried, (pieces = new WeakMap()))
  let under = pieces.get(item)
  if (under === undefined) {
    const pad = ringPolygons(ring)
    under =
      boxesMeet(boxOf(carried.on), boxOf(pad)) &&
      polygonArea(polygonIntersection(pad, carried.on)) > TOLERANCE.clashArea
    pieces.set(item, under)
  }
  return under
}

/** @param press where it presses on the part and how high. @param high N at the high side, 0 where not known. */
export function supportRulings(
  mounted: Mounted,
  { item }: MountedPiece,
  press: { readonly pad: Ring; readonly at: Point; readonly z: number; readonly width: number },
  contact: readonly Carried[],
  high: number,
): Ruling[] {
  if (contact.length === 0) return []
  if (contact.some((c) => isUnder(c, item, press.pad))) return []
  const pad = ringPolygons(press.pad)
  const nearest = nearestOf(pad, contact)
  const fromMiddle = nearestOf([[press.at]], contact)
  if (nearest === null || fromMiddle === null) return []
  const fmt = formatter(mounted.job.displayUnits)
  const name = called(item)
  const thickness = thicknessUnder(mounted, press.at, press.z)
  const packed = mounted.setup.packing > 0
  const cure = packed
    ? 'Put packing under the toe, or move the toe over it'
    : 'Move the toe over what lies on the plate'
  // A cantilever from the nearest support, its width spread by as much as it is long.
  const arm = fromMiddle
  const stress = (6 * high * arm) / ((press.width + arm) * thickness ** 2)
  if (high > 0 && !(stress <= BENDS_AT)) {
    const message = `${name} bends the part: nothing carries it under the toe. ${cure}, or tighten it less; the nearest support is ${fmt.length(nearest)} away, the part there is ${fmt.length(thickness)} thick and would be bent with ${plain(stress, 0)} N/mm² by ${fmt.force(high)} (rule of thumb: ${BENDS_AT}).`
    return [{ finding: finding('stop', 'toe-bends-part', item.id, message, press.at), makes: null }]
  }
  const message = `Nothing carries the part straight under ${name}: the nearest support is ${fmt.length(nearest)} away. ${cure}.`
  return [{ finding: finding('caution', 'toe-unsupported', item.id, message, press.at), makes: null }]
}

/** mm of unbroken material below a height at a place. */
function thicknessUnder(mounted: Mounted, at: Point, z: number): number {
  const spot = discPolygons(at, 1)
  const box = boxOf(spot)
  const levels = new Set<number>()
  for (const b of mounted.bodies) for (const l of [b.z0, b.z1]) if (l < z - TOLERANCE.height) levels.add(l)
  for (const b of mounted.bores) for (const l of [b.z0, b.z1]) if (l < z - TOLERANCE.height) levels.add(l)
  let low = z
  const falling = [...levels].sort((p, q) => q - p)
  let top = z
  for (const level of falling) {
    const middle = (top + level) / 2
    const solid = solidUnder(mounted, middle, box)
    if (solid.length === 0 || polygonArea(polygonIntersection(spot, solid)) <= 0) break
    low = level
    top = level
  }
  return z - low
}
