/**
 * The setup from its side: x along the spindle axis, toward the tailstock, y across it, in the direction that a shelf
 * which carries something faces, so that it is seen edge on; else straight up, from the front of the lathe.
 */
import { polar } from '../../src-core/geometry/angles.ts'
import { convexHull } from '../../src-core/geometry/convexHull.ts'
import { edgesBox, ringEdges } from '../../src-core/geometry/edges.ts'
import { flattenRing } from '../../src-core/geometry/flatten.ts'
import { polygonUnion } from '../../src-core/geometry/polygon.ts'
import type { Polygons } from '../../src-core/geometry/polygonBox.ts'
import { seenAlong } from '../../src-core/geometry/space/shadow.ts'
import { acrossInSpace } from '../../src-core/clearance/partInSpace.ts'
import { bodyFaults } from '../../src-core/job/faults.ts'
import { outOf } from '../../src-core/geometry/space/pose.ts'
import { TOLERANCE } from '../../src-core/geometry/tolerance.ts'
import type { Point, Ring } from '../../src-core/geometry/types.ts'
import { liesAcross, type Body, type Setup } from '../../src-core/job/schema.ts'
import { placeRing } from '../../src-core/mounting/place.ts'
import { seatShelf, shelvesOf } from '../../src-core/mounting/shelf.ts'
import type { Mounted, MountedBody, MountedSolid } from '../../src-core/mounting/types.ts'

/** Straight up, seen from the front of the lathe. */
export const UP = 90

/** Direction across the spindle, degrees, that is up in the side view. */
export const sideUp = (setup: Setup): number => (seatShelf(setup) ?? shelvesOf(setup)[0])?.facing ?? UP

/** mm across the spindle. */
export const heightOf = (p: Point, up: number): number => {
  const n = polar(1, up)
  return p.x * n.x + p.y * n.y
}

/** mm along the spindle and across it. */
export const rect = (x0: number, x1: number, y0: number, y1: number): Point[] => [
  { x: x0, y: y0 },
  { x: x1, y: y0 },
  { x: x1, y: y1 },
  { x: x0, y: y1 },
]

function across(ring: Ring, up: number): { y0: number; y1: number } {
  return edgesBox(ringEdges(placeRing({ turn: UP - up, x: 0, y: 0 }, ring)))
}

/** What is seen of a solid. One that lies is seen as its own outline, where it is convex. */
export function solidOutline(solid: MountedSolid, up: number): Point[] {
  const { lies } = solid
  if (!lies) {
    const { y0, y1 } = across(solid.ring, up)
    return rect(solid.z0, solid.z1, y0, y1)
  }
  const corners = flattenRing(lies.ring, TOLERANCE.clashChord).flatMap((p) =>
    [lies.z0, lies.z1].map((z) => outOf(lies.pose, { ...p, z })),
  )
  return convexHull(corners.map((c) => ({ x: c.z, y: heightOf(c, up) })))
}

/** A body as it is seen: a box for each region of one that stands upright, one that lies across by its own outline. */
export interface SeenBody {
  readonly mounted: MountedBody
  readonly outlines: Polygons
}

/** The setup as it was last looked at, and from which side: each move of the pointer asks. */
const kept = new WeakMap<Mounted, { readonly up: number; readonly seen: readonly SeenBody[] }>()

/** The part's bodies from the side. One of faulty outline is seen as what it is mounted as. */
export function bodiesSeen(mounted: Mounted, up: number): readonly SeenBody[] {
  const known = kept.get(mounted)
  if (known?.up === up) return known.seen
  const seen = lookedAt(mounted, up)
  kept.set(mounted, { up, seen })
  return seen
}

function lookedAt(mounted: Mounted, up: number): SeenBody[] {
  const whole = new Set<Body>()
  return mounted.bodies.flatMap((b): SeenBody[] => {
    const { body, regions, z0, z1 } = b
    if (!liesAcross(body) || bodyFaults(body).length > 0) {
      const boxes = regions.map(({ outline }) => {
        const { y0, y1 } = across(outline, up)
        return rect(z0, z1, y0, y1)
      })
      return boxes.length > 0 ? [{ mounted: b, outlines: boxes }] : []
    }
    // Once for all of the blocks that it is mounted as.
    if (whole.has(body)) return []
    whole.add(body)
    const { pieces } = acrossInSpace(mounted, body)
    const seen = seenAlong(pieces, { x: 0, y: 0, z: 1 }, { ...polar(1, up), z: 0 })
    return [{ mounted: b, outlines: seen.reduce<Polygons>((all, p) => polygonUnion(all, [p]), []) }]
  })
}
