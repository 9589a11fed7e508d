/** What of the part itself stands where a tool would come that faces or turns it outside. */
import { cutPlaces, cutRadii, cutWords, type CutPlace } from '../cutting/cutPlace.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { circleRing } from '../geometry/edges.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { isBoreCut } from '../job/schema.ts'
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
  const ways = waysOf(mounted, place)
  const hits = ways.map((way) => hitIn(mounted, way))
  const [way] = ways
  const [hit] = hits
  if (!way || !hit || hits.includes(null)) return []
  const { cut, item } = place
  const where = `between ${fmt.length(hit.z0)} and ${fmt.length(hit.z1)} from the plate, ${fmt.length(way.inner)} to ${fmt.length(way.outer)} from the axis`
  const message = `${capital(cutWords(cut))}, the tool runs into body ${hit.body} of the part: ${where}. ${way.cure}`
  return [finding('stop', 'in-tool-path', item, message, hit.at)]
}

/** What of the part a way goes through deepest; null where it is free. */
function hitIn(mounted: Mounted, way: Way) {
  if (way.z1 - way.z0 <= SKIN || way.outer - way.inner <= SKIN) return null
  const axis = { x: 0, y: 0 }
  const region = {
    outline: circleRing(axis, 2 * way.outer),
    holes: way.inner > 0 ? [circleRing(axis, 2 * way.inner)] : [],
  }
  const ring = new SpaceSolid([region], way.z0, way.z1, UPRIGHT)
  return deepest(
    partInSpace(mounted).flatMap(({ body, solid }) => {
      const clash = clashOf(ring, solid)
      return clash ? [{ ...clash, body: body.id }] : []
    }),
  )
}

interface Way {
  readonly inner: number
  readonly outer: number
  readonly z0: number
  readonly z1: number
  readonly cure: string
}

/** Radius of what is bored on the axis in this setup as deep as a recess, mm; 0 where nothing is. */
const boredTo = ({ bores, setup }: Mounted, { z0, z1 }: CutPlace): number =>
  Math.max(
    0,
    ...bores.flatMap((b) => {
      const here = (setup.cuts ?? []).some((c) => isBoreCut(c) && c.bore === b.bore.id)
      const onAxis = Math.hypot(b.centre.x, b.centre.y) < TOLERANCE.clashChord
      return here && onAxis && b.z0 <= z0 + SKIN && b.z1 >= z1 - SKIN ? [b.bore.diameter / 2] : []
    }),
  )

/**
 * Outside a turned diameter as long as it is turned, for the tool's point; before a face, for whatever faces it. A recess is
 * come at from within or from in front: one way free is enough. None for what is bored.
 */
function waysOf(mounted: Mounted, place: CutPlace): readonly Way[] {
  const [inner, outer] = cutRadii(place)
  const { z0, z1, cut } = place
  const inFront = (cure: string): Way => ({ inner, outer, z0: z1 + SKIN, z1: z1 + FAR, cure })
  if (cut.kind === 'turn')
    return [
      {
        inner: outer + SKIN,
        outer: outer + TOOL_ROOM,
        z0: z0 + SKIN,
        z1,
        cure: 'Say from and to which height it is turned, and from which diameter.',
      },
    ]
  if (cut.kind === 'face') return [inFront('Face what stands in front first, or face less far.')]
  if (cut.kind !== 'recess') return []
  const cure = 'Bore up to the diameter that it starts at first, or say from which diameter it is cut.'
  return [{ inner: boredTo(mounted, place), outer: inner - SKIN, z0: z0 + SKIN, z1, cure }, inFront(cure)]
}
