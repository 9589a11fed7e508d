/** The part's material as flattened polygons with heights: what lies at a height, and what carries a pad from below. */
import { keptOf } from '../geometry/kept.ts'
import { flattenRegion, flattenRing } from '../geometry/flatten.ts'
import { circleRing } from '../geometry/edges.ts'
import {
  boxesMeet,
  boxOf,
  covers,
  discBox,
  nearBox,
  reaches,
  type Box,
  type Polygons,
} from '../geometry/polygonBox.ts'
import { polygonArea, polygonDifference, polygonIntersection, polygonUnion } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Ring } from '../geometry/types.ts'
import { bodyFaults } from '../job/faults.ts'
import { isPrism } from '../job/schema.ts'
import { placePoints } from './place.ts'
import type { Rest } from './rest.ts'
import type { BodyShape, MountedBody, MountedBore, Placement } from './types.ts'

/** What of a mounted setup is asked for its material. */
export interface MountedPart {
  readonly placement: Placement
  readonly bodies: readonly MountedBody[]
  readonly turned: readonly MountedBody[]
  readonly bores: readonly MountedBore[]
}

/** Millimetres by which two height ranges overlap. */
export const heightOverlap = (a: { z0: number; z1: number }, b: { z0: number; z1: number }): number =>
  Math.min(a.z1, b.z1) - Math.max(a.z0, b.z0)

/** A ring as chords within TOLERANCE.clashChord; mm. */
export const ringPolygons = (ring: Ring): Polygons => [flattenRing(ring, TOLERANCE.clashChord)]
export const discPolygons = (centre: Point, diameter: number): Polygons =>
  ringPolygons(circleRing(centre, diameter))

export interface FlatBody {
  readonly id: string
  readonly adds: boolean
  readonly polygons: Polygons
  readonly box: Box
  readonly z0: number
  readonly z1: number
}

const kept = new WeakMap<readonly MountedBody[], readonly FlatBody[]>()

/**
 * The part's bodies flattened, and after them what was turned away of it; kept per list of mounted bodies, for several
 * checks ask it.
 */
export function flatBodies(mounted: MountedPart): readonly FlatBody[] {
  let bodies = kept.get(mounted.bodies)
  if (!bodies) kept.set(mounted.bodies, (bodies = flatten(mounted)))
  return bodies
}

/** A body's outlines as points, part frame; kept per shape, which stays as long as the body, so a drag flattens it once. */
export const flatOutlines = keptOf(({ regions }: BodyShape): Polygons =>
  regions.flatMap((r) => flattenRegion(r, TOLERANCE.clashChord)),
)

function flatten(mounted: MountedPart): FlatBody[] {
  return [...mounted.bodies, ...mounted.turned].map(({ body, shape, z0, z1 }) => {
    const polygons = flatOutlines(shape).map((ring) => placePoints(mounted.placement, ring))
    return { id: body.id, adds: body.effect === 'adds', polygons, box: boxOf(polygons), z0, z1 }
  })
}

/**
 * The part's material anywhere between two heights, near a box: adding bodies, less what removing bodies and bores
 * cut earlier take away through the whole of the range. What does not come into the box is left out.
 */
export function materialBetween(
  mounted: Pick<MountedPart, 'bores'>,
  bodies: readonly FlatBody[],
  z0: number,
  z1: number,
  near: Box,
): Polygons {
  let material: Polygons = []
  const isNear = (b: FlatBody) => boxesMeet(b.box, near) && reaches(b.polygons, near)
  for (const b of bodies) {
    if (!b.adds || heightOverlap(b, { z0, z1 }) <= TOLERANCE.height || !isNear(b)) continue
    const low = Math.max(b.z0, z0)
    const high = Math.min(b.z1, z1)
    let left = nearBox(b.polygons, near)
    for (const r of bodies) {
      if (!r.adds && r.z0 <= low + TOLERANCE.height && r.z1 >= high - TOLERANCE.height && isNear(r))
        left = polygonDifference(left, r.polygons)
    }
    for (const bore of mounted.bores) {
      const through = bore.z0 <= low + TOLERANCE.height && bore.z1 >= high - TOLERANCE.height
      if (bore.state === 'open' && through) left = without(bore, left, near)
    }
    material = material.length === 0 ? left : polygonUnion(material, left)
  }
  return material
}

/** Material between two heights, near a box, less what this setup cuts away there: what lies there before and after. */
export function lessToCut(
  { bores }: Pick<MountedPart, 'bores'>,
  material: Polygons,
  heights: { readonly z0: number; readonly z1: number },
  near: Box,
): Polygons {
  let left = material
  for (const bore of bores) {
    if (bore.state === 'to cut' && left.length > 0 && heightOverlap(bore, heights) > TOLERANCE.height)
      left = without(bore, left, near)
  }
  return left
}

const without = ({ centre, bore }: MountedBore, material: Polygons, near: Box): Polygons =>
  boxesMeet(discBox(centre, bore.diameter), near)
    ? polygonDifference(material, discPolygons(centre, bore.diameter))
    : material

/** The part's bodies near a box where nothing is taken out of them, before or after this setup's cut; null where something is. */
export function plainBodies(part: MountedPart, box: Box): readonly FlatBody[] | null {
  const near = flatBodies(part).filter((b) => boxesMeet(b.box, box))
  const isClear = (b: MountedBore) =>
    b.state === 'uncut' || !boxesMeet(discBox(b.centre, b.bore.diameter), box)
  return near.every((b) => b.adds) && part.bores.every(isClear) ? near : null
}

/** mm: how thin a layer under a surface is looked at. */
export const SKIN = 0.05

/** Whether the part's outlines can be given to the polygon library at all: it may not return from a faulty one. */
export const isSound = (part: Pick<MountedPart, 'bodies'>): boolean =>
  part.bodies.every(({ body }) => !isPrism(body) || bodyFaults(body).length === 0)

/** The part under a pad; null where there is none, or its outlines are faulty. Bodies that come from a mesh count as their silhouette's prism. */
export function restOn(part: MountedPart, pad: Polygons): Rest | null {
  if (!isSound(part)) return null
  const bodies = flatBodies(part)
  const box = boxOf(pad)
  const whole = plainTop(part, box)
  if (whole) return { z: whole.z1, share: 1, on: pad }
  const near = bodies.filter((b) => boxesMeet(b.box, box))
  const tops = new Set<number>()
  for (const b of near) tops.add(b.adds ? b.z1 : b.z0)
  for (const bore of part.bores) if (bore.state === 'open' && !bore.through) tops.add(bore.z0)
  for (const z of [...tops].sort((p, q) => q - p)) {
    const on = polygonIntersection(pad, materialBetween(part, near, z - SKIN, z, box))
    const area = polygonArea(on)
    if (area > TOLERANCE.clashArea) return { z, share: area / polygonArea(pad), on }
  }
  return null
}

/** The body whose front is foremost all over a box: the polygon library need not be asked. */
function plainTop(part: MountedPart, box: Box): FlatBody | null {
  const near = plainBodies(part, box)
  const top = near?.reduce<FlatBody | null>((a, b) => (a && a.z1 >= b.z1 ? a : b), null)
  return top && top.z1 - top.z0 > SKIN && covers(top.polygons, box) ? top : null
}
