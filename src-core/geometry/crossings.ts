/**
 * Where the edges of a region's rings meet although they may not. The whole is swept once; of a region that differs in a
 * few edges from one that was found clear, only those edges are looked at: the others have not come nearer to each other.
 */
import { edgeBounds, ringEdges, type Edge } from './edges.ts'
import { edgeMeetings } from './intersect.ts'
import { nearestOnEdge } from './nearest.ts'
import type { Point, Ring } from './types.ts'
import type { RingFault, RingFaultKind } from './ringFault.ts'
import { ROUNDING, TOLERANCE } from './tolerance.ts'

interface Placed {
  readonly edge: Edge
  readonly ring: number
  readonly index: number
  readonly count: number
  readonly box: ReturnType<typeof edgeBounds>
  /** Its place among the edges of all rings. */
  readonly order: number
}

/** The edges of the last region that was found clear. */
let clear: readonly Placed[] | null = null
/** Beyond as many changed edges the sweep is as fast. */
const FEW = 24

/** At most `most` crossings, left to right; the rings have passed the basic checks. */
export function crossings(rings: readonly Ring[], most: number): RingFault[] {
  const known = clear && changedFew(clear, rings)
  if (known && known.changed.every((p) => isClear(p, known.all))) {
    clear = known.all
    return []
  }
  const all = known?.all ?? placeAll(rings)
  const faults = sweep(all, most)
  if (faults.length === 0) clear = all
  return faults
}

function place(edge: Edge, ring: number, index: number, count: number, order: number): Placed {
  return { edge, ring, index, count, box: edgeBounds(edge), order }
}

function placeAll(rings: readonly Ring[]): Placed[] {
  const all: Placed[] = []
  rings.forEach((ring, r) =>
    ringEdges(ring).forEach((edge, i) => all.push(place(edge, r, i, ring.length, all.length))),
  )
  return all
}

/** The region's edges, those taken over from `before` that are the same in place, and those that are not; null: too many. */
function changedFew(
  before: readonly Placed[],
  rings: readonly Ring[],
): { all: readonly Placed[]; changed: readonly Placed[] } | null {
  if (rings.reduce((sum, ring) => sum + ring.length, 0) !== before.length) return null
  const all: Placed[] = []
  const changed: Placed[] = []
  for (let r = 0; r < rings.length; r++) {
    const edges = ringEdges(rings[r]!)
    for (let i = 0; i < edges.length; i++) {
      const edge = edges[i]!
      const old = before[all.length]!
      if (old.ring !== r || old.count !== edges.length) return null
      if (sameEdge(old.edge, edge)) all.push(old)
      else {
        const placed = place(edge, r, i, edges.length, all.length)
        all.push(placed)
        changed.push(placed)
        if (changed.length > FEW) return null
      }
    }
  }
  return { all, changed }
}

const sameEdge = (p: Edge, q: Edge): boolean =>
  p === q || (p.a.x === q.a.x && p.a.y === q.a.y && p.b.x === q.b.x && p.b.y === q.b.y && p.bulge === q.bulge)

/** Whether an edge meets no other forbiddenly; pairs are asked in the order in which the sweep asks them. */
function isClear(p: Placed, all: readonly Placed[]): boolean {
  for (const q of all) {
    if (q === p || !boxesTouch(p, q)) continue
    const later = p.box.x0 > q.box.x0 || (p.box.x0 === q.box.x0 && p.order > q.order)
    if (later ? forbiddenMeeting(p, q) : forbiddenMeeting(q, p)) return false
  }
  return true
}

function boxesTouch({ box: a }: Placed, { box: b }: Placed): boolean {
  const slack = TOLERANCE.coincident
  return a.x0 <= b.x1 + slack && b.x0 <= a.x1 + slack && a.y0 <= b.y1 + slack && b.y0 <= a.y1 + slack
}

/** From left to right over the edges of all rings; only boxes that touch are compared. */
function sweep(all: readonly Placed[], most: number): RingFault[] {
  const sorted = [...all].sort((p, q) => p.box.x0 - q.box.x0)
  const faults: RingFault[] = []
  let active: Placed[] = []
  const slack = TOLERANCE.coincident
  for (const p of sorted) {
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
  return ux * vx + uy * vy < -(bend + ROUNDING.share) * Math.sqrt((ux * ux + uy * uy) * (vx * vx + vy * vy))
}

/** Tangent neighbours meet at a flat angle: the crossing formula finds their common vertex with fewer digits. */
function sharedSlack(p: Edge, q: Edge): number {
  const size = Math.max(p.arc?.radius ?? 0, q.arc?.radius ?? 0)
  return Math.max(TOLERANCE.coincident, Math.sqrt(size * ROUNDING.length), size * TOLERANCE.tangentMeeting)
}
