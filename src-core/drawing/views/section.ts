/**
 * What the upright plane through the spindle axis cuts, as polygons in the side view's own coordinates: x is z
 * (out of the plate), y is y. Plate frame, mm.
 */
import { circleRing, makeEdge, ringEdges } from '../../geometry/edges.ts'
import { edgeMeetings } from '../../geometry/intersect.ts'
import { polygonDifference, polygonUnion } from '../../geometry/polygon.ts'
import type { Point, Region } from '../../geometry/types.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import { isPrism, liesAcross, type Mesh, type Plate, type Slot } from '../../job/schema.ts'
import { slotRing } from '../../mounting/plateFace.ts'
import type { Mounted, MountedBore, Placement } from '../../mounting/types.ts'
import { acrossBodies, acrossInSpace } from '../../clearance/partInSpace.ts'
import { sliceLying } from './lyingSlices.ts'
import type { Segment } from '../placing/quad.ts'
import { placeVertices } from '../../mounting/place.ts'

type Polygon = Point[]
const FAR = 1e6

/** Ranges of y at x = 0 that lie in the region, rising. */
export function sectionRanges(region: Region): [number, number][] {
  const cutter = makeEdge({ x: TOLERANCE.besidePlane, y: -FAR }, { x: TOLERANCE.besidePlane, y: FAR }, 0)
  const ys = [region.outline, ...region.holes]
    .flatMap((ring) => ringEdges(ring))
    .flatMap((edge) => edgeMeetings(cutter, edge))
    .map((m) => m.at.y)
    .sort((a, b) => a - b)
  const ranges: [number, number][] = []
  for (let i = 0; i + 1 < ys.length; i += 2)
    if (ys[i + 1]! - ys[i]! > TOLERANCE.coincident) ranges.push([ys[i]!, ys[i + 1]!])
  return ranges
}

/**
 * Tee slots for a bolt of their width: undercut, its height, and depth over all, in widths of the slot. Middles of the
 * ranges of ISO 299:1987 for slots of 10 to 22 mm; a job holds the width alone.
 */
const TEE = { undercut: 1.7, head: 0.75, depth: 1.8 }
/** Of the plate's thickness: no tee slot is deeper. */
const DEEPEST = 0.8

/** The plate cut open: its bore, holes and slots on the plane are left out. */
export function plateSection(plate: Plate): Polygon[] {
  const whole = slab(-plate.thickness, 0, -plate.diameter / 2, plate.diameter / 2)
  const through = [
    circleRing({ x: 0, y: 0 }, plate.bore),
    ...plate.holes.map((h) => circleRing(h, h.diameter)),
    ...plate.slots.filter((s) => s.kind === 'through').map(slotRing),
  ]
  const open = through
    .flatMap((outline) => sectionRanges({ outline, holes: [] }))
    .map(([y0, y1]) => slab(-plate.thickness - 1, 1, y0, y1))
  return without([whole], [...open, ...plate.slots.flatMap((s) => teeSection(s, plate.thickness))])
}

function teeSection(slot: Slot, thickness: number): Polygon[] {
  if (slot.kind !== 'tee') return []
  const depth = Math.min(TEE.depth * slot.width, DEEPEST * thickness)
  const neck = depth * (1 - TEE.head / TEE.depth)
  const cut = (width: number, from: number, to: number) =>
    sectionRanges({ outline: slotRing({ ...slot, width }), holes: [] }).map(([y0, y1]) =>
      slab(from, to, y0, y1),
    )
  return [...cut(slot.width, -neck, 1), ...cut(TEE.undercut * slot.width, -depth, -neck)]
}

/** Whether a tee slot is cut, so that its depth is drawn. */
export const showsTee = ({ slots, thickness }: Plate): boolean =>
  slots.some((s) => teeSection(s, thickness).length > 0)

/** The part's prisms cut open as mounted, inner joints not shown. */
export interface PartSection {
  /** Pockets, bores already cut and the one being cut are left out. */
  readonly solid: Polygon[]
  /** With them: through an opening its far wall is seen, and nothing of what is beyond that. */
  readonly ground: Polygon[]
}

export function partSection(mounted: Mounted): PartSection {
  let solid: Polygon[] = []
  const taken: Polygon[] = []
  for (const { body, regions, z0, z1 } of mounted.bodies) {
    if (!isPrism(body) || (body.effect === 'adds' && liesAcross(body))) continue
    for (const [y0, y1] of regions.flatMap(sectionRanges)) {
      if (body.effect === 'adds') solid = polygonUnion(solid, [slab(z0, z1, y0, y1)])
      else taken.push(slab(z0, z1, y0, y1))
    }
  }
  for (const body of acrossBodies(mounted))
    solid = polygonUnion(solid, sliceLying(acrossInSpace(mounted, body).pieces).cut)
  for (const bore of mounted.bores) {
    const walls = boreWalls(bore)
    if (bore.state !== 'uncut' && walls) taken.push(slab(bore.z0, bore.z1, ...walls))
  }
  return { solid: without(solid, taken), ground: solid }
}

/** y of a bore's two walls on the plane, finished or at another diameter; null where the plane misses it. */
export function boreWalls(
  { bore, centre }: MountedBore,
  diameter: number = bore.diameter,
): [number, number] | null {
  const radius = diameter / 2
  if (Math.abs(centre.x) >= radius) return null
  const half = Math.sqrt(radius ** 2 - centre.x ** 2)
  return [centre.y - half, centre.y + half]
}

/** Outline of the cut through each mesh, as loose segments. */
export function meshSection(mounted: Mounted): Segment[] {
  return mounted.bodies.flatMap(({ body }) => {
    if (isPrism(body) || body.effect !== 'adds') return []
    return slice(body.mesh, mounted.placement, mounted.seat + body.base)
  })
}

function slice(mesh: Mesh, placement: Placement, base: number): Segment[] {
  const at = placeVertices(placement, mesh, base).map((p) => ({ ...p, x: p.x - TOLERANCE.besidePlane }))
  const out: Segment[] = []
  for (let t = 0; t + 2 < mesh.triangles.length; t += 3) {
    const corners = [0, 1, 2].map((k) => at[mesh.triangles[t + k]!]!)
    const ends = corners.flatMap((p, k) => {
      const q = corners[(k + 1) % 3]!
      if (p.x <= 0 === q.x <= 0) return []
      const s = p.x / (p.x - q.x)
      return [{ x: p.z + s * (q.z - p.z), y: p.y + s * (q.y - p.y) }]
    })
    if (ends.length === 2) out.push({ a: ends[0]!, b: ends[1]! })
  }
  return out
}

/** Between two heights and two levels. */
export const slab = (z0: number, z1: number, y0: number, y1: number): Polygon => [
  { x: z0, y: y0 },
  { x: z1, y: y0 },
  { x: z1, y: y1 },
  { x: z0, y: y1 },
]

/** One after the other, since slabs may overlap. */
function without(solid: Polygon[], taken: readonly Polygon[]): Polygon[] {
  return taken.reduce((rest, t) => polygonDifference(rest, [t]), solid)
}
