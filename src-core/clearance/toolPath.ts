/** What stands in the way of a tool that turns about the axis: faces, turns outside or recesses. */
import { cutPlaces, cutRadii, cutWords, type CutPlace } from '../cutting/cutPlace.ts'
import { called, finding, type Finding } from '../findings/finding.ts'
import { farthestFrom } from '../geometry/farthest.ts'
import { isInside, nearestTo } from '../geometry/nearest.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Ring } from '../geometry/types.ts'
import { isBoreCut } from '../job/schema.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import { planOf } from './inSpace.ts'

const AXIS: Point = { x: 0, y: 0 }

/** mm that a tool's point and corner take beyond what they cut. Rule of thumb, Evenswing's own. */
export const TOOL_ROOM = 3

/** Whatever goes round in the ring that a tool comes through from the front, as deep as it cuts. */
export function toolPathFindings(mounted: Mounted): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  return cutPlaces(mounted)
    .filter(({ cut }) => !isBoreCut(cut))
    .flatMap((place) => [
      ...intoPlate(fmt, place),
      ...mounted.pieces.flatMap((piece) => inTheWay(fmt, place, piece)),
    ])
}

function intoPlate(fmt: Formatter, { cut, item, z0 }: CutPlace): Finding[] {
  if (z0 >= -TOLERANCE.height) return []
  const message = `${capital(cutWords(cut))} goes ${fmt.length(-z0)} into the plate. Pack the part up, or stop short.`
  return [finding('stop', 'breakthrough-plate', item, message)]
}

function inTheWay(fmt: Formatter, place: CutPlace, piece: MountedPiece): Finding[] {
  const [inner, outer] = cutRadii(place)
  const [from, to] = [inner, outer + TOOL_ROOM]
  const above = place.z0 + TOLERANCE.height
  // What stands round the tool's ring is not in it.
  const roundIt = ({ lies, holes = [] }: MountedPiece['solids'][number]) =>
    !lies && holes.some((h) => isInside(h, AXIS) && nearestTo(h, AXIS).distance >= to)
  const hit = piece.solids
    .filter((s) => s.z1 > above && !roundIt(s))
    .flatMap((s): readonly Ring[] => (s.lies ? planOf(s, above, Infinity) : [s.ring]))
    .find((ring) => farthestFrom(ring, AXIS).distance > from && nearestOf(ring) < to)
  if (!hit) return []
  const at = nearestTo(hit, AXIS).point
  const message = `${called(piece.item)} stands in the tool's way, ${cutWords(place.cut)}: between ${fmt.length(from)} and ${fmt.length(to)} from the axis (${fmt.length(TOOL_ROOM)} for the tool's point, a rule of thumb), above ${fmt.length(place.z0)}. Move it out of that ring, hold the part elsewhere, or cut less far.`
  return [finding('stop', 'in-tool-path', piece.item.id, message, at)]
}

const nearestOf = (ring: Ring): number => (isInside(ring, AXIS) ? 0 : nearestTo(ring, AXIS).distance)
