/** The part's solid material at a height under a pad, what lies where there is none, and how far it is to where there is. */
import { toRadians } from '../geometry/angles.ts'
import { rectRing } from '../geometry/edges.ts'
import { inRegion, isInside } from '../geometry/nearest.ts'
import { boxesMeet, boxOf, covers, type Box, type Polygons } from '../geometry/polygonBox.ts'
import { polygonArea, polygonDifference, polygonIntersection } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import {
  discPolygons,
  flatBodies,
  lessToCut,
  materialBetween,
  plainBodies,
  ringPolygons,
  SKIN,
} from '../mounting/material.ts'
import { unplacePoint } from '../mounting/place.ts'
import type { Mounted, MountedBore } from '../mounting/types.ts'

/** Share of a pad that may have nothing under it: what flattened arcs and rounding leave. */
const BARE = 2e-3

/** The part's material just under a height, near a box, that is there before and after this setup's cut. */
export function solidUnder(mounted: Mounted, z: number, near: Box): Polygons {
  const bodies = flatBodies(mounted).filter((b) => boxesMeet(b.box, near))
  const skin = { z0: z - SKIN, z1: z }
  return lessToCut(mounted, materialBetween(mounted, bodies, skin.z0, skin.z1, near), skin, near)
}

/** Whether one body fills a box just under a height and nothing is taken away near it: the polygon library need not be asked. */
const isWholeUnder = (mounted: Mounted, z: number, box: Box): boolean =>
  plainBodies(mounted, box)?.some((b) => b.z0 < z - SKIN && b.z1 > z - SKIN / 2 && covers(b.polygons, box)) ??
  false

/** Heights below one at which something of the part begins or ends, the nearest first. */
export function levelsBelow({ bodies, turned, bores }: Mounted, z: number): number[] {
  const all = [...bodies, ...turned, ...bores].flatMap((b) => [b.z0, b.z1])
  return [...new Set(all)].filter((level) => level < z - TOLERANCE.height).sort((p, q) => q - p)
}

/** What of a pad has no solid material under it at a height; empty where the pad lies wholly on. */
export function bareOf(mounted: Mounted, pad: Polygons, z: number): Polygons {
  const box = boxOf(pad)
  if (isWholeUnder(mounted, z, box)) return []
  const solid = solidUnder(mounted, z, box)
  const bare = solid.length === 0 ? pad : polygonDifference(pad, solid)
  return polygonArea(bare) > BARE * polygonArea(pad) ? bare : []
}

/** Heights at which the part has a face in front near a box, foremost first. */
export function facesNear(mounted: Mounted, near: Box): number[] {
  const tops = new Set<number>()
  for (const b of flatBodies(mounted)) {
    if (boxesMeet(b.box, near)) tops.add(b.adds ? b.z1 : b.z0)
  }
  for (const b of mounted.bores) if (b.state === 'open' && !b.through) tops.add(b.z0)
  return [...tops].sort((p, q) => q - p)
}

/** mm to either side in which a place is looked for: near by first, as most are there. */
const REACHES = [30, 400]

interface Pad {
  readonly at: Point
  readonly length: number
  readonly width: number
  readonly facing: number
}

/**
 * mm by which a pad, `length` along `facing` and `width` across, must move along `facing` (negative: back) to lie wholly
 * on material at a height; 0 where it does, null where it cannot within reach.
 */
export function slideTo(mounted: Mounted, pad: Pad, z: number): number | null {
  for (const reach of REACHES) {
    const by = slideWithin(mounted, pad, z, reach)
    if (by !== null) return by
  }
  return null
}

function slideWithin(mounted: Mounted, pad: Pad, z: number, reach: number): number | null {
  const { at, length, width, facing } = pad
  const strip = ringPolygons(rectRing(at, length + 2 * reach, width, facing))
  const solid = solidUnder(mounted, z, boxOf(strip))
  if (solid.length === 0) return null
  const gaps = polygonDifference(strip, solid).filter((r) => polygonArea([r]) > TOLERANCE.clashArea)
  // A hole of the gaps is an island of material; its outline's reach lies within that of the gap round it.
  const turn = toRadians(facing)
  const along = (p: Point) => (p.x - at.x) * Math.cos(turn) + (p.y - at.y) * Math.sin(turn)
  const blocked = gaps.map((ring) => {
    const s = ring.map(along)
    return { from: Math.min(...s) - length / 2, to: Math.max(...s) + length / 2 }
  })
  const free = (s: number) =>
    blocked.every((b) => s <= b.from + TOLERANCE.clashChord || s >= b.to - TOLERANCE.clashChord)
  const places = [0, ...blocked.flatMap((b) => [b.from, b.to])].filter((s) => Math.abs(s) <= reach && free(s))
  if (places.length === 0) return null
  return places.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a))
}

/** What lies at a place where a pad wants material at a height, as words. */
export function whatLiesAt(mounted: Mounted, at: Point, z: number): string {
  const inBore = (b: MountedBore) => Math.hypot(at.x - b.centre.x, at.y - b.centre.y) < b.bore.diameter / 2
  const cut = mounted.bores.find(
    (b) => b.state === 'to cut' && b.z1 > z - SKIN && b.z0 < z - TOLERANCE.height && inBore(b),
  )
  if (cut) return `bore ${cut.bore.id}, which this setup cuts`
  const open = mounted.bores.find((b) => b.state === 'open' && inBore(b))
  if (open) return `bore ${open.bore.id}`
  const gone = mounted.turned.find(
    (b) => b.z1 >= z - SKIN && b.z0 < z - TOLERANCE.height && b.regions.some((r) => inRegion(r, at)),
  )
  if (gone) return gone.body.name ?? gone.body.id
  // In the part's frame, where what is known of its outlines stays as it is moved.
  const own = unplacePoint(mounted.placement, at)
  const over = mounted.bodies.filter((b) => b.shape.regions.some((r) => isInside(r.outline, own)))
  const pocket = over.find((b) => b.body.effect === 'removes' && b.z1 >= z - SKIN)
  if (pocket) return `pocket ${pocket.body.name ?? pocket.body.id}`
  const solid = over.filter((b) => b.body.effect === 'adds')
  const holed = solid.find(
    (b) => b.z1 >= z - SKIN && b.shape.regions.some((r) => r.holes.some((h) => isInside(h, own))),
  )
  if (holed) return `a hole of ${holed.body.name ?? holed.body.id}`
  if (solid.some((b) => polygonAreaAt(mounted, at, b.z1))) return 'a lower face of the part'
  return "the air beside the part's edge"
}

const polygonAreaAt = (mounted: Mounted, at: Point, z: number): boolean => {
  const spot = discPolygons(at, 0.2)
  return polygonArea(polygonIntersection(spot, solidUnder(mounted, z, boxOf(spot)))) > 0
}
