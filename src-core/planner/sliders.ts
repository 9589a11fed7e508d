/** Pieces of hardware that may slide along their slots, and how far. */
import { turnPoint } from '../geometry/angles.ts'
import { farthestFrom } from '../geometry/farthest.ts'
import { flattenRegion } from '../geometry/flatten.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { isBox, type Slot } from '../job/schema.ts'
import { facingOf } from '../mounting/station.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { type FreeRadii, type Station } from './free.ts'
import { intersectIntervals, type Interval } from './intervals.ts'
import { footprintShape, growShape, turnShape, type Shape } from './shape.ts'
import { clearOf, isCovered, type Rings } from './sweep.ts'

export interface Slider {
  readonly piece: MountedPiece
  readonly station: Station
  /** Its radius as it stands, mm. */
  readonly from: number
  /** g */
  readonly mass: number
  /** Turned so that +x is the slot's direction. */
  readonly shape: Shape
  /** Clear of all that stays; other sliders that move are judged apart. */
  readonly ranges: readonly Interval[]
}

/** Most pieces that are considered for moving: those that can change the unbalance most. */
const MOST_SLIDERS = 6

/** Movable pieces bolted in slots, packing apart, which lies under the part. */
export function movablePieces(mounted: Mounted): MountedPiece[] {
  return mounted.pieces.filter(
    ({ item, mass }) =>
      isBox(item) && !item.fixed && item.kind !== 'packing' && 'slot' in item.at && mass > 0,
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
  if (!isBox(item)) return null
  const { at } = item
  if (!('slot' in at)) return null
  const { plate } = mounted.job
  const slot = plate.slots.find((s) => s.id === at.slot)
  if (!slot) return null
  const station: Station = {
    kind: 'slot',
    id: slot.id,
    angle: slot.angle,
    from: slot.from,
    to: slot.to,
    bolt: piece.bolt?.diameter ?? 0,
  }
  const shape = turnShape(footprintShape(item.footprint), facingOf(plate, item) - slot.angle)
  const overhang = farthestFrom(piece.footprint, { x: 0, y: 0 }).distance
  const ranges = free.find({
    station,
    shape,
    z0: piece.z0,
    z1: piece.z1,
    without: [item.id, ...moving],
    overPart: item.kind === 'press',
    rim: Math.max(plate.diameter / 2, overhang),
  })
  const reach = item.kind === 'press' ? overPartRanges(mounted, piece, slot, shape, at.radius) : EVERYWHERE
  const held = intersectIntervals(
    intersectIntervals(ranges, reach),
    noseRanges(mounted, piece, slot, at.radius),
  )
  return held.length > 0
    ? { piece, station, from: at.radius, mass: item.mass * 1000, shape, ranges: held }
    : null
}

const EVERYWHERE: readonly Interval[] = [{ lo: -Infinity, hi: Infinity }]

/** A clamp reaches over the part on purpose, but not into a body that it is clear of as it stands. */
function overPartRanges(
  mounted: Mounted,
  piece: MountedPiece,
  slot: Slot,
  shape: Shape,
  from: number,
): readonly Interval[] {
  let free = EVERYWHERE
  for (const body of mounted.bodies) {
    if (body.body.effect !== 'adds') continue
    if (Math.min(body.z1, piece.z1) - Math.max(body.z0, piece.z0) <= TOLERANCE.height) continue
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

/** mm: what presses on the work is taken as a disc of this radius, all of which stays on the part. Own setting. */
const NOSE = 4

/**
 * Radii at which a clamp's nose, which goes with it, stays on the part. Where the nose is not given or is not over
 * the part as it stands, nothing can be said, and the analysis reports the clamp as not checked or slipping.
 */
function noseRanges(mounted: Mounted, piece: MountedPiece, slot: Slot, from: number): readonly Interval[] {
  const { item } = piece
  if (item.kind !== 'press') return EVERYWHERE
  const clamp = item.press
  const facing = facingOf(mounted.job.plate, item)
  const nose: Point | null = clamp?.nose
    ? clamp.nose
    : clamp?.boltToWork
      ? addPoints(piece.at, turnPoint({ x: clamp.boltToWork, y: 0 }, facing))
      : null
  if (!nose) return EVERYWHERE
  const local = turnPoint(nose, -slot.angle)
  const top = mounted.bodies.filter((b) => b.body.effect === 'adds' && b.z1 <= piece.z1 + TOLERANCE.height)
  const ranges = top.flatMap((b) =>
    b.regions.flatMap((region) => {
      const rings = flattenRegion(region).map((ring) => ring.map((p) => turnPoint(p, -slot.angle)))
      return isCovered(local, rings) ? insideRanges(rings, local, from) : []
    }),
  )
  return ranges.length > 0 ? ranges : EVERYWHERE
}

/** Radii for which the nose's disc crosses no edge, about where it stands. */
function insideRanges(rings: Rings, nose: Point, from: number): Interval[] {
  const shifted = rings.map((ring) => ring.map((p) => ({ x: p.x - nose.x + from, y: p.y - nose.y })))
  // Turned inside out by a wide frame: what is outside the part is what the disc must be clear of.
  const frame = [
    { x: -WIDE, y: -WIDE },
    { x: WIDE, y: -WIDE },
    { x: WIDE, y: WIDE },
    { x: -WIDE, y: WIDE },
  ]
  const outside = [frame, ...shifted]
  return clearOf([{ lo: from - WIDE / 2, hi: from + WIDE / 2 }], { kind: 'disc', radius: NOSE }, outside)
}

const addPoints = (a: Point, b: Point): Point => ({ x: a.x + b.x, y: a.y + b.y })
