/** What truly carries the part: its own face where it lies on the plate, or its packing where that meets it. */
import { boxesMeet, boxOf, type Box, type Polygons } from '../geometry/polygonBox.ts'
import { polygonArea, polygonDifference, polygonIntersection } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { isPrism, type Hardware } from '../job/schema.ts'
import {
  flatBodies,
  discPolygons,
  materialBetween,
  ringPolygons,
  type FlatBody,
} from '../mounting/material.ts'
import { standOnPlate } from '../mounting/plateFace.ts'
import type { Mounted, MountedPiece, MountedSolid } from '../mounting/types.ts'
import { keptFor } from './kept.ts'
import { ContactHull, insetOf } from './contact.ts'

/** mm by which packing may miss the seat's height and still carry: a sheet of paper. Own choice. */
export const SEAT_PLAY = 0.05

/** A place where the part is carried. */
export interface Carried {
  /** The packing's piece, or 'part' for the part's own face on the plate. */
  readonly id: string
  readonly on: Polygons
}

/** A piece of packing: of a clamp, under its toe, or lying by itself. */
export interface Packing {
  readonly piece: MountedPiece
  readonly solid: MountedSolid
  readonly polygons: Polygons
  readonly box: Box
}

export function packingOf(mounted: Mounted): Packing[] {
  return mounted.pieces.flatMap((piece) =>
    piece.solids
      .filter((s) => s.role === 'packing')
      .map((solid) => {
        const polygons = ringPolygons(solid.ring)
        return { piece, solid, polygons, box: boxOf(polygons) }
      }),
  )
}

/**
 * The part's material at its seat near a box, less what the bores that this setup cuts take away. Bodies that come from
 * a mesh count as their silhouette's prism from their lowest point.
 */
export function partFace(mounted: Mounted, near: Box): Polygons {
  const seat = mounted.setup.packing
  const bodies: readonly FlatBody[] = flatBodies(mounted).filter((b) => boxesMeet(b.box, near))
  let face = materialBetween(mounted, bodies, seat, seat + SEAT_PLAY, near)
  for (const b of mounted.bores) {
    if (b.state === 'to cut' && b.z0 <= seat + SEAT_PLAY && b.z1 > seat)
      face = polygonDifference(face, discPolygons(b.centre, b.bore.diameter))
  }
  return face
}

/** mm by which a load's middle lies within what carries it, at the least. Own choice. */
const STEADY = 1

/** Whether a foot stands on what is under it so that a load in its middle does not tip it off. */
export function standsOn(on: Polygons, load: Polygons): boolean {
  const middle = middleOf(load)
  const hull = new ContactHull(on.flat())
  return middle !== null && hull.hasArea && hull.edges.every((e) => insetOf(e, middle) >= STEADY)
}

/** Centre of area of what `combine` returns: outlines one way round, holes the other; null where there is none. */
export function middleOf(polygons: Polygons): { readonly x: number; readonly y: number } | null {
  let [area, x, y] = [0, 0, 0]
  for (const ring of polygons) {
    let a = ring[ring.length - 1]!
    for (const b of ring) {
      const cross = a.x * b.y - b.x * a.y
      area += cross
      x += (a.x + b.x) * cross
      y += (a.y + b.y) * cross
      a = b
    }
  }
  return Math.abs(area) < TOLERANCE.clashArea ? null : { x: x / (3 * area), y: y / (3 * area) }
}

/** The pieces that packing comes from, as they stand in the job. */
export const packingItems = ({ pieces }: Pick<Mounted, 'pieces'>): readonly Hardware[] =>
  pieces.filter((p) => p.solids.some((s) => s.role === 'packing')).map((p) => p.item)

/** All that carries the part; pieces of packing that miss its seat, hang in the air or lie elsewhere carry nothing. */
export const partContact = keptFor(carriers, packingItems)

function carriers(mounted: Mounted): readonly Carried[] {
  const { setup, job } = mounted
  if (setup.packing <= 0) {
    const bodies = flatBodies(mounted)
    const on = bodies.length === 0 ? [] : partFace(mounted, boxOf(bodies.flatMap((b) => b.polygons)))
    const carried = standOnPlate(job.plate, on).on
    return polygonArea(carried) > TOLERANCE.clashArea ? [{ id: 'part', on: carried }] : []
  }
  const all = packingOf(mounted)
  return all.flatMap((p): Carried[] => {
    if (Math.abs(p.solid.z1 - setup.packing) > SEAT_PLAY || !isCarried(mounted, all, p)) return []
    const on = polygonIntersection(p.polygons, partFace(mounted, p.box))
    const low = p.solid.z0 <= SEAT_PLAY ? standOnPlate(job.plate, p.polygons).on : p.polygons
    // What hangs over the plate's bore carries nothing, though the rest of the piece stands.
    return polygonArea(on) > TOLERANCE.clashArea && standsOn(low, on) ? [{ id: p.piece.item.id, on }] : []
  })
}

/** Whether packing stands on the plate, or on a piece of packing that does. */
export function isCarried(mounted: Mounted, all: readonly Packing[], p: Packing, depth = 0): boolean {
  if (depth > all.length) return false
  if (Math.abs(p.solid.z0) <= SEAT_PLAY)
    return standsOn(standOnPlate(mounted.job.plate, p.polygons).on, p.polygons)
  return all.some(
    (q) =>
      q !== p &&
      Math.abs(q.solid.z1 - p.solid.z0) <= SEAT_PLAY &&
      boxesMeet(q.box, p.box) &&
      standsOn(polygonIntersection(q.polygons, p.polygons), p.polygons) &&
      isCarried(mounted, all, q, depth + 1),
  )
}

/** Whether any body of the part comes from a mesh. */
export const hasMesh = (mounted: Mounted): boolean => mounted.bodies.some((b) => !isPrism(b.body))
