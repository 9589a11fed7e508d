/** Whether a cut's tool leaves the work and strikes it again in each turn, as the part is drawn. */
import { toRadians } from '../geometry/angles.ts'
import { farthestFrom } from '../geometry/farthest.ts'
import { isInside, nearestTo } from '../geometry/nearest.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Ring } from '../geometry/types.ts'
import { unplacePoint } from '../mounting/place.ts'
import type { Mounted, MountedBody, MountedBore } from '../mounting/types.ts'
import { cutCentre, cutRadii, type CutPlace } from './cutPlace.ts'

/** Degrees between the places looked at round a circle: a gap narrower than this is hardly a blow. */
const STEP = 3
/** mm that a circle is looked at within what is cut, so that a hole drawn at the starting size does not count. */
const WITHIN = 0.05
/** Share of a turn that may be met or missed before it counts as one: what outlines and rounding leave. */
const SLIGHT = 0.02

/** Whether what a share of a turn says is whole, or nothing, but for rounding. */
export const isWhole = (share: number): boolean => share >= 1 - SLIGHT
export const isNothing = (share: number): boolean => share <= SLIGHT

/** What lies round a bore in one of the layers that the bodies' faces make of it. */
export interface Around {
  /** Share of a circle about its centre that lies in material, less bores cut earlier, 0 to 1. @param radius mm. */
  share(radius: number): number
  /** Radii, mm, between two at which to look: each stands for a ring in which nothing begins or ends. */
  radii(between: readonly [number, number]): number[]
}

/** From the plate out. @param place of a cut. */
export function layersAround(mounted: Mounted, place: CutPlace): Around[] {
  // In the part's own frame, where what is known of its outlines stays as it is moved over the plate.
  const centre = unplacePoint(mounted.placement, cutCentre(place))
  const bodies = mounted.bodies.map((b) => layerOf(b, centre))
  return heightsOf(mounted.bodies, place).map((z) => {
    const here = bodies.filter((b) => b.z0 < z && z < b.z1)
    const open = mounted.bores.filter((b) => b.state === 'open' && b.z0 < z && z < b.z1)
    return {
      share: (radius) => shareMet(here, open, centre, radius),
      radii: (ends) => radiiOf(here, open, centre, ends),
    }
  })
}

/** True where on a circle that it cuts the tool meets material for part of the turn only. */
export const isInterrupted = (mounted: Mounted, place: CutPlace): boolean =>
  layersAround(mounted, place).some(({ radii, share }) =>
    radii(cutRadii(place)).some((radius) => {
      const met = share(radius)
      return !isNothing(met) && !isWhole(met)
    }),
  )

/** A ring with how near and how far it lies from the centre of the cut, so that most circles need no closer look. */
interface RingSeen {
  readonly ring: Ring
  readonly near: number
  readonly far: number
  readonly holdsCentre: boolean
}
interface Layer {
  readonly adds: boolean
  readonly z0: number
  readonly z1: number
  readonly regions: readonly { readonly outline: RingSeen; readonly holes: readonly RingSeen[] }[]
}

const seen = (ring: Ring, centre: Point): RingSeen => ({
  ring,
  near: nearestTo(ring, centre).distance,
  far: farthestFrom(ring, centre).distance,
  holdsCentre: isInside(ring, centre),
})

const layerOf = ({ body, shape, z0, z1 }: MountedBody, centre: Point): Layer => ({
  adds: body.effect === 'adds',
  z0,
  z1,
  regions: shape.regions.map((r) => ({
    outline: seen(r.outline, centre),
    holes: r.holes.map((h) => seen(h, centre)),
  })),
})

function holds({ ring, near, far, holdsCentre }: RingSeen, p: Point, radius: number): boolean {
  if (radius > far) return false
  return radius < near ? holdsCentre : isInside(ring, p)
}

/** Middle heights of the layers that the bodies' faces make of a cut. */
function heightsOf(bodies: readonly MountedBody[], { z0, z1 }: CutPlace): number[] {
  return middles(
    z0,
    bodies.flatMap((b) => [b.z0, b.z1]),
    z1,
  )
}

/** The ends of what is cut, and a circle between each two at which something begins or ends. */
function radiiOf(
  here: readonly Layer[],
  open: readonly MountedBore[],
  centre: Point,
  [inner, outer]: readonly [number, number],
): number[] {
  const rings = here.flatMap((b) => b.regions.flatMap((r) => [r.outline, ...r.holes]))
  const bored = open.flatMap((b) => {
    const off = Math.hypot(b.bore.x - centre.x, b.bore.y - centre.y)
    return [off - b.bore.diameter / 2, off + b.bore.diameter / 2]
  })
  const between = middles(inner, [...rings.flatMap((r) => [r.near, r.far]), ...bored], outer)
  return [inner + WITHIN, ...between, outer - WITHIN].filter((r) => r > WITHIN && r > inner && r < outer)
}

/** Middles of the pieces that the marks cut a stretch into; pieces that are only rounding have none. */
function middles(from: number, marks: readonly number[], to: number): number[] {
  const cuts = [...new Set([from, ...marks.filter((m) => m > from && m < to), to])].sort((a, b) => a - b)
  return cuts.slice(1).flatMap((end, i) => {
    const start = cuts[i]!
    return end - start > TOLERANCE.height ? [(start + end) / 2] : []
  })
}

function shareMet(
  here: readonly Layer[],
  open: readonly MountedBore[],
  centre: Point,
  radius: number,
): number {
  const inLayer = ({ regions }: Layer, p: Point) =>
    regions.some((r) => holds(r.outline, p, radius) && !r.holes.some((h) => holds(h, p, radius)))
  let met = 0
  for (let degrees = 0; degrees < 360; degrees += STEP) {
    const angle = toRadians(degrees + STEP / 2)
    const p = { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) }
    const bored = open.some(({ bore }) => Math.hypot(p.x - bore.x, p.y - bore.y) < bore.diameter / 2)
    if (bored || here.some((b) => !b.adds && inLayer(b, p))) continue
    if (here.some((b) => b.adds && inLayer(b, p))) met++
  }
  return (met * STEP) / 360
}
