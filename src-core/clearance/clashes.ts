/** Hardware against hardware, part, plate edge, slot ends and the boring bar's path, in plan and in height. */
import type { Finding } from '../findings/finding.ts'
import { farthestFrom } from '../geometry/farthest.ts'
import { polygonArea, polygonIntersection, polygonPlace } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter, plain, type Formatter } from '../units/format.ts'
import { called, finding } from '../findings/finding.ts'
import {
  boxOf,
  boxesMeet,
  discPolygons,
  flatBodies,
  footprintPolygons,
  heightOverlap,
  materialBetween,
  type Box,
  type FlatBody,
  type Polygons,
} from './solids.ts'

interface FlatPiece {
  readonly piece: MountedPiece
  readonly polygons: Polygons
  readonly box: Box
}

/** All clashes of a mounted setup; the part's outlines must be sound. */
export function clashFindings(mounted: Mounted): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  const bodies = flatBodies(mounted)
  const pieces = mounted.pieces.map((piece): FlatPiece => {
    const polygons = footprintPolygons(piece)
    return { piece, polygons, box: boxOf(polygons) }
  })
  return [
    ...pieces.flatMap((a, i) => pieces.slice(i + 1).flatMap((b) => pieceAgainstPiece(a, b, fmt))),
    ...pieces.flatMap((p) => pieceAgainstPart(mounted, bodies, p, fmt)),
    ...pieces.flatMap((p) => boltAgainstPart(mounted, bodies, p, fmt)),
    ...pieces.flatMap((p) => pieceOnPlate(mounted, p.piece, fmt)),
    ...pieces.flatMap((p) => pieceInBarPath(mounted, p, fmt)),
  ]
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

function pieceAgainstPiece(a: FlatPiece, b: FlatPiece, fmt: Formatter): Finding[] {
  if (heightOverlap(a.piece, b.piece) <= TOLERANCE.height || !boxesMeet(a.box, b.box)) return []
  const both = overlap(a.polygons, b.polygons)
  if (!both) return []
  const where = heights(Math.max(a.piece.z0, b.piece.z0), Math.min(a.piece.z1, b.piece.z1), fmt)
  const message = `${called(a.piece.item)} and ${called(b.piece.item)} stand in the same place: ${plain(both.area, 0)} mm² in plan, ${where}. Move one of them.`
  return [finding('stop', 'hardware-clash', a.piece.item.id, message, both.at)]
}

/** A clamp reaches over the part on purpose; its bolt is judged instead. */
function pieceAgainstPart(
  mounted: Mounted,
  bodies: readonly FlatBody[],
  p: FlatPiece,
  fmt: Formatter,
): Finding[] {
  if (p.piece.item.kind === 'clamp') return []
  const { z0, z1 } = p.piece
  const both = overlap(p.polygons, materialBetween(mounted, bodies, z0, z1, p.box))
  if (!both) return []
  const message = `${called(p.piece.item)} runs into the part: ${plain(both.area, 0)} mm² in plan, ${heights(z0, z1, fmt)}. Move it clear or change its height.`
  return [finding('stop', 'part-clash', p.piece.item.id, message, both.at)]
}

function boltAgainstPart(
  mounted: Mounted,
  bodies: readonly FlatBody[],
  p: FlatPiece,
  fmt: Formatter,
): Finding[] {
  const { bolt, z1, item } = p.piece
  if (!bolt || bolt.diameter <= 0) return []
  const disc = discPolygons(bolt.at, bolt.diameter)
  const both = overlap(disc, materialBetween(mounted, bodies, 0, z1, boxOf(disc)))
  if (!both) return []
  const message = `No bolt reaches ${called(item)}: the part covers its ${fmt.length(bolt.diameter)} bolt at radius ${fmt.length(Math.hypot(bolt.at.x, bolt.at.y))}. Choose another slot or radius.`
  return [finding('stop', 'bolt-covered', item.id, message, both.at)]
}

function pieceOnPlate(mounted: Mounted, { item, at, footprint }: MountedPiece, fmt: Formatter): Finding[] {
  const { plate } = mounted.job
  const rim = plate.diameter / 2
  const radius = Math.hypot(at.x, at.y)
  const where = item.at
  if ('slot' in where) {
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
  const { point, distance } = farthestFrom(footprint, { x: 0, y: 0 })
  if (distance <= rim + TOLERANCE.overhang) return []
  const message = `${called(item)} overhangs the plate's rim by ${fmt.length(distance - rim)} (reaches ${fmt.length(distance)}, rim ${fmt.length(rim)}). Nothing guards what sticks out; draw it in if you can.`
  return [finding('caution', 'overhangs-plate', item.id, message, point)]
}

/** The bar comes along the axis to the work bore's bottom; nothing may stand in the bore's circle in front of it. */
function pieceInBarPath(mounted: Mounted, p: FlatPiece, fmt: Formatter): Finding[] {
  const bore = mounted.workBore
  if (!bore || p.piece.z1 <= bore.z0 + TOLERANCE.height) return []
  const path = discPolygons({ x: 0, y: 0 }, bore.bore.diameter)
  const both = boxesMeet(p.box, boxOf(path)) ? overlap(p.polygons, path) : null
  if (!both) return []
  const message = `${called(p.piece.item)} stands in the boring bar's path: inside the ${fmt.length(bore.bore.diameter)} circle of bore ${bore.bore.id}. Move it outward.`
  return [finding('stop', 'in-bar-path', p.piece.item.id, message, both.at)]
}
