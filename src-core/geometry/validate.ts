/**
 * What is wrong with a ring or a region, each fault with its place. Nothing is repaired here. Rings that pass may
 * go to the moments and to the polygon library.
 */
import { edgeBounds, ringEdges, type Edge } from './edges.ts'
import { edgeMeetings } from './intersect.ts'
import { ringMoments } from './moments.ts'
import { isInside, nearestOnEdge } from './nearest.ts'
import { TOLERANCE } from './tolerance.ts'
import type { Point, Region, Ring } from './types.ts'

export type RingFaultKind =
  | 'too-few-vertices'
  | 'not-finite'
  | 'repeated-vertex'
  | 'no-area'
  | 'crosses-itself'
  | 'hole-crosses-outline'
  | 'hole-outside-outline'
  | 'holes-cross'
  | 'hole-inside-hole'

export interface RingFault {
  readonly kind: RingFaultKind
  /** 0 is the outline, 1 … its holes. */
  readonly ring: number
  /** Vertex at whose edge the fault lies. */
  readonly vertex: number
  readonly at: Point
}

/** Faults of a region; empty where it may be used. At most `most` are listed. */
export function regionFaults(region: Region, most = 20): RingFault[] {
  const rings = [region.outline, ...region.holes]
  const faults: RingFault[] = []
  rings.forEach((ring, i) => faults.push(...basicFaults(ring, i)))
  if (faults.length > 0) return faults.slice(0, most)
  faults.push(...crossings(rings, most))
  rings.forEach((ring, i) => faults.push(...emptiness(ring, i)))
  if (faults.length > 0) return faults.slice(0, most)
  faults.push(...misplacedHoles(rings))
  return faults.slice(0, most)
}

function faultAt(kind: RingFaultKind, ring: Ring, index: number, vertex: number): RingFault {
  const v = ring[vertex] ?? { x: 0, y: 0 }
  return { kind, ring: index, vertex, at: { x: v.x, y: v.y } }
}

/** Fewer than three distinct vertices (two where an edge is an arc), not finite, repeated. */
function basicFaults(ring: Ring, index: number): RingFault[] {
  const fault = (kind: RingFaultKind, vertex: number) => faultAt(kind, ring, index, vertex)
  const odd = ring.findIndex(
    (v) => !Number.isFinite(v.x) || !Number.isFinite(v.y) || !Number.isFinite(v.bulge ?? 0),
  )
  if (odd >= 0) return [fault('not-finite', odd)]
  const hasArc = ring.some((v) => v.bulge)
  if (ring.length < (hasArc ? 2 : 3)) return [fault('too-few-vertices', 0)]
  const faults: RingFault[] = []
  ring.forEach((v, i) => {
    const next = ring[(i + 1) % ring.length]!
    if (Math.hypot(next.x - v.x, next.y - v.y) <= TOLERANCE.coincident)
      faults.push(fault('repeated-vertex', i))
  })
  return faults
}

/** A ring that encloses less than a nanometre's width along its length. */
function emptiness(ring: Ring, index: number): RingFault[] {
  const length = ringEdges(ring).reduce((s, e) => s + Math.hypot(e.b.x - e.a.x, e.b.y - e.a.y), 0)
  const empty = ringMoments(ring, ring[0]).area <= TOLERANCE.coincident * length
  return empty ? [faultAt('no-area', ring, index, 0)] : []
}

interface Placed {
  readonly edge: Edge
  readonly ring: number
  readonly index: number
  readonly count: number
  readonly box: ReturnType<typeof edgeBounds>
}

