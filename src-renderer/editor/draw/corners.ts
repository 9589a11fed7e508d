/** Corners rounded and cut off, between straight edges and arcs alike. Part frame, mm. */
import { angleTowards, turnBetweenRadians, wholeTurnRadians } from '../../../src-core/geometry/angles.ts'
import { edgePiece, makeEdge, pointOnEdge, ringEdges, type Edge } from '../../../src-core/geometry/edges.ts'
import { edgeMeetings } from '../../../src-core/geometry/intersect.ts'
import { ROUNDING, TOLERANCE } from '../../../src-core/geometry/tolerance.ts'
import type { Point, Ring, Vertex } from '../../../src-core/geometry/types.ts'

export type Cornering =
  | { readonly ok: true; readonly ring: Vertex[] }
  | {
      readonly ok: false
      readonly reason: string
      /** Where it does not fit between straight edges: mm that they leave and that are needed along them. */
      readonly fit?: { readonly room: number; readonly needed: number }
    }

const no = (reason: string): Cornering => ({ ok: false, reason })
const TOO_LARGE = 'It does not fit between the points on either side. Type a smaller size.'

interface Corner {
  readonly before: Edge
  readonly after: Edge
  /** Radians that the ring turns by here, counter-clockwise. */
  readonly turn: number
}

/** Rounds the corner at vertex i with an arc of the radius that is tangent to both edges. */
export function fillet(ring: Ring, i: number, radius: number): Cornering {
  const corner = cornerAt(ring, i)
  if (typeof corner === 'string') return no(corner)
  const { before, after, turn } = corner
  const side = Math.sign(turn) * radius
  const [a, b] = [leftOf(before, side), leftOf(after, side)]
  // The middle of the rounding lies at its radius from both edges; of two such places the one nearest the corner.
  const places = a && b ? edgeMeetings(a, b) : []
  const place = places.sort((p, q) => q.ta - q.tb - (p.ta - p.tb))[0]
  if (!place || place.ta < ROUNDING.share || place.tb > 1 - ROUNDING.share)
    return tooLarge(corner, radius * Math.abs(Math.tan(turn / 2)))
  const from = angleTowards(place.at, pointOnEdge(before, place.ta))
  const to = angleTowards(place.at, pointOnEdge(after, place.tb))
  const sweep = turn > 0 ? wholeTurnRadians(to - from) : -wholeTurnRadians(from - to)
  return cut(ring, i, corner, place, Math.tan(sweep / 4))
}

/** Cuts the corner at vertex i off at the same distance along both edges. */
export function chamfer(ring: Ring, i: number, distance: number): Cornering {
  const corner = cornerAt(ring, i)
  if (typeof corner === 'string') return no(corner)
  const { before, after } = corner
  const [back, on] = [distance / lengthOf(before), distance / lengthOf(after)]
  if (back > 1 - ROUNDING.share || on > 1 - ROUNDING.share) return tooLarge(corner, distance)
  return cut(ring, i, corner, { ta: 1 - back, tb: on }, 0)
}

function tooLarge({ before, after }: Corner, needed: number): Cornering {
  if (before.arc || after.arc) return no(TOO_LARGE)
  return { ok: false, reason: TOO_LARGE, fit: { room: Math.min(lengthOf(before), lengthOf(after)), needed } }
}

/** The corner, or why there is none. */
function cornerAt(ring: Ring, i: number): Corner | string {
  const n = ring.length
  const edges = ringEdges(ring)
  const before = edges[(i - 1 + n) % n]
  const after = edges[i]
  if (!before || !after || n < 2) return 'There is no corner here. Choose a point between two edges.'
  const turn = turnBetweenRadians(heading(before, 1), heading(after, 0))
  if (Math.abs(turn) < TOLERANCE.straightOn)
    return 'The edges run straight on here: there is no corner to take off.'
  if (Math.abs(turn) > Math.PI - TOLERANCE.straightOn)
    return 'The edges run back on themselves here. Move the point first.'
  return { before, after, turn }
}

/** Both edges cut short, and what comes between them. */
function cut(
  ring: Ring,
  i: number,
  { before, after }: Corner,
  { ta, tb }: { ta: number; tb: number },
  bulge: number,
): Cornering {
  const n = ring.length
  const head = edgePiece(before, 0, ta)
  const tail = edgePiece(after, tb, 1)
  const next = ring.map((v): Vertex => ({ x: v.x, y: v.y, bulge: v.bulge ?? 0 }))
  next[(i - 1 + n) % n] = { ...next[(i - 1 + n) % n]!, bulge: head.bulge }
  next.splice(i, 1, { x: head.b.x, y: head.b.y, bulge }, { x: tail.a.x, y: tail.a.y, bulge: tail.bulge })
  return { ok: true, ring: next }
}

/** The edge moved to its left by a distance; null where an arc would have no radius left. */
function leftOf(e: Edge, by: number): Edge | null {
  if (e.arc) {
    const { centre, radius, sweep } = e.arc
    const k = (radius - Math.sign(sweep) * by) / radius
    if (k <= ROUNDING.share) return null
    const out = (p: Point) => ({ x: centre.x + (p.x - centre.x) * k, y: centre.y + (p.y - centre.y) * k })
    return makeEdge(out(e.a), out(e.b), e.bulge)
  }
  const d = lengthOf(e)
  const n = { x: (-(e.b.y - e.a.y) / d) * by, y: ((e.b.x - e.a.x) / d) * by }
  return makeEdge({ x: e.a.x + n.x, y: e.a.y + n.y }, { x: e.b.x + n.x, y: e.b.y + n.y }, 0)
}

/** Radians, at the start (0) or the end (1) of an edge. */
function heading(e: Edge, end: 0 | 1): number {
  const chord = angleTowards(e.a, e.b)
  return chord + (end === 1 ? 2 : -2) * Math.atan(e.bulge)
}

const lengthOf = (e: Edge): number =>
  e.arc ? e.arc.radius * Math.abs(e.arc.sweep) : Math.hypot(e.b.x - e.a.x, e.b.y - e.a.y)
