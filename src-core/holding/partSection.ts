/** Sections of the part parallel to its seat: what is left there after this setup's cut, and how it resists bending. */
import { convexHull } from '../geometry/convexHull.ts'
import { turning } from '../geometry/angles.ts'
import { circleRing } from '../geometry/edges.ts'
import { flattenRing } from '../geometry/flatten.ts'
import { inRegion, nearestTo } from '../geometry/nearest.ts'
import { boxOf, type Polygons } from '../geometry/polygonBox.ts'
import { polygonUnion } from '../geometry/polygon.ts'
import {
  addMoments,
  NO_MOMENTS,
  regionMoments,
  ringMoments,
  scaleMoments,
  signedRingMoments,
  type Moments,
} from '../geometry/ringMoments.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { sameList } from '../geometry/kept.ts'
import { keptFor } from '../mounting/kept.ts'
import type { Point, Ring } from '../geometry/types.ts'
import {
  flatBodies,
  heightOverlap,
  lessToCut,
  materialBetween,
  SKIN,
  type MountedPart,
} from '../mounting/material.ts'
import { placePoint, unplacePoint } from '../mounting/place.ts'
import type { BodyShape, Mounted, Placement } from '../mounting/types.ts'

/** mm², mm, and mm⁴ about its centre. */
export interface Section {
  readonly height: number
  readonly area: number
  readonly centre: Point
  readonly xx: number
  readonly xy: number
  readonly yy: number
  /** Corners of a box about it, from its centre: nowhere in it is it bent more than in one of them. */
  readonly around: readonly Point[]
  /** Of its convex hull, from its centre: what bends it presses and pulls most in one of them. */
  corners(): readonly Point[]
}

/** By height, while the part stays where it stands: as it is turned with its shelf. */
const sections = keptFor(
  () => new Map<number, Section | null>(),
  () => [],
)

/** Null where the part has nothing there. @param height of its lower face, mm over what the part stands on. */
export function sectionAt(view: Mounted, height: number): Section | null {
  const known = sections(view)
  let section = known.get(height)
  if (section === undefined) known.set(height, (section = findSection(view, height)))
  return section
}

function findSection(view: Mounted, height: number): Section | null {
  const own = keptSection(view, height)
  return own && placeSection(view.placement, { ...own, height })
}

interface Known {
  readonly on: readonly unknown[]
  readonly section: Section | null
}

const kept = new WeakMap<BodyShape, Known[]>()
/** Sections kept to a part: more than the layers that a round looked at from its side is a pile of. */
const MOST = 128

/** In the part's frame, where it stays as the part is moved and turned. */
function keptSection(view: Mounted, height: number): Section | null {
  const shape = view.bodies[0]?.shape
  if (!shape) return null
  const on = [
    ...[...view.bodies, ...view.turned].flatMap((b) => [b.shape, b.z0 - height, b.z1 - height]),
    ...view.bores.flatMap((b) => [b.bore, b.state, b.z0 - height, b.z1 - height]),
  ]
  const before = kept.get(shape) ?? []
  const known = before.find((k) => sameList(k.on, on))
  if (known) return known.section
  const section = cutAt(atHome(view), height)
  kept.set(shape, [{ on, section }, ...before].slice(0, MOST))
  return section
}

/** The part where it is drawn. */
const atHome = ({ placement, bodies, turned, bores }: Mounted): MountedPart => ({
  placement: { turn: 0, x: 0, y: 0 },
  bodies: [...bodies],
  turned,
  bores: bores.map((b) => ({ ...b, centre: unplacePoint(placement, b.centre) })),
})

function cutAt(part: MountedPart, height: number): Section | null {
  const bodies = flatBodies(part)
  const range = { z0: height, z1: height + SKIN }
  const plain = plainSection(part, range)
  if (plain) return plain
  const near = boxOf(bodies.flatMap((b) => b.polygons))
  const material = lessToCut(part, materialBetween(part, bodies, range.z0, range.z1, near), range, near)
  if (material.length === 0) return null
  // Outlines and holes wind oppositely in what the library gives.
  const polygons = polygonUnion(material, [])
  const sum = polygons.map((ring) => signedRingMoments(ring)).reduce((a, b) => addMoments(a, b), NO_MOMENTS)
  return sectionOf(sum.area < 0 ? scaleMoments(sum, -1) : sum, polygons, height)
}

/**
 * Of one body whose bores keep clear of its edges: its own outlines less whole discs, so that the polygon library need
 * not be asked. Null for any other.
 */
function plainSection(
  part: MountedPart,
  range: { readonly z0: number; readonly z1: number },
): Section | null {
  const meets = (b: { readonly z0: number; readonly z1: number }) =>
    heightOverlap(b, range) > TOLERANCE.height
  const [body, second] = [...part.bodies, ...part.turned].filter(meets)
  if (!body || second || body.body.effect !== 'adds') return null
  const { regions } = body.shape
  const [region] = regions
  if (!region || regions.length > 1) return null
  let sum = regionMoments(region)
  const cut = part.bores.filter((b) => b.state !== 'uncut' && meets(b))
  for (const [i, { centre, bore }] of cut.entries()) {
    const radius = bore.diameter / 2
    const clear = (ring: Ring) => nearestTo(ring, centre).distance >= radius
    const apart = cut
      .slice(i + 1)
      .every((b) => Math.hypot(b.centre.x - centre.x, b.centre.y - centre.y) >= radius + b.bore.diameter / 2)
    if (!apart || ![region.outline, ...region.holes].every(clear)) return null
    if (inRegion(region, centre)) sum = addMoments(sum, ringMoments(circleRing(centre, bore.diameter)), -1)
  }
  return sectionOf(sum, [flattenRing(region.outline, TOLERANCE.clashChord)], range.z0)
}

/** @param sum about the origin. @param outlines that hold all of it. */
function sectionOf(sum: Moments, outlines: Polygons, height: number): Section | null {
  const { area } = sum
  if (!(area > 0)) return null
  const centre = { x: sum.x / area, y: sum.y / area }
  const from = (p: Point): Point => ({ x: p.x - centre.x, y: p.y - centre.y })
  const { x0, y0, x1, y1 } = boxOf(outlines)
  let corners: readonly Point[] | null = null
  return {
    height,
    area,
    centre,
    xx: sum.xx - area * centre.x ** 2,
    xy: sum.xy - area * centre.x * centre.y,
    yy: sum.yy - area * centre.y ** 2,
    around: [
      { x: x0, y: y0 },
      { x: x1, y: y0 },
      { x: x1, y: y1 },
      { x: x0, y: y1 },
    ].map(from),
    corners: () => (corners ??= convexHull(outlines.flat()).map(from)),
  }
}

function placeSection(placement: Placement, section: Section): Section {
  const { centre, xx, xy, yy, around, corners, ...rest } = section
  const { c, s } = turning(placement.turn)
  const turned = (p: Point): Point => ({ x: c * p.x - s * p.y, y: s * p.x + c * p.y })
  return {
    ...rest,
    centre: placePoint(placement, centre),
    xx: c * c * xx - 2 * c * s * xy + s * s * yy,
    xy: c * s * (xx - yy) + (c * c - s * s) * xy,
    yy: s * s * xx + 2 * c * s * xy + c * c * yy,
    around: around.map(turned),
    corners: () => corners().map(turned),
  }
}
