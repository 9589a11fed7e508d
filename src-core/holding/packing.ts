/** Pieces of packing as they stand: on the plate or on each other, and under the part or not. */
import { boxesMeet, boxOf, covers, type Box, type Polygons } from '../geometry/polygonBox.ts'
import { polygonArea, polygonIntersection } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { isPrism, type Hardware } from '../job/schema.ts'
import { heightOverlap, isSound, plainBodies, ringPolygons } from '../mounting/material.ts'
import { standAt } from '../mounting/fixtures.ts'
import type { Stand } from '../mounting/plateFace.ts'
import { SEAT_PLAY } from '../mounting/shelfSize.ts'
import type { Mounted, MountedPiece, MountedSolid } from '../mounting/types.ts'
import { keptPer } from '../mounting/kept.ts'
import { partFace } from './partFace.ts'
import { standing } from './stand.ts'
import { standsOn } from './standing.ts'

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
  /** How it stands on the plate's face; null for one that stands higher. */
  readonly stand: Stand | null
  /** It does not tip on the plate, by its own weight. */
  readonly steady: boolean
  /** Where the part's face lies over it, as high as the seat; null where it does not. */
  readonly carries: Carried | null
  /** What it carries does not tip it on the plate. */
  readonly bears: boolean
}

const packingAt = keptPer((mounted, piece): Packing | null => {
  const solid = piece.solids.find((s) => s.role === 'packing')
  if (!solid) return null
  const polygons = ringPolygons(solid.ring)
  const box = boxOf(polygons)
  const stand = standAt(mounted, polygons, solid.z0)
  const on = isUnder(mounted, box) ? polygons : polygonIntersection(polygons, partFace(mounted, box))
  const carries = polygonArea(on) > TOLERANCE.clashArea ? { id: piece.item.id, on } : null
  return {
    piece,
    solid,
    polygons,
    box,
    stand,
    steady: stand !== null && standsOn(stand.on, polygons),
    carries,
    bears: carries !== null && (stand === null || standsOn(stand.on, on)),
  }
})

/** Whether one body's back at the seat covers a box and nothing is taken out of it there. */
const isUnder = (mounted: Mounted, box: Box): boolean => {
  if (!isSound(mounted)) return false
  const { seat } = mounted
  const prisms = new Set(mounted.bodies.filter((b) => isPrism(b.body)).map((b) => b.body.id))
  return (
    plainBodies(mounted, box)?.some(
      (b) =>
        prisms.has(b.id) &&
        heightOverlap(b, { z0: seat, z1: seat + SEAT_PLAY }) > TOLERANCE.height &&
        covers(b.polygons, box),
    ) ?? false
  )
}

export const packingOf = (mounted: Mounted): Packing[] =>
  standing(mounted).flatMap((piece) => packingAt(mounted, piece) ?? [])

/** The pieces that packing comes from, as they stand in the job. */
export const packingItems = (mounted: Pick<Mounted, 'pieces'>): readonly Hardware[] =>
  standing(mounted)
    .filter((p) => p.solids.some((s) => s.role === 'packing'))
    .map((p) => p.item)

/** Whether packing stands on the plate, or on a piece of packing that does. */
export function isCarried(all: readonly Packing[], p: Packing, depth = 0): boolean {
  if (depth > all.length) return false
  if (p.stand) return p.steady
  return all.some(
    (q) =>
      q !== p &&
      Math.abs(q.solid.z1 - p.solid.z0) <= SEAT_PLAY &&
      boxesMeet(q.box, p.box) &&
      standsOn(polygonIntersection(q.polygons, p.polygons), p.polygons) &&
      isCarried(all, q, depth + 1),
  )
}
