/** What of the part itself stands where a tool would come that faces or turns it outside. */
import { cutPlaces, cutRadii, cutWords, type CutPlace } from '../cutting/cutPlace.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { circleRing } from '../geometry/edges.ts'
import { UPRIGHT } from '../geometry/space/pose.ts'
import { clashOf, deepest, SpaceSolid } from '../geometry/space/solid.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import { partInSpace } from './partInSpace.ts'
import { TOOL_ROOM } from './toolPath.ts'

/** mm of skin beyond what is said to be cut that a tool takes along. Own choice. */
const SKIN = 0.5
/** mm that a tool comes from in front: past whatever stands on a faceplate. */
const FAR = 10_000

/** Its outlines must be sound. */
export function partInToolPath(mounted: Mounted): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  return cutPlaces(mounted).flatMap((place) => inTheWay(mounted, place, fmt))
}

function inTheWay(mounted: Mounted, place: CutPlace, fmt: Formatter): Finding[] {
  const way = wayOf(place)
  if (!way || way.z1 - way.z0 <= SKIN || way.outer - way.inner <= SKIN) return []
  const axis = { x: 0, y: 0 }
  const region = {
    outline: circleRing(axis, 2 * way.outer),
    holes: way.inner > 0 ? [circleRing(axis, 2 * way.inner)] : [],
  }
  const ring = new SpaceSolid([region], way.z0, way.z1, UPRIGHT)
  const hit = deepest(
    partInSpace(mounted).flatMap(({ body, solid }) => {
      const clash = clashOf(ring, solid)
      return clash ? [{ ...clash, body: body.id }] : []
    }),
  )
  if (!hit) return []
  const { cut, item } = place
  const where = `between ${fmt.length(hit.z0)} and ${fmt.length(hit.z1)} from the plate, ${fmt.length(way.inner)} to ${fmt.length(way.outer)} from the axis`
  const message = `${capital(cutWords(cut))}, the tool runs into body ${hit.body} of the part: ${where}. ${way.cure}`
  return [finding('stop', 'in-tool-path', item, message, hit.at)]
}

interface Way {
  readonly inner: number
  readonly outer: number
  readonly z0: number
  readonly z1: number
  readonly cure: string
}

/**
 * Outside a turned diameter as long as it is turned, for the tool's point; before a face, for whatever faces it. Null for
 * what is cut from within.
 */
function wayOf(place: CutPlace): Way | null {
  const [inner, outer] = cutRadii(place)
  const { z0, z1, cut } = place
  if (cut.kind === 'turn')
    return {
      inner: outer + SKIN,
      outer: outer + TOOL_ROOM,
      z0: z0 + SKIN,
      z1,
      cure: 'Say from and to which height it is turned, and from which diameter.',
    }
  if (cut.kind === 'face')
    return {
      inner,
      outer,
      z0: z1 + SKIN,
      z1: z1 + FAR,
      cure: 'Face what stands in front first, or face less far.',
    }
  return null
}
