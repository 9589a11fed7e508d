/** Whether the washer of a bolt through the part is carried all round by the part. */
import { called, finding } from '../findings/finding.ts'
import { roundCircle } from '../geometry/angles.ts'
import { isWithin } from '../geometry/nearest.ts'
import { boxesMeet, boxOf, type Polygons } from '../geometry/polygonBox.ts'
import { polygonArea, polygonIntersection } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { Hardware } from '../job/schema.ts'
import { discPolygons, flatBodies, materialBetween } from '../mounting/material.ts'
import type { Mounted, MountedFastening, MountedPiece } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { solidUnder, whatLiesAt } from './bearing.ts'
import type { Ruling } from './ruling.ts'

/** Places on the washer's rim that are looked at, how far in from it (mm), and how many in a row may hang. Own choice. */
const RIM = { places: 36, inset: 0.5, gap: 12 } as const

/** N/mm² under a nut or washer at which mild steel and grey iron sink in, VDI 2230, from memory. */
export const SINKS_AT = 490
export const IRON_SINKS_AT = 850

/** mm across what presses under a nut: its load spreads through the washer by half a right angle, and no further than that reaches. */
export const pressesOver = ({ washer, nut }: Pick<MountedFastening, 'washer' | 'nut'>): number =>
  Math.min(washer.diameter, nut.flats + 2 * washer.thickness)

/** A washer that its stud presses into what is left under it, `where` of it; it presses all the same. */
export function sinksIn(
  item: Hardware,
  { at }: MountedFastening,
  where: string,
  area: number,
  high: number | null,
  fmt: Formatter,
  bears = SINKS_AT,
): Ruling[] {
  if (high === null || high <= bears * area) return []
  const message = `The washer of ${called(item)} sinks in ${where}: ${fmt.force(high)} on ${fmt.area(area)}. Use a larger, thick washer, or tighten less; ${bears === SINKS_AT ? 'mild steel' : 'iron'} bears ${fmt.stress(bears)}.`
  return [{ finding: finding('stop', 'washer-too-small', item.id, message, at), makes: null }]
}

/**
 * A third of its rim in a row hanging free lets a washer tip into what is there.
 * @param high N, the most that its stud pulls with; null where it is not known.
 */
export function washerRulings(
  mounted: Mounted,
  { item, at }: MountedPiece,
  fastening: MountedFastening,
  high: number | null,
): Ruling[] {
  const { grip } = fastening
  const over = pressesOver(fastening)
  const solid = solidUnder(mounted, grip, boxOf(discPolygons(at, over)))
  const free = hangsAt(solid, at, over)
  if (!free) {
    const area = polygonArea(polygonIntersection(discPolygons(at, over), solid))
    const fmt = formatter(mounted.job.displayUnits)
    return sinksIn(item, fastening, 'beside the hole of the part', area, high, fmt)
  }
  const message = `The washer of ${called(item)} does not lie on the part all round: beside its bolt is ${whatLiesAt(mounted, free, grip)}. Use a larger, thick washer, or put the bolt through a hole with solid material round it.`
  return [{ finding: finding('stop', 'washer-off', item.id, message, at), makes: 'nothing' }]
}

/** A place on the rim of a washer that hangs over what is there; null where it is carried all round. */
export function hangsAt(solid: Polygons, at: Point, diameter: number): Point | null {
  const rim = roundCircle(at, diameter / 2 - RIM.inset, RIM.places)
  const carried = rim.map((p) => isWithin(solid, p))
  return longestHang(carried) <= RIM.gap ? null : rim[carried.indexOf(false)]!
}

function longestHang(carried: readonly boolean[]): number {
  let [longest, run] = [0, 0]
  for (const c of [...carried, ...carried]) {
    run = c ? 0 : run + 1
    longest = Math.max(longest, run)
  }
  return longest
}

/** Whether the part has no hole for a bolt of this diameter; the check of clashes says so. */
export function isBlocked(mounted: Mounted, at: Point, diameter: number, grip: number): boolean {
  const bolt = discPolygons(at, diameter)
  const box = boxOf(bolt)
  const bodies = flatBodies(mounted).filter((b) => boxesMeet(b.box, box))
  const material = materialBetween(mounted, bodies, 0, grip, box)
  return material.length > 0 && polygonArea(polygonIntersection(bolt, material)) > TOLERANCE.clashArea
}
