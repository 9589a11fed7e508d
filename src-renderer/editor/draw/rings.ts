/** Rings made and changed by drawing: part frame, mm. Pure; a ring in, another out. */
import {
  angleTowards,
  onCircle,
  toDegrees,
  toRadians,
  turnBetweenRadians,
  turning,
} from '../../../src-core/geometry/angles.ts'
import { circleRing, edgesBox, makeEdge, ringEdges } from '../../../src-core/geometry/edges.ts'
import { boxAround, type Box } from '../../../src-core/geometry/polygonBox.ts'
import { ROUNDING, TOLERANCE } from '../../../src-core/geometry/tolerance.ts'
import type { Point, Ring, Vertex } from '../../../src-core/geometry/types.ts'

const length = (a: Point, b: Point) => Math.hypot(b.x - a.x, b.y - a.y)
const full = (v: Vertex): Vertex => ({ x: v.x, y: v.y, bulge: v.bulge ?? 0 })
const copy = (ring: Ring): Vertex[] => ring.map(full)
const wrap = (i: number, n: number) => ((i % n) + n) % n

/** Corners at two points; null where it would have no area. */
export function rectangle(a: Point, b: Point): Vertex[] | null {
  if (Math.abs(b.x - a.x) < TOLERANCE.coincident || Math.abs(b.y - a.y) < TOLERANCE.coincident) return null
  return [a, { x: b.x, y: a.y }, b, { x: a.x, y: b.y }].map(full)
}

export function circle(centre: Point, radius: number): Vertex[] | null {
  return radius < TOLERANCE.coincident ? null : circleRing(centre, 2 * radius)
}

/** Straight sides and half-turn ends about two centres. */
export function obround(a: Point, b: Point, width: number): Vertex[] | null {
  const d = length(a, b)
  if (width < TOLERANCE.coincident) return null
  if (d < TOLERANCE.coincident) return circle(a, width / 2)
  const nx = (-(b.y - a.y) / d) * (width / 2)
  const ny = ((b.x - a.x) / d) * (width / 2)
  return [
    { x: a.x - nx, y: a.y - ny, bulge: 0 },
    { x: b.x - nx, y: b.y - ny, bulge: 1 },
    { x: b.x + nx, y: b.y + ny, bulge: 0 },
    { x: a.x + nx, y: a.y + ny, bulge: 1 },
  ]
}

/** Bulge of the arc from a to b that leaves a in the direction `heading` (radians). */
export function tangentBulge(a: Point, b: Point, heading: number): number {
  const chord = angleTowards(a, b)
  // The arc turns by twice the angle between its tangent at the start and its chord; bulge is tan of a quarter of that.
  const half = turnBetweenRadians(heading, chord)
  const bulge = Math.tan(half / 2)
  // Nine decimals: a half turn is then 1 and not its neighbour.
  return Number(Math.max(-100, Math.min(100, bulge)).toFixed(9))
}

/** Bulge of the shorter arc of a radius from a to b, counter-clockwise where it is positive; null where it is too small. */
export function bulgeOfRadius(a: Point, b: Point, radius: number): number | null {
  const half = length(a, b) / 2
  const r = Math.abs(radius)
  if (r < half - ROUNDING.length || half < ROUNDING.length) return null
  const bulge = Math.tan(Math.asin(Math.min(1, half / r)) / 2)
  return radius < 0 ? -bulge : bulge
}

/** Degrees: an arc that sweeps more than this is drawn as a circle. */
export const MOST_SWEEP = 359

/** Bulge of an arc that sweeps so many degrees, positive counter-clockwise: the tangent of a quarter of them. */
export const bulgeOfSweep = (degrees: number): number => Math.tan(toRadians(degrees) / 4)

/** Moves the edge from vertex i along its own normal, outward of the ring where `by` is positive. */
export function offsetEdge(ring: Ring, i: number, by: number): Vertex[] {
  const a = ring[i]!
  const b = ring[wrap(i + 1, ring.length)]!
  const d = length(a, b)
  if (d < ROUNDING.length) return copy(ring)
  // Of a counter-clockwise ring the right-hand side is outside.
  const side = signedArea(ring) >= 0 ? by / d : -by / d
  return moveEdge(ring, i, { x: (b.y - a.y) * side, y: -(b.x - a.x) * side })
}

/** Over straight edges and arcs; positive counter-clockwise. */
function signedArea(ring: Ring): number {
  let area = 0
  for (const { a, b, arc } of ringEdges(ring)) {
    area += (a.x * b.y - b.x * a.y) / 2
    if (arc) area += (arc.radius ** 2 / 2) * (arc.sweep - Math.sin(arc.sweep))
  }
  return area
}

/** Bulge of the arc from a to b through p; 0 where p lies on the line. */
export function bulgeThrough(a: Point, b: Point, p: Point): number {
  const d = length(a, b)
  if (d < ROUNDING.length) return 0
  const ux = (b.x - a.x) / d
  const uy = (b.y - a.y) / d
  const along = (p.x - a.x) * ux + (p.y - a.y) * uy
  const across = -(p.x - a.x) * uy + (p.y - a.y) * ux
  if (Math.abs(across) < ROUNDING.length) return 0
  // The angles at a and b; what is left to a half turn is the angle at p, and the arc over p turns by twice their sum.
  const at = Math.atan2(Math.abs(across), along) + Math.atan2(Math.abs(across), d - along)
  const bulge = Math.tan(at / 2)
  return across > 0 ? -bulge : bulge
}

