/** Whether the part bears the cut where nothing carries it: what the tool pushes along the axis bends it there. */
import { cuttingAdvice } from '../cutting/advice.ts'
import { cutPlaces } from '../cutting/cutPlace.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { FULL_TURN, onCircle } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import { discPolygons, isSound, restOn } from '../mounting/material.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter, plain } from '../units/format.ts'
import { keptFor } from './kept.ts'
import { packingItems } from './packing.ts'
import { partContact } from './partContact.ts'
import { BENDS_AT, bendingStress, distanceTo, thicknessUnder } from './support.ts'

/** Places round a cut that are looked at, mm outside of it, and how large each is. */
const ROUND = 8
const BESIDE = 1
const SPOT = 1
/** Axial force as a share of the tangential one, as for the joints. */
const FEED = 0.5

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
  const contact = partContact(mounted)
  if (contact.length === 0) return []
  const places = cutPlaces(mounted)
  let worst: Bent | null = null
  for (const [i, row] of cutting.cuts.entries()) {
    const force = row.thrust_N ?? (row.tangential_force_N === null ? null : FEED * row.tangential_force_N)
    const place = places[i]
    if (force === null || !place) continue
    const centre = place.bore?.centre ?? AXIS
    // What stays round a bore bears its drill too.
    const diameter = Math.max(place.diameter, place.bore?.bore.diameter ?? 0)
    for (let k = 0; k < ROUND; k++) {
      const at = onCircle(centre, diameter / 2 + BESIDE, (FULL_TURN * k) / ROUND)
      const rest = restOn(mounted, discPolygons(at, SPOT))
      if (!rest) continue
      const away = distanceTo(at, contact)
      const thickness = thicknessUnder(mounted, at, rest.z)
      if (!(thickness > 0)) continue
      const stress = bendingStress(force, away, diameter, thickness)
      if (stress > (worst?.stress ?? BENDS_AT)) worst = { stress, force, away, thickness, at }
    }
  }
  return worst ? [bendFinding(mounted, worst)] : []
}

const AXIS: Point = { x: 0, y: 0 }

function bendFinding({ job }: Mounted, { stress, force, away, thickness, at }: Bent): Finding {
  const fmt = formatter(job.displayUnits)
  const message = `Whether the part bears the cut is not known: it is thin where nothing carries it. Put packing nearer to the cut, or take a lighter one; ${fmt.force(force)} along the axis on ${fmt.length(thickness)}, ${fmt.length(away)} from the nearest support, bend it with ${plain(stress, 0)} N/mm² (rule of thumb: ${BENDS_AT}).`
  return finding('caution', 'part-bends', 'setup', message, at)
}
