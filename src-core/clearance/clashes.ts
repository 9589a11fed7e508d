/** Hardware against hardware, part, plate edge, slot ends and the boring bar's path, in plan and in height. */
import type { Finding } from '../findings/finding.ts'
import { polygonArea, polygonIntersection, polygonPlace } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { isStationed } from '../job/schema.ts'
import { asTwin } from '../mounting/asTwin.ts'
import { findingsInPlate } from '../mounting/shelf.ts'
import type { Mounted, MountedPiece, MountedSolid } from '../mounting/types.ts'
import { capital } from '../words/capital.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { called, finding } from '../findings/finding.ts'
import { barPathInSpace, clashesInSpace } from './clashesInSpace.ts'
import { goesThrough, isFlat, reachOf } from './inSpace.ts'
import { boxOf, boxesMeet, type Box, type Polygons } from '../geometry/polygonBox.ts'
import {
  discPolygons,
  flatBodies,
  ringPolygons,
  heightOverlap,
  materialBetween,
  type FlatBody,
} from '../mounting/material.ts'

/** A solid of a piece, flattened. */
interface FlatSolid {
  readonly piece: MountedPiece
  readonly role: MountedSolid['role']
  readonly z0: number
  readonly z1: number
  readonly polygons: Polygons
  readonly box: Box
}

/** All clashes of a mounted setup; the part's outlines must be sound. */
export function clashFindings(mounted: Mounted): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  const bodies = flatBodies(mounted)
  const flat = isFlat(mounted)
  // What lies is told by plan and heights no more.
  const pieces = mounted.pieces.map((piece) =>
    piece.solids.filter((s) => !s.lies).map((s) => flatSolid(piece, s)),
  )
  return [
    ...pieces.flatMap((a, i) => pieces.slice(i + 1).flatMap((b) => pieceAgainstPiece(a, b, fmt))),
    ...(flat
      ? pieces.flatMap((solids) => pieceAgainstPart(mounted, bodies, solids, fmt))
      : clashesInSpace(mounted, fmt)),
    ...mounted.pieces.flatMap((p) => boltAgainstPart(mounted, bodies, p, fmt)),
    ...(mounted.shelves ?? []).flatMap((view) => boltsFromShelf(view, fmt)),
    ...mounted.pieces.flatMap((p) => twinBlocked(mounted, p, fmt)),
    ...mounted.pieces.flatMap((p) => pieceOnPlate(mounted, p, fmt)),
    ...pieces.flatMap((solids) => pieceInBarPath(mounted, solids, fmt)),
    ...(flat ? [] : barPathInSpace(mounted, fmt)),
  ]
}

function flatSolid(piece: MountedPiece, { role, ring, holes = [], z0, z1 }: MountedSolid): FlatSolid {
  const polygons = [ring, ...holes].flatMap(ringPolygons)
  return { piece, role, z0, z1, polygons, box: boxOf(polygons) }
}

/** The largest of several overlaps; null where there is none. */
function largest<T extends { readonly area: number }>(found: readonly T[]): T | null {
  return found.reduce<T | null>((a, b) => (a && a.area >= b.area ? a : b), null)
}

/** Overlap area of two polygon sets and a place in it, or null where they only touch. */
function overlap(a: Polygons, b: Polygons): { area: number; at: Point } | null {
  if (a.length === 0 || b.length === 0) return null
  const both = polygonIntersection(a, b)
  const area = polygonArea(both)
  const at = polygonPlace(both)
  return area > TOLERANCE.clashArea && at ? { area, at } : null
}

const heights = (from: number, to: number, fmt: Formatter) =>
  `between ${fmt.length(from)} and ${fmt.length(to)} from the plate`

function pieceAgainstPiece(a: readonly FlatSolid[], b: readonly FlatSolid[], fmt: Formatter): Finding[] {
  const found = a.flatMap((p) =>
    b.flatMap((q) => {
      if (goesThrough(p.piece, p, q.piece, q) || goesThrough(q.piece, q, p.piece, p)) return []
      if (heightOverlap(p, q) <= TOLERANCE.height || !boxesMeet(p.box, q.box)) return []
      const both = overlap(p.polygons, q.polygons)
      return both ? [{ ...both, p, q }] : []
    }),
  )
  const worst = largest(found)
  if (!worst) return []
  const { p, q, area, at } = worst
  const where = heights(Math.max(p.z0, q.z0), Math.min(p.z1, q.z1), fmt)
  const message = `${capital(solidWords(p))} and ${solidWords(q)} stand in the same place: ${fmt.area(area)} in plan, ${where}. Move one of them.`
  return [finding('stop', 'hardware-clash', p.piece.item.id, message, at)]
}

/** `the heel of c1`; a piece of one solid, and a twin's own body, by its name alone. */
function solidWords({ piece, role }: FlatSolid): string {
  return piece.solids.length === 1 || role === 'twin'
    ? called(piece.item)
    : `the ${role} of ${called(piece.item)}`
}

/**
 * A strap lies on the part, so what is above its underside is in its way. A press of which only a box is known reaches
 * over the part on purpose; studs are judged by the bolt's own check.
 */