/** Direction in which the edge from vertex i arrives at its end, radians. */
export function headingAtEnd(a: Point, b: Point, bulge: number): number {
  const chord = angleTowards(a, b)
  return chord + 2 * Math.atan(bulge)
}

export function moveVertex(ring: Ring, i: number, to: Point): Vertex[] {
  const next = copy(ring)
  next[i] = { ...next[i]!, x: to.x, y: to.y }
  return next
}

/** Moves the edge from vertex i as a whole, its arc kept. */
export function moveEdge(ring: Ring, i: number, by: Point): Vertex[] {
  const next = copy(ring)
  for (const k of [i, wrap(i + 1, ring.length)])
    next[k] = { ...next[k]!, x: next[k]!.x + by.x, y: next[k]!.y + by.y }
  return next
}

export function setBulge(ring: Ring, i: number, bulge: number): Vertex[] {
  const next = copy(ring)
  next[i] = { ...next[i]!, bulge }
  return next
}

/** A vertex on the edge from i, at the fraction t of it; an arc becomes two arcs of the same circle. */
export function splitEdge(ring: Ring, i: number, t: number): Vertex[] {
  const a = ring[i]
  if (!a) return copy(ring)
  const next = copy(ring)
  const b = ring[wrap(i + 1, ring.length)]!
  const turn = 4 * Math.atan(a.bulge ?? 0)
  // By the chord from a: that keeps its digits for the flattest arc, whose centre is far away.
  const share = Math.abs(turn) < ROUNDING.angle ? t : Math.sin((turn * t) / 2) / Math.sin(turn / 2)
  const angle = angleTowards(a, b) - (turn * (1 - t)) / 2
  const reach = length(a, b) * share
  next[i] = { ...next[i]!, bulge: Math.tan((turn * t) / 4) }
  next.splice(i + 1, 0, {
    ...onCircle(a, reach, angle),
    bulge: Math.tan((turn * (1 - t)) / 4),
  })
  return next
}

/** The edges on both sides become one straight edge. Two vertices stay. */
export function deleteVertex(ring: Ring, i: number): Vertex[] {
  if (ring.length <= 2) return copy(ring)
  const next = copy(ring)
  const before = wrap(i - 1, ring.length)
  next[before] = { ...next[before]!, bulge: 0 }
  next.splice(i, 1)
  return next
}

export const translate = (ring: Ring, by: Point): Vertex[] =>
  ring.map((v) => ({ x: v.x + by.x, y: v.y + by.y, bulge: v.bulge ?? 0 }))

/** Turned counter-clockwise by degrees about a point. */
export function rotate(ring: Ring, about: Point, degrees: number): Vertex[] {
  const { c, s } = turning(degrees)
  return ring.map((v) => {
    const x = v.x - about.x
    const y = v.y - about.y
    return { x: about.x + c * x - s * y, y: about.y + s * x + c * y, bulge: v.bulge ?? 0 }
  })
}

/** Mirrored left to right (`x`) or top to bottom (`y`) about a point: every arc bends the other way. */
export const mirror = (ring: Ring, about: Point, across: 'x' | 'y'): Vertex[] =>
  ring.map((v) => ({
    x: across === 'x' ? 2 * about.x - v.x : v.x,
    y: across === 'y' ? 2 * about.y - v.y : v.y,
    bulge: -(v.bulge ?? 0) || 0,
  }))

/** Middle of a ring's box, arcs exactly. */
export function boxCentre(ring: Ring): Point {
  return boxesCentre([ring])
}

/** The middle of the box about several rings. */
export function boxesCentre(rings: readonly Ring[]): Point {
  const { x0, y0, x1, y1 } = boxAround(rings.map(ringBox))
  return { x: (x0 + x1) / 2, y: (y0 + y1) / 2 }
}

export const ringBox = (ring: Ring): Box => edgesBox(ringEdges(ring))

/** The edge from vertex i as it stands: length of its chord, its direction in degrees, its radius (null: straight), degrees swept (positive counter-clockwise). */
export function edgeFigures(
  ring: Ring,
  i: number,
): { length: number; angle: number; radius: number | null; sweep: number } {
  const a = ring[i]!
  const b = ring[wrap(i + 1, ring.length)]!
  const edge = makeEdge(a, b, a.bulge ?? 0)
  return {
    length: length(a, b),
    angle: toDegrees(angleTowards(a, b)),
    radius: edge.arc?.radius ?? null,
    sweep: edge.arc ? toDegrees(edge.arc.sweep) : 0,
  }
}

/** The end of the edge from vertex i put at a chord length and direction (degrees) from its start. */
export function aimEdge(ring: Ring, i: number, chord: number, degrees: number): Vertex[] {
  const a = ring[i]!
  return moveVertex(ring, wrap(i + 1, ring.length), onCircle(a, chord, toRadians(degrees)))
}

/** Bulge for an arc of a radius over the edge from vertex i, bending the way it does; null where the radius is too small. */
export function bulgeForRadius(ring: Ring, i: number, radius: number): number | null {
  const { length: chord } = edgeFigures(ring, i)
  if (radius < chord / 2 - ROUNDING.length) return null
  const now = ring[i]!.bulge ?? 0
  const quarter = Math.asin(Math.min(1, chord / (2 * radius))) / 2
  const bulge = Math.abs(now) > 1 ? 1 / Math.tan(quarter) : Math.tan(quarter)
  return now < 0 ? -bulge : bulge
}
