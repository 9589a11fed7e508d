/** Pieces of hardware that may slide along their slots, and how far. */
import { turnPoint } from '../geometry/angles.ts'
import { farthestFrom } from '../geometry/farthest.ts'
import { flattenRegion, flattenRing } from '../geometry/flatten.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { Hardware, Slot } from '../job/schema.ts'
import { pressPoint } from '../mounting/press.ts'
import type { Mounted, MountedBody, MountedPiece, MountedSolid } from '../mounting/types.ts'
import type { EntrySolid } from './entries.ts'
import { type FreeRadii, type Station } from './free.ts'
import { intersectIntervals, type Interval } from './intervals.ts'
import { growShape } from './shape.ts'
import { clearOf, isCovered, type Rings } from './sweep.ts'

export interface Slider {
  readonly piece: MountedPiece
  readonly station: Station
  /** Its radius as it stands, mm. */
  readonly from: number
  /** g */
  readonly mass: number
  /** In front of the plate, as they lie along the slot, the bolt below what stands off the plate among them. */
  readonly solids: readonly EntrySolid[]
  /** Clear of all that stays; other sliders that move are judged apart. */
  readonly ranges: readonly Interval[]
}

/** Most pieces that are considered for moving: those that can change the unbalance most. */
const MOST_SLIDERS = 6

/** Kinds that slide; packing lies under the part, stops and dowels stand against its edges. */
const SLIDING: readonly Hardware['kind'][] = ['clamp', 'press', 'weight', 'counterweight', 'bracket', 'other']

/** Movable pieces bolted in slots. */
export function movablePieces(mounted: Mounted): MountedPiece[] {
  return mounted.pieces.filter(
    ({ item, mass }) =>
      SLIDING.includes(item.kind) && !item.fixed && 'at' in item && 'slot' in item.at && mass > 0,
  )
}

/** The sliders of a setup, strongest first. @param moving ids of the pieces that move together. */
export function slidersOf(mounted: Mounted, free: FreeRadii, moving: readonly string[]): Slider[] {
  const sliders = movablePieces(mounted)
    .filter((p) => moving.includes(p.item.id))
    .flatMap((p) => sliderOf(mounted, free, p, moving) ?? [])
  const strength = (s: Slider) =>
    s.mass * Math.max(0, ...s.ranges.map((r) => Math.max(Math.abs(r.lo - s.from), Math.abs(r.hi - s.from))))
  return sliders
    .map((s) => ({ s, strength: strength(s) }))
    .sort((a, b) => b.strength - a.strength)
    .slice(0, MOST_SLIDERS)
    .map(({ s }) => s)
}

function sliderOf(
  mounted: Mounted,
  free: FreeRadii,
  piece: MountedPiece,
  moving: readonly string[],
): Slider | null {
  const { item } = piece
  if (!('at' in item) || !('slot' in item.at)) return null
  const { at } = item
  const { plate } = mounted.job
  const slot = plate.slots.find((s) => s.id === at.slot)
  if (!slot) return null
  const bolt = piece.bolt?.diameter ?? 0
  const station: Station = {
    kind: 'slot',
    id: slot.id,
    angle: slot.angle,
    from: slot.from,
    to: slot.to,
    bolt,
  }
  const solids = piece.solids.filter((s) => s.z1 > 0)
  const own = solids.map((s) => inSlot(s, piece.at, slot))
  const overhang = Math.max(...solids.map((s) => farthestFrom(s.ring, { x: 0, y: 0 }).distance))
  let ranges: readonly Interval[] = pressRanges(mounted, piece, slot, at.radius)
  solids.forEach((solid, i) => {
    const { shape, z0, z1 } = own[i]!
    const overPart = reachesOver(item, solid)
    const clear = free.find({
      station,
      shape,
      z0,
      z1,
      without: [item.id, ...moving],
      overPart,
      rim: Math.max(plate.diameter / 2, overhang),
    })
    ranges = intersectIntervals(ranges, clear)
    if (overPart) ranges = intersectIntervals(ranges, overPartRanges(mounted, own[i]!, slot, at.radius))
  })
  if (ranges.length === 0) return null
  const below: EntrySolid[] =
    bolt > 0 && piece.z0 > 0 ? [{ shape: { kind: 'disc', radius: bolt / 2 }, z0: 0, z1: piece.z0 }] : []
  return { piece, station, from: at.radius, mass: piece.mass * 1000, solids: [...own, ...below], ranges }
}

