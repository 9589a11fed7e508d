/**
 * What lies under a point of the plate. Handles first, within a radius of screen pixels; then hardware, the topmost
 * first; then the part; then slots and holes. Pure: the picture is never asked.
 */
import { polar } from '../../src-core/geometry/angles.ts'
import { farthestFrom } from '../../src-core/geometry/farthest.ts'
import { distanceToRegion } from '../../src-core/geometry/nearest.ts'
import type { Point, Region, Ring } from '../../src-core/geometry/types.ts'
import { pressPoint } from '../../src-core/mounting/press.ts'
import type { HardwareKind } from '../../src-core/job/schema.ts'
import type { Mounted, MountedPiece } from '../../src-core/mounting/types.ts'
import type { Target } from './target.ts'
import { REACH, reach } from './reach.ts'

export interface Handle {
  readonly target: Target
  readonly at: Point
}

/** Where the turning handle stands: past the outermost of plate and part, in the part's own direction. */
export function turnHandleAt(mounted: Mounted): Point {
  const { plate } = mounted.job
  const reach = Math.max(
    plate.diameter / 2,
    ...mounted.bodies.flatMap((b) => b.regions.map((r) => farthestFrom(r.outline, { x: 0, y: 0 }).distance)),
  )
  return polar(reach + plate.diameter * 0.085, mounted.setup.turn)
}

/** The handles there are for what is selected. */
export function handles(mounted: Mounted, selected: Target | null): Handle[] {
  if (selected?.kind === 'part' || selected?.kind === 'turn-handle')
    return [{ target: { kind: 'turn-handle' }, at: turnHandleAt(mounted) }]
  if (selected?.kind === 'piece' || selected?.kind === 'nose-handle') {
    const piece = mounted.pieces.find((p) => p.item.id === selected.id)
    const nose = piece && pressPoint(piece)
    if (nose) return [{ target: { kind: 'nose-handle', id: selected.id }, at: nose }]
  }
  return []
}

export function hitTest(
  mounted: Mounted,
  selected: Target | null,
  point: Point,
  pxPerMm: number,
  touch = false,
): Target | null {
  const within = (p: Point, px: number) => Math.hypot(p.x - point.x, p.y - point.y) * pxPerMm <= px
  const handle = handles(mounted, selected).find((h) => within(h.at, reach(REACH.handle, touch)))
  if (handle) return handle.target
  const edge = reach(REACH.outline, touch) / pxPerMm
  const pieces = [...mounted.pieces]
    .sort((a, b) => b.z1 - a.z1)
    .filter((p) => !LIES_UNDER.includes(p.item.kind) || !underPart(mounted, point))
  // A finger's reach takes nothing from what it is on.
  const piece = pieces.find((p) => nearPiece(p, point, 0)) ?? pieces.find((p) => nearPiece(p, point, edge))
  if (piece) return { kind: 'piece', id: piece.item.id }
  if (onPart(mounted, point, edge)) return { kind: 'part' }
  const { plate } = mounted.job
  const slot = plate.slots.find((s) => {
    const a = polar(s.from, s.angle)
    const b = polar(s.to, s.angle)
    return nearSegment(a, b, point) <= s.width / 2 + edge
  })
  if (slot) return { kind: 'slot', id: slot.id }
  const hole = plate.holes.find((h) => Math.hypot(h.x - point.x, h.y - point.y) <= h.diameter / 2 + edge)
  return hole ? { kind: 'hole', id: hole.id } : null
}

const LIES_UNDER: readonly HardwareKind[] = ['packing', 'fixture']

const underPart = (mounted: Mounted, p: Point) => onPart(mounted, p, 0)

function onPart(mounted: Mounted, p: Point, margin: number): boolean {
  return mounted.bodies.some(
    (b) => b.body.effect === 'adds' && b.regions.some((r) => nearRegion(r, p, margin)),
  )
}

function nearRegion(region: Region, p: Point, margin: number): boolean {
  return distanceToRegion(region, p) <= margin
}

/** Any solid of it: a clamp is taken hold of by its heel too. What lies under the part is not in the way. */
const nearPiece = (piece: MountedPiece, p: Point, margin: number): boolean =>
  piece.item.kind === 'packing'
    ? nearRing(piece.footprint, p, margin)
    : piece.solids.some(
        (s) => s.role !== 'packing' && nearRegion({ outline: s.ring, holes: s.holes ?? [] }, p, margin),
      )

const nearRing = (ring: Ring, p: Point, margin: number): boolean =>
  nearRegion({ outline: ring, holes: [] }, p, margin)

function nearSegment(a: Point, b: Point, p: Point): number {
  const dx = b.x - a.x
  const dy = b.y - a.y
  const square = dx * dx + dy * dy
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / square))
  return Math.hypot(a.x + t * dx - p.x, a.y + t * dy - p.y)
}