/** Sweep from left to right over the edges of all rings; only boxes that touch are compared. */
function crossings(rings: readonly Ring[], most: number): RingFault[] {
  const all: Placed[] = rings.flatMap((ring, r) =>
    ringEdges(ring).map((edge, index) => ({
      edge,
      ring: r,
      index,
      count: ring.length,
      box: edgeBounds(edge),
    })),
  )
  all.sort((p, q) => p.box.x0 - q.box.x0)
  const faults: RingFault[] = []
  let active: Placed[] = []
  const slack = TOLERANCE.coincident
  for (const p of all) {
    active = active.filter((q) => q.box.x1 >= p.box.x0 - slack)
    for (const q of active) {
      if (q.box.y1 < p.box.y0 - slack || q.box.y0 > p.box.y1 + slack) continue
      const at = forbiddenMeeting(p, q)
      if (!at) continue
      // Between two rings the hole is named, with its own edge; within one ring the earlier edge.
      const named = (p.ring === q.ring ? p.index < q.index : p.ring > q.ring) ? p : q
      faults.push({ kind: crossingKind(p.ring, q.ring), ring: named.ring, vertex: named.index, at })
      if (faults.length >= most) return faults
    }
    active.push(p)
  }
  return faults
}

function crossingKind(a: number, b: number): RingFaultKind {
  if (a === b) return 'crosses-itself'
  return a === 0 || b === 0 ? 'hole-crosses-outline' : 'holes-cross'
}

/** A place where two edges meet although they may not; neighbours may share their common vertex only. */
function forbiddenMeeting(p: Placed, q: Placed): Point | null {
  const follows = p.ring === q.ring && (p.index + 1) % p.count === q.index
  const leads = p.ring === q.ring && (q.index + 1) % q.count === p.index
  if (follows !== leads && (follows ? runsOn(p.edge, q.edge) : runsOn(q.edge, p.edge))) return null
  const shared: Point[] = []
  if (follows) shared.push(p.edge.b)
  if (leads) shared.push(q.edge.b)
  const allowed = (at: Point) =>
    shared.some((s) => Math.hypot(s.x - at.x, s.y - at.y) <= sharedSlack(p.edge, q.edge))
  for (const { at } of edgeMeetings(p.edge, q.edge)) if (!allowed(at)) return { x: at.x, y: at.y }
  // A vertex that rests on another edge without crossing it.
  for (const [end, edge] of [
    [p.edge.a, q.edge],
    [q.edge.a, p.edge],
  ] as const) {
    const near = nearestOnEdge(edge, end)
    if (Math.hypot(near.x - end.x, near.y - end.y) <= TOLERANCE.coincident && !allowed(end))
      return { x: end.x, y: end.y }
  }
  return null
}

/**
 * Whether an edge goes on from the one before it so nearly straight that the two can only share their vertex: seen from
 * there, every point of one lies more than a right angle away from every point of the other. An arc stays within twice
 * the angle of its bulge's tangent from its chord.
 */
function runsOn(before: Edge, after: Edge): boolean {
  const ux = before.a.x - before.b.x
  const uy = before.a.y - before.b.y
  const vx = after.b.x - after.a.x
  const vy = after.b.y - after.a.y
  const bend = 2 * (Math.abs(before.bulge) + Math.abs(after.bulge))
  return ux * vx + uy * vy < -(bend + 1e-9) * Math.sqrt((ux * ux + uy * uy) * (vx * vx + vy * vy))
}

/** Tangent neighbours meet at a flat angle: the crossing formula finds their common vertex with fewer digits. */
function sharedSlack(p: Edge, q: Edge): number {
  const size = Math.max(p.arc?.radius ?? 0, q.arc?.radius ?? 0)
  return Math.max(TOLERANCE.coincident, Math.sqrt(size * 1e-9), size * 1e-7)
}

function misplacedHoles(rings: readonly Ring[]): RingFault[] {
  const faults: RingFault[] = []
  const outline = rings[0]!
  for (let i = 1; i < rings.length; i++) {
    const at = { x: rings[i]![0]!.x, y: rings[i]![0]!.y }
    if (!isInside(outline, at)) faults.push({ kind: 'hole-outside-outline', ring: i, vertex: 0, at })
    for (let j = 1; j < rings.length; j++) {
      if (j !== i && isInside(rings[j]!, at))
        faults.push({ kind: 'hole-inside-hole', ring: i, vertex: 0, at })
    }
  }
  return faults
}
