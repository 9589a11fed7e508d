/** Whether the part is hollow under what presses on it: a roof over a void bends, whatever carries the part below. */
import { called, finding } from '../findings/finding.ts'
import { polygonIntersection } from '../geometry/polygon.ts'
import { boxOf, widened } from '../geometry/polygonBox.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { plainBodies, ringPolygons } from '../mounting/material.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { levelsBelow, solidUnder } from './bearing.ts'
import type { Ruling } from './ruling.ts'
import { BENDS_AT, bendingStress, carriesMiddle, gapBetween, type Press } from './support.ts'

/** mm round a press in which the walls of a void are looked for. */
const WALLS = 100

/** The first void under a press: how thick the roof over it is, and how far off its walls are, mm. */
interface Void {
  readonly roof: number
  readonly arm: number
}

/** @param high N at the high side, 0 where not known. */
export function roofRulings(mounted: Mounted, { item }: MountedPiece, press: Press, high: number): Ruling[] {
  const hollow = voidUnder(mounted, press)
  if (!hollow) return []
  const fmt = formatter(mounted.job.displayUnits)
  const name = called(item)
  const stress = bendingStress(high, hollow.arm, press.width, hollow.roof)
  const walls = `${fmt.length(hollow.roof)} thick over a hollow, its wall ${fmt.length(hollow.arm)} from the toe's middle`
  const cure = 'Press where it is solid, fill the hollow, or tighten it less'
  if (high > 0 && !(stress <= BENDS_AT)) {
    const message = `${name} bends the part: it is hollow there. ${cure}; it is ${walls}, and would be bent with ${fmt.stress(stress)} by ${fmt.force(high)} (rule of thumb: ${fmt.stress(BENDS_AT)}).`
    return [{ finding: finding('stop', 'toe-bends-part', item.id, message, press.at), makes: null }]
  }
  const message = `The part is hollow under ${name}: ${walls}. ${cure}.`
  return [{ finding: finding('caution', 'toe-unsupported', item.id, message, press.at), makes: null }]
}

function voidUnder(mounted: Mounted, press: Press): Void | null {
  const pad = ringPolygons(press.pad)
  const box = boxOf(pad)
  // A round goes down into its vee: what is below the lands is looked at no more.
  const seat = mounted.shelf?.block?.size[1] ?? mounted.seat
  // One body through which nothing goes has no void.
  const bodies = plainBodies(mounted, box)
  if (bodies && bodies.length <= 1) return null
  const levels = [press.z, ...levelsBelow(mounted, press.z), seat].filter((z) => z >= seat)
  for (const [i, top] of levels.entries()) {
    const low = levels[i + 1]
    if (low === undefined || top - low <= TOLERANCE.height) continue
    const middle = (top + low) / 2
    const under = polygonIntersection(pad, solidUnder(mounted, middle, box))
    if (carriesMiddle(under, pad, press.at)) continue
    const roof = press.z - top
    if (roof <= TOLERANCE.height) return null
    const solid = solidUnder(mounted, middle, widened(box, WALLS))
    const arm = solid.length > 0 ? Math.min(WALLS, gapBetween([[press.at]], solid)) : WALLS
    return { roof, arm }
  }
  return null
}
