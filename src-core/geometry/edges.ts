import { keptOf } from './kept.ts'
import { FULL_TURN, angleTowards, onCircle, turning, wholeTurnRadians } from './angles.ts'
import { boxAround, type Box } from './polygonBox.ts'
import { ROUNDING, TOLERANCE } from './tolerance.ts'
import type { Point, Ring, Vertex } from './types.ts'

/** A circular arc's own numbers: radians, `sweep` signed, counter-clockwise positive. */
export interface Arc {
  readonly centre: Point
  readonly radius: number
  readonly start: number
  readonly sweep: number
}

/** A directed straight or arc edge, mm. `arc` is null for a straight one. */
export interface Edge {
  readonly a: Point
  readonly b: Point
  readonly bulge: number
  readonly arc: Arc | null
}

/** An edge from `a` to `b` with a bulge (tan of a quarter of the included angle, + counter-clockwise). */
export function makeEdge(a: Point, b: Point, bulge: number): Edge {
  const dx = b.x - a.x
  const dy = b.y - a.y
  const chord = Math.hypot(dx, dy)
  // Flatter than a nanometre over its chord: straight. The centre would lie so far off that points reckoned from it
  // err by more than the arc strays.
  if (Math.abs(bulge) * chord < 2 * TOLERANCE.coincident) return { a, b, bulge: 0, arc: null }
  const k = (1 - bulge * bulge) / (4 * bulge)
  const centre = { x: (a.x + b.x) / 2 - dy * k, y: (a.y + b.y) / 2 + dx * k }
  const radius = (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge))
  return {
    a,
    b,
    bulge,
    arc: { centre, radius, start: angleTowards(centre, a), sweep: 4 * Math.atan(bulge) },
  }
}

/** Rings of fewer vertices are done faster than looked up. */
const KEEP_FROM = 32
const keptEdges = keptOf(makeEdges)

/**
 * The edges of a ring in its own order, the last back to the first vertex. Kept per ring object, which is immutable:
 * many ask them of a long outline while one thing is dragged.
 */
export const ringEdges = (ring: Ring): readonly Edge[] =>
  ring.length < KEEP_FROM ? makeEdges(ring) : keptEdges(ring)

function makeEdges(ring: Ring): Edge[] {
  return ring.map((v, i) => makeEdge(v, ring[(i + 1) % ring.length]!, v.bulge ?? 0))
}

/** The same edge run the other way. */
export function reverseEdge(e: Edge): Edge {
  return {
    a: e.b,
    b: e.a,
    bulge: -e.bulge,
    arc: e.arc && { ...e.arc, start: e.arc.start + e.arc.sweep, sweep: -e.arc.sweep },
  }
}

/** Point at fraction t (0 to 1) along an edge. */
export function pointOnEdge(e: Edge, t: number): Point {
  if (t === 0) return e.a
  if (t === 1) return e.b
  if (!e.arc) return { x: e.a.x + (e.b.x - e.a.x) * t, y: e.a.y + (e.b.y - e.a.y) * t }
  const angle = e.arc.start + e.arc.sweep * t
  return onCircle(e.arc.centre, e.arc.radius, angle)
}

/** The piece of an edge between fractions t0 < t1. */
export function edgePiece(e: Edge, t0: number, t1: number): Edge {
  if (t0 === 0 && t1 === 1) return e
  return makeEdge(pointOnEdge(e, t0), pointOnEdge(e, t1), e.arc ? Math.tan((e.arc.sweep * (t1 - t0)) / 4) : 0)
}

/** Fraction along an arc at which it passes the direction `angle` (radians) from its centre, or null. */
export function arcFraction(arc: Arc, angle: number): number | null {
  const raw = arc.sweep > 0 ? angle - arc.start : arc.start - angle
  const along = wholeTurnRadians(raw)
  const sweep = Math.abs(arc.sweep)
  if (along <= sweep + ROUNDING.fraction) return Math.min(1, along / sweep)
  return along >= FULL_TURN - ROUNDING.fraction ? 0 : null
}

/** Box of an edge, mm. */
export function edgeBounds(e: Edge): Box {
  let x0 = Math.min(e.a.x, e.b.x)
  let x1 = Math.max(e.a.x, e.b.x)
  let y0 = Math.min(e.a.y, e.b.y)
  let y1 = Math.max(e.a.y, e.b.y)
  if (e.arc) {
    const { centre, radius } = e.arc
    if (arcFraction(e.arc, 0) !== null) x1 = Math.max(x1, centre.x + radius)
    if (arcFraction(e.arc, Math.PI) !== null) x0 = Math.min(x0, centre.x - radius)
    if (arcFraction(e.arc, Math.PI / 2) !== null) y1 = Math.max(y1, centre.y + radius)
    if (arcFraction(e.arc, -Math.PI / 2) !== null) y0 = Math.min(y0, centre.y - radius)
  }
  return { x0, y0, x1, y1 }
}

/** Box of edges together, mm. */
export const edgesBox = (edges: readonly Edge[]): Box => boxAround(edges.map(edgeBounds))

/** A full circle as two half-turn arcs, counter-clockwise. */
export function circleRing(centre: Point, diameter: number): Vertex[] {
  const r = diameter / 2
  return [
    { x: centre.x - r, y: centre.y, bulge: 1 },
    { x: centre.x + r, y: centre.y, bulge: 1 },
  ]
}

/** A rectangle `length` along the direction `facing` (degrees) and `width` across, about a centre. */
export function rectRing(centre: Point, length: number, width: number, facing: number): Vertex[] {
  const { c, s } = turning(facing)
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([u, v]) => {
    const x = (u! * length) / 2
    const y = (v! * width) / 2
    return { x: centre.x + x * c - y * s, y: centre.y + x * s + y * c }
  })
}

/** A slot with rounded ends about its middle, `length` from end to end along the direction `facing`, degrees. */
export function oblongRing(centre: Point, length: number, width: number, facing: number): Vertex[] {
  if (length <= width) return circleRing(centre, width)
  return rectRing(centre, length - width, width, facing).map((v, i) => ({ ...v, bulge: i % 2 === 1 ? 1 : 0 }))
}