/** What lies on the part or reaches over it on purpose: a press, and of a clamp all but heel and packing. */
const reachesOver = (item: Hardware, { role }: MountedSolid): boolean =>
  item.kind === 'press' || (item.kind === 'clamp' && role !== 'heel' && role !== 'packing')

/** As it lies along the slot, the bolt at the origin. */
function inSlot({ ring, z0, z1 }: MountedSolid, bolt: Point, slot: Slot): EntrySolid {
  const points = flattenRing(ring, TOLERANCE.footprintChord).map(({ x, y }) =>
    turnPoint({ x: x - bolt.x, y: y - bolt.y }, -slot.angle),
  )
  return { shape: { kind: 'outline', points }, z0: Math.max(0, z0), z1 }
}

const EVERYWHERE: readonly Interval[] = [{ lo: -Infinity, hi: Infinity }]

/** What reaches over the part on purpose does not run into a body that it is clear of as it stands. */
function overPartRanges(
  mounted: Mounted,
  { shape, z0, z1 }: EntrySolid,
  slot: Slot,
  from: number,
): readonly Interval[] {
  let free = EVERYWHERE
  for (const body of mounted.bodies) {
    if (body.body.effect !== 'adds') continue
    if (Math.min(body.z1, z1) - Math.max(body.z0, z0) <= TOLERANCE.height) continue
    const rings = body.regions
      .flatMap((r) => flattenRegion(r))
      .map((r) => r.map((p) => turnPoint(p, -slot.angle)))
    const clear = clearOf([{ lo: from - WIDE, hi: from + WIDE }], growShape(shape, TOLERANCE.inside), rings)
    if (clear.some((c) => c.lo <= from && from <= c.hi)) free = intersectIntervals(free, clear)
  }
  return free
}

/** mm: beyond any plate. */
const WIDE = 1e5

/** mm: what a press bears with is taken as a disc of this radius, all of which stays on the part. Own setting. */
const NOSE = 4

/**
 * Radii at which what presses, and goes with its clamp, stays on the part, on the same height of it. Where it is not on
 * the part as it stands: a clamp stays where it is, of a press nothing can be said.
 */
function pressRanges(mounted: Mounted, piece: MountedPiece, slot: Slot, from: number): readonly Interval[] {
  const { item, toe } = piece
  if (item.kind === 'clamp') {
    if (!toe?.rest) return []
    const { z } = toe.rest
    const reach = farthestFrom(toe.pad, toe.at).distance
    return onPart(mounted, slot, from, toe.at, reach, (b) => Math.abs(b.z1 - z) <= TOLERANCE.height) ?? []
  }
  const nose = item.kind === 'press' ? pressPoint(piece) : null
  if (!nose) return EVERYWHERE
  return onPart(mounted, slot, from, nose, NOSE, (b) => b.z1 <= piece.z1 + TOLERANCE.height) ?? EVERYWHERE
}

/** Null where the point is on none of the bodies. */
function onPart(
  mounted: Mounted,
  slot: Slot,
  from: number,
  point: Point,
  radius: number,
  counts: (body: MountedBody) => boolean,
): Interval[] | null {
  const local = turnPoint(point, -slot.angle)
  const ranges = mounted.bodies
    .filter((b) => b.body.effect === 'adds' && counts(b))
    .flatMap((b) =>
      b.regions.flatMap((region) => {
        const rings = flattenRegion(region).map((ring) => ring.map((p) => turnPoint(p, -slot.angle)))
        return isCovered(local, rings) ? insideRanges(rings, local, from, radius) : []
      }),
    )
  return ranges.length > 0 ? ranges : null
}

/** Radii for which a disc about a point that goes along crosses no edge, about where it stands. */
function insideRanges(rings: Rings, nose: Point, from: number, radius: number): Interval[] {
  const shifted = rings.map((ring) => ring.map((p) => ({ x: p.x - nose.x + from, y: p.y - nose.y })))
  // Turned inside out by a wide frame: what is outside the part is what the disc must be clear of.
  const frame = [
    { x: -WIDE, y: -WIDE },
    { x: WIDE, y: -WIDE },
    { x: WIDE, y: WIDE },
    { x: -WIDE, y: WIDE },
  ]
  const outside = [frame, ...shifted]
  return clearOf([{ lo: from - WIDE / 2, hi: from + WIDE / 2 }], { kind: 'disc', radius }, outside)
}