function pieceAgainstPart(
  mounted: Mounted,
  bodies: readonly FlatBody[],
  solids: readonly FlatSolid[],
  fmt: Formatter,
): Finding[] {
  if (solids[0]?.piece.item.kind === 'press') return []
  const found = solids.flatMap((s) => {
    // Studs of a sub-plate end under the part; a twin has its own.
    const { kind } = s.piece.item
    if (s.role === 'stud' && kind !== 'fixture' && kind !== 'twin') return []
    const both = overlap(s.polygons, materialBetween(mounted, bodies, s.z0, s.z1, s.box))
    return both ? [{ ...both, s }] : []
  })
  const worst = largest(found)
  if (!worst) return []
  const { s, area, at } = worst
  const message = `${capital(solidWords(s))} runs into the part: ${fmt.area(area)} in plan, ${heights(s.z0, s.z1, fmt)}. Move it clear or change its height.`
  return [finding('stop', 'part-clash', s.piece.item.id, message, at)]
}

function boltAgainstPart(
  mounted: Mounted,
  bodies: readonly FlatBody[],
  { bolt, z1, item }: MountedPiece,
  fmt: Formatter,
): Finding[] {
  if (!bolt || bolt.diameter <= 0) return []
  const disc = discPolygons(bolt.at, bolt.diameter)
  const both = overlap(disc, materialBetween(mounted, bodies, 0, z1, boxOf(disc)))
  if (!both) return []
  const message = `No bolt reaches ${called(item)}: the part covers its ${fmt.length(bolt.diameter)} bolt at radius ${fmt.length(Math.hypot(bolt.at.x, bolt.at.y))}. Choose another slot or radius.`
  return [finding('stop', 'bolt-covered', item.id, message, both.at)]
}

/** Bolts along a shelf's normal, as they look from there. */
function boltsFromShelf(view: Mounted, fmt: Formatter): readonly Finding[] {
  const bodies = flatBodies(view)
  return findingsInPlate(
    view,
    view.pieces.flatMap((p) => boltAgainstPart(view, bodies, p, fmt)),
  )
}

/** Bolts of a twin that its own material is in the way of. */
function twinBlocked(mounted: Mounted, piece: MountedPiece, fmt: Formatter): Finding[] {
  const { item } = piece
  if (item.kind !== 'twin') return []
  const view = asTwin(mounted, piece, item)
  const bodies = flatBodies(view)
  return view.pieces.flatMap(({ item: { id }, bolt, z1 }) => {
    if (!bolt || bolt.diameter <= 0) return []
    const disc = discPolygons(bolt.at, bolt.diameter)
    const both = overlap(disc, materialBetween(view, bodies, 0, z1, boxOf(disc)))
    if (!both) return []
    const message = `${capital(called(item))} has no hole for ${id}: the part that it is like is solid where its ${fmt.length(bolt.diameter)} bolt goes. Put the bolt through a hole of the part.`
    return [finding('stop', 'bolt-covered', item.id, message, both.at)]
  })
}

function pieceOnPlate(mounted: Mounted, piece: MountedPiece, fmt: Formatter): Finding[] {
  const { item, at: station, solids, massCentre } = piece
  if (piece.shelf) return []
  const { plate } = mounted.job
  const rim = plate.diameter / 2
  // A part's frame may have its origin anywhere.
  const at = item.kind === 'twin' ? { x: massCentre.x, y: massCentre.y } : station
  const radius = Math.hypot(at.x, at.y)
  const where = isStationed(item) ? item.at : null
  if (where && 'slot' in where) {
    const slot = plate.slots.find((s) => s.id === where.slot)
    if (slot && (where.radius < slot.from - TOLERANCE.height || where.radius > slot.to + TOLERANCE.height)) {
      const message = `${called(item)} stands at radius ${fmt.length(where.radius)}, outside slot ${slot.id}, which is usable from ${fmt.length(slot.from)} to ${fmt.length(slot.to)}. Slide it back.`
      return [finding('stop', 'outside-slot', item.id, message, at)]
    }
  }
  if (radius > rim) {
    const message = `${called(item)} stands at radius ${fmt.length(radius)}, off the plate's ${fmt.length(rim)} rim.`
    return [finding('stop', 'off-plate', item.id, message, at)]
  }
  const { point, distance } = solids.map(reachOf).reduce((a, b) => (b.distance > a.distance ? b : a))
  if (distance <= rim + TOLERANCE.overhang) return []
  const message = `${called(item)} overhangs the plate's rim by ${fmt.length(distance - rim)} (reaches ${fmt.length(distance)}, rim ${fmt.length(rim)}). Nothing guards what sticks out; draw it in if you can.`
  return [finding('caution', 'overhangs-plate', item.id, message, point)]
}

/** The bar comes along the axis to the work bore's bottom; nothing may stand in the bore's circle in front of it. */
function pieceInBarPath(mounted: Mounted, solids: readonly FlatSolid[], fmt: Formatter): Finding[] {
  const bore = mounted.workBore
  if (!bore) return []
  const path = discPolygons({ x: 0, y: 0 }, bore.bore.diameter)
  const pathBox = boxOf(path)
  const found = solids.flatMap((s) => {
    if (s.z1 <= bore.z0 + TOLERANCE.height || !boxesMeet(s.box, pathBox)) return []
    return overlap(s.polygons, path) ?? []
  })
  const both = largest(found)
  const item = solids[0]?.piece.item
  if (!both || !item) return []
  const message = `${called(item)} stands in the boring bar's path: inside the ${fmt.length(bore.bore.diameter)} circle of bore ${bore.bore.id}. Move it outward.`
  return [finding('stop', 'in-bar-path', item.id, message, both.at)]
}
