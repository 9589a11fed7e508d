/** What this setup's bores leave standing round them. */
import { cutPlaces, type CutPlace } from '../cutting/cutPlace.ts'
import { isNothing, isWhole, layersAround } from '../cutting/interruption.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { isPrism } from '../job/schema.ts'
import { keptFor } from '../mounting/kept.ts'
import type { Mounted, MountedBore } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'

/** mm: a thinner wall is none. Own choice. */
const WALL = 1
/** Share of the way round that may be without a wall, as where a bore runs into a slot or a keyway. Own choice. */
const OPEN = 0.5
/** Shares of the radius that rings of equal area end at: a bore that is cut mostly in a hollow opens none. */
const IN_CORE = [0.5, 0.7, 0.87, 0.98]
/** mm outside of the starting hole's edge. */
const WITHIN = 0.05

/** Of parts drawn by outlines: of a mesh only silhouettes are known, which a bore does not open. */
export const boreWallFindings = keptFor(
  (mounted) =>
    mounted.job.part.bodies.every(isPrism)
      ? mounted.bores.filter((b) => b.state === 'to cut').flatMap((b) => wallOf(mounted, b))
      : [],
  ({ setup }) => [setup.cuts],
)

/** Whether this setup turns the outside down to a bore on the axis, somewhere along it. */
const thinnedBy = (mounted: Mounted, { diameter, z0, z1, bore }: CutPlace): boolean =>
  bore !== null &&
  Math.hypot(bore.centre.x, bore.centre.y) < diameter / 2 &&
  cutPlaces(mounted).some(
    (p) =>
      p.cut.kind === 'turn' &&
      Math.min(p.z1, z1) - Math.max(p.z0, z0) > TOLERANCE.height &&
      p.cut.diameter < diameter + 2 * WALL,
  )

function wallOf(mounted: Mounted, cut: MountedBore): Finding[] {
  const place = cutPlaces(mounted).find((p) => p.bore === cut)
  if (!place) return []
  const { bore, centre, z0, z1 } = cut
  const fmt = formatter(mounted.job.displayUnits)
  const radius = bore.diameter / 2
  const whole: CutPlace = { ...place, diameter: bore.diameter, z0, z1 }
  // Where the starting hole is open to a side, it is so on purpose.
  const isThere = (share: (radius: number) => number) =>
    bore.start > 0
      ? isWhole(share(bore.start / 2 + WITHIN))
      : IN_CORE.reduce((sum, part) => sum + share(part * radius), 0) > IN_CORE.length / 2
  const turned = thinnedBy(mounted, whole)
  const walls = [
    ...layersAround(mounted, whole)
      .filter((layer) => isThere(layer.share))
      .map((layer) => layer.share(radius + WALL)),
    ...(turned ? [0] : []),
  ]
  if (walls.length === 0) return []
  const size = fmt.length(bore.diameter)
  if (walls.every(isNothing)) {
    const message = `Bore ${bore.id} is as wide as the part where it is cut: at ${size} nothing is left standing round it. Check its diameter and its place.`
    return [finding('stop', 'bore-wall', bore.id, message, centre)]
  }
  const least = Math.min(...walls)
  if (isWhole(least)) return []
  if (least > OPEN) {
    const message = `Bore ${bore.id} leaves hardly a wall in places: at ${size} less than ${fmt.length(WALL)} stands beside it over ${fmt.percent(1 - least)} of its way round. Check that it is meant so, and press no toe there.`
    return [finding('caution', 'bore-wall-thin', bore.id, message, centre)]
  }
  const message = `What bore ${bore.id} leaves is not known to hold together: at ${size} it has less than ${fmt.length(WALL)} of wall over ${fmt.percent(1 - least)} of its way round. Check its diameter and its place.`
  return [finding('caution', 'bore-wall', bore.id, message, centre)]
}
