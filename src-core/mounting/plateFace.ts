/** The plate's face as a foot meets it: a disc less its bore, slots and holes; and which opening lies at a point. */
import { keptOf } from '../geometry/kept.ts'
import { polar, toRadians } from '../geometry/angles.ts'
import { circleRing } from '../geometry/edges.ts'
import { flattenRing } from '../geometry/flatten.ts'
import { boxesMeet, boxOf, reaches, type Box, type Polygons } from '../geometry/polygonBox.ts'
import { polygonArea, polygonDifference, polygonIntersection } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Ring } from '../geometry/types.ts'
import type { AnglePlate, Plate, Slot } from '../job/schema.ts'

/** A slot as a ring with rounded ends, plate frame. */
export function slotRing(slot: Slot): Ring {
  const half = slot.width / 2
  const at = (radius: number, across: number): Point => {
    const along = polar(radius, slot.angle)
    const side = polar(across, slot.angle + 90)
    return { x: along.x + side.x, y: along.y + side.y }
  }
  return [
    { ...at(slot.from, -half), bulge: 0 },
    { ...at(slot.to, -half), bulge: 1 },
    { ...at(slot.to, half), bulge: 0 },
    { ...at(slot.from, half), bulge: 1 },
  ]
}

/** A plate, or a face of another form that is looked at as one. */
export type FacePlate = Plate & {
  readonly face?: {
    readonly outline: Ring
    /** What its edge is called: "the edge of A1". */
    readonly rim: string
    /** What is open from end to end, as between a vee's lands. */
    readonly mouth: Ring | null
    /** x, y: the middle; `angle` and `length` as of a shelf's slot. */
    readonly slots: readonly (AnglePlate['slots'][number] & { readonly ring: Ring })[]
  }
}

interface Opening {
  readonly name: string
  readonly polygons: Polygons
  readonly box: Box
}

interface Face {
  readonly disc: Polygons
  readonly openings: readonly Opening[]
}

const faceOf = keptOf((plate: FacePlate): Face => {
  const opening = (name: string, ring: Ring): Opening => {
    const polygons = [flattenRing(ring, TOLERANCE.clashChord)]
    return { name, polygons, box: boxOf(polygons) }
  }
  const axis = { x: 0, y: 0 }
  const own = plate.face
  return {
    disc: [flattenRing(own?.outline ?? circleRing(axis, plate.diameter), TOLERANCE.clashChord)],
    openings: [
      ...(own?.mouth ? [opening('the mouth of the vee', own.mouth)] : []),
      ...(own?.slots ?? []).map((s) => opening(`slot ${s.id}`, s.ring)),
      ...(plate.bore > 0 ? [opening("the plate's bore", circleRing(axis, plate.bore))] : []),
      ...plate.slots.filter((s) => s.to > s.from).map((s) => opening(`slot ${s.id}`, slotRing(s))),
      ...plate.holes.map((h) => opening(`hole ${h.id}`, circleRing(h, h.diameter))),
    ],
  }
})

/** Where a foot stands on the plate's face. */
export interface Stand {
  /** What of it stands. */
  readonly on: Polygons
  /** Share of its area that stands, 0 to 1. */
  readonly share: number
  /** What the rest hangs over: "slot S1", "the plate's bore", "the plate's rim". */
  readonly over: readonly string[]
}

/** @param foot outlines of what stands there, in the face's own frame, mm. */
export function standOnPlate(plate: FacePlate, foot: Polygons): Stand {
  const { disc, openings } = faceOf(plate)
  const area = polygonArea(foot)
  const rim = plate.diameter / 2 - TOLERANCE.clashChord
  const inside = !plate.face && foot.every((ring) => ring.every((p) => Math.hypot(p.x, p.y) <= rim))
  let on: Polygons = inside ? foot : polygonIntersection(foot, disc)
  const over = area - polygonArea(on) > TOLERANCE.clashArea ? [plate.face?.rim ?? "the plate's rim"] : []
  const box = boxOf(foot)
  for (const o of openings) {
    if (on.length === 0 || !boxesMeet(o.box, box) || !reaches(o.polygons, box)) continue
    const left = polygonDifference(on, o.polygons)
    if (polygonArea(on) - polygonArea(left) > TOLERANCE.clashArea) over.push(o.name)
    on = left
  }
  return { on, share: area > 0 ? polygonArea(on) / area : 0, over }
}

/** A slot or hole of the plate at a point, and how far from its middle the point lies. mm. */
export interface Anchor {
  readonly kind: 'slot' | 'hole'
  readonly id: string
  /** Of the slot, or diameter of the hole. */
  readonly width: number
  /** From the middle line of the slot, between its ends, or from the hole's centre. */
  readonly off: number
  /** Of a tapped hole; and how deep it can be, mm. */
  readonly thread: string | null
  readonly depth: number
}

/** All openings of the plate by how far a point lies outside of them (negative: inside), nearest first. */
export function anchorsBy(
  plate: FacePlate,
  at: Point,
): { readonly anchor: Anchor; readonly outside: number }[] {
  const slots = plate.slots.map((s): Anchor => {
    const turn = toRadians(s.angle)
    const along = at.x * Math.cos(turn) + at.y * Math.sin(turn)
    const across = at.y * Math.cos(turn) - at.x * Math.sin(turn)
    const beyond = Math.max(0, s.from - along, along - s.to)
    return {
      kind: 'slot',
      id: s.id,
      width: s.width,
      off: Math.hypot(across, beyond),
      thread: null,
      depth: plate.thickness,
    }
  })
  for (const s of plate.face?.slots ?? []) {
    const turn = toRadians(s.angle)
    const [dx, dy] = [at.x - s.x, at.y - s.y]
    const along = Math.abs(dx * Math.cos(turn) + dy * Math.sin(turn))
    const across = dy * Math.cos(turn) - dx * Math.sin(turn)
    const beyond = Math.max(0, along - Math.max(0, s.length - s.width) / 2)
    slots.push({
      kind: 'slot',
      id: s.id,
      width: s.width,
      off: Math.hypot(across, beyond),
      thread: null,
      depth: plate.thickness,
    })
  }
  const holes = plate.holes.map((h): Anchor => ({
    kind: 'hole',
    id: h.id,
    width: h.diameter,
    off: Math.hypot(at.x - h.x, at.y - h.y),
    thread: h.thread ?? null,
    depth: plate.thickness,
  }))
  return [...holes, ...slots]
    .map((anchor) => ({ anchor, outside: anchor.off - anchor.width / 2 }))
    .sort((a, b) => a.outside - b.outside)
}

/** The hole of the plate that a point lies in, whatever slot is nearer; null beside all of them. */
export const holeAt = (plate: Plate, at: Point): Anchor | null =>
  anchorsBy(plate, at).find((a) => a.anchor.kind === 'hole' && a.outside < 0)?.anchor ?? null

/** The opening that a point lies in; null over solid plate. */
export function anchorAt(plate: Plate, at: Point): Anchor | null {
  const nearest = anchorsBy(plate, at)[0]
  return nearest && nearest.outside < 0 ? nearest.anchor : null
}
