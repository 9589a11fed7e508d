/** Whether the part is carried straight under a toe, and whether it bends where it is not. */
import { called, finding } from '../findings/finding.ts'
import { roundCircle } from '../geometry/angles.ts'
import { ringEdges } from '../geometry/edges.ts'
import { isWithin, nearestOnEdge } from '../geometry/nearest.ts'
import { boxesMeet, boxOf, type Polygons } from '../geometry/polygonBox.ts'
import { polygonArea, polygonIntersection } from '../geometry/polygon.ts'
import type { Point, Ring } from '../geometry/types.ts'
import type { Hardware } from '../job/schema.ts'
import { discPolygons, ringPolygons } from '../mounting/material.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { levelsBelow, solidUnder } from './bearing.ts'
import { ContactHull } from './contact.ts'
import type { Carried } from './packing.ts'
import type { Ruling } from './ruling.ts'

/**
 * N/mm² that a part may be bent with where nothing carries it under a toe: well under half of what the weakest usual
 * iron breaks at in tension, 150. Own choice.
 */
export const BENDS_AT = 60

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

/**
 * N/mm² in a plate by a force, N, at an arm from the nearest support, mm: a cantilever as wide as what presses, and
 * more by as much as it is long.
 */
export const bendingStress = (force: number, arm: number, width: number, thickness: number): number =>
  (6 * force * arm) / ((width + arm) * thickness ** 2)

/** mm from a place to the nearest of what carries the part; 0 over it. */
export const distanceTo = (at: Point, contact: readonly Carried[]): number =>
  contact.some((c) => isWithin(c.on, at)) ? 0 : (nearestOf([[at]], contact) ?? Infinity)

/** mm to the nearest of what carries the part; null where nothing does. */
function nearestOf(from: Polygons, contact: readonly Carried[]): number | null {
  const gap = Math.min(...contact.map((c) => gapBetween(from, c.on)))
  return Number.isFinite(gap) ? gap : null
}

/** What of a pad is carried by a place of support; kept, for where a piece presses never changes in one place of it. */
const known = new WeakMap<Carried, WeakMap<Hardware, Polygons>>()

function underPad(carried: Carried, item: Hardware, ring: Ring): Polygons {
  let pieces = known.get(carried)
  if (!pieces) known.set(carried, (pieces = new WeakMap()))
  let under = pieces.get(item)
  if (under === undefined) {
    const pad = ringPolygons(ring)
    under = boxesMeet(boxOf(carried.on), boxOf(pad)) ? polygonIntersection(pad, carried.on) : []
    pieces.set(item, under)
  }
  return under
}

/** Share of a pad that carries it wherever it lies. Own choice. */
const MOST_OF_IT = 0.5

/** A sliver beside its middle carries no pad: it would bend or tip off over it. */
export const carriesMiddle = (under: Polygons, pad: Polygons, middle: Point): boolean =>
  polygonArea(under) >= MOST_OF_IT * polygonArea(pad) || new ContactHull(under.flat()).holds(middle)

/** Where something presses on the part, how high and how wide, mm. */
export interface Press {
  readonly pad: Ring
  readonly at: Point
  readonly z: number
  readonly width: number
}

/** @param high N at the high side, 0 where not known. */
export function supportRulings(
  mounted: Mounted,
  { item }: MountedPiece,
  press: Press,
  contact: readonly Carried[],
  high: number,
): Ruling[] {
  if (contact.length === 0) return []
  const pad = ringPolygons(press.pad)
  const under = contact.flatMap((c) => underPad(c, item, press.pad))
  if (carriesMiddle(under, pad, press.at)) return []
  const nearest = under.length > 0 ? 0 : nearestOf(pad, contact)
  const fromMiddle = nearestOf([[press.at]], contact)
  if (nearest === null || fromMiddle === null) return []
  const fmt = formatter(mounted.job.displayUnits)
  const name = called(item)
  const away = (mm: number) =>
    mm > 0 ? `the nearest support is ${fmt.length(mm)} away` : 'what carries it meets no more than its rim'
  const thickness = thicknessBeside(mounted, press)
  const packed = mounted.setup.packing > 0
  const cure = packed
    ? 'Put packing under the toe, or move the toe over it'
    : 'Move the toe over what lies on the plate'
  const arm = fromMiddle
  const stress = bendingStress(high, arm, press.width, thickness)
  if (high > 0 && !(stress <= BENDS_AT)) {
    const message = `${name} bends the part: nothing carries it under the toe. ${cure}, or tighten it less; ${away(nearest)}, the part there is ${fmt.length(thickness)} thick and would be bent with ${fmt.stress(stress)} by ${fmt.force(high)} (rule of thumb: ${fmt.stress(BENDS_AT)}).`
    return [{ finding: finding('stop', 'toe-bends-part', item.id, message, press.at), makes: null }]
  }
  const message = `Nothing carries the part straight under ${name}: ${away(nearest)}. ${cure}.`
  return [{ finding: finding('caution', 'toe-unsupported', item.id, message, press.at), makes: null }]
}

/** Places on the rim of what presses that are looked at round a hole in its middle. */
const RIM = 8

/** mm of the part under the middle of a press; under its rim where there is a hole for its bolt. */
function thicknessBeside(
  mounted: Mounted,
  { at, z, width }: { readonly at: Point; readonly z: number; readonly width: number },
): number {
  const middle = thicknessUnder(mounted, at, z)
  if (middle > 0) return middle
  const rim = roundCircle(at, width / 2 - 1, RIM)
  const there = rim.map((p) => thicknessUnder(mounted, p, z)).filter((t) => t > 0)
  return there.length > 0 ? Math.min(...there) : 0
}

/** mm of unbroken material below a height at a place. */
function thicknessUnder(mounted: Mounted, at: Point, z: number): number {
  const spot = discPolygons(at, 1)
  const box = boxOf(spot)
  let low = z
  for (const level of levelsBelow(mounted, z)) {
    const solid = solidUnder(mounted, (low + level) / 2, box)
    if (solid.length === 0 || polygonArea(polygonIntersection(spot, solid)) <= 0) break
    low = level
  }
  return z - low
}
