/** Whether the part bears the cut where nothing carries it: what the tool pushes along the axis bends it there. */
import { cuttingAdvice } from '../cutting/advice.ts'
import { cutCentre, cutPlaces } from '../cutting/cutPlace.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { roundCircle } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import { columnAt, isSolidAt } from '../mounting/column.ts'
import { isSound } from '../mounting/material.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { keptFor } from '../mounting/kept.ts'
import { FORCE_SHARE } from './machineLoads.ts'
import { packingItems } from './packing.ts'
import { partContact } from './partContact.ts'
import { BENDS_AT, bendingStress, distanceTo } from './support.ts'

/** Places round a cut that are looked at, and mm outside of it. */
const ROUND = 8
const BESIDE = 1

interface Bent {
  readonly stress: number
  readonly force: number
  readonly away: number
  readonly thickness: number
  readonly at: Point
}

/** The worst place of all cuts, where it is beyond what a part may be bent with. */
export const bendFindings = keptFor(judge, (mounted) => [mounted.setup.cuts, ...packingItems(mounted)])

function judge(mounted: Mounted): Finding[] {
  const cutting = isSound(mounted) ? cuttingAdvice(mounted) : null
  if (!cutting) return []
  // Only of a part that the tool pushes toward what carries it.
  const contact = partContact(mounted)
  if (contact.length === 0) return []
  const places = cutPlaces(mounted)
  let worst: Bent | null = null
  for (const [i, row] of cutting.cuts.entries()) {
    const force =
      row.thrust_N ?? (row.tangential_force_N === null ? null : FORCE_SHARE * row.tangential_force_N)
    const place = places[i]
    if (force === null || !place) continue
    const centre = cutCentre(place)
    // What stays round a bore bears its drill too.
    const diameter = Math.max(place.diameter, place.bore?.bore.diameter ?? 0)
    for (const at of roundCircle(centre, diameter / 2 + BESIDE, ROUND)) {
      const thickness = frontThickness(mounted, at)
      // However far off the nearest support is.
      if (thickness === 0 || (6 * force) / thickness ** 2 <= BENDS_AT) continue
      const away = distanceTo(at, contact)
      const stress = bendingStress(force, away, diameter, thickness)
      if (stress > (worst?.stress ?? BENDS_AT)) worst = { stress, force, away, thickness, at }
    }
  }
  return worst ? [bendFinding(mounted, worst)] : []
}

/** mm of unbroken material from the front of the part at a place, less all that this setup cuts; 0 where there is none. */
function frontThickness(mounted: Mounted, at: Point): number {
  const column = columnAt(
    mounted,
    at,
    mounted.bores.filter((b) => b.state !== 'uncut'),
  )
  const spans = [...column.solid, ...column.gone]
  const levels = [...new Set(spans.flatMap((s) => [s.z0, s.z1]))].sort((a, b) => b - a)
  let thickness = 0
  for (const [i, z0] of levels.slice(1).entries()) {
    if (isSolidAt(column, (levels[i]! + z0) / 2)) thickness += levels[i]! - z0
    else if (thickness > 0) break
  }
  return thickness
}

function bendFinding({ job }: Mounted, { stress, force, away, thickness, at }: Bent): Finding {
  const fmt = formatter(job.displayUnits)
  const message = `Whether the part bears the cut is not known: it is thin where nothing carries it. Put packing nearer to the cut, or take a lighter one; ${fmt.force(force)} along the axis on ${fmt.length(thickness)}, ${fmt.length(away)} from the nearest support, bend it with ${fmt.stress(stress)} (rule of thumb: ${fmt.stress(BENDS_AT)}).`
  return finding('caution', 'part-bends', 'setup', message, at)
}
