/** What can be taken hold of on a drawn part, and what lies under the pointer. Part frame, mm; distances in pixels. */
import { pointOnEdge, ringEdges } from '../../../src-core/geometry/edges.ts'
import { isInside, nearestOnEdge } from '../../../src-core/geometry/nearest.ts'
import type { Point, Ring } from '../../../src-core/geometry/types.ts'
import { isPrism, type Part, type Prism } from '../../../src-core/job/schema.ts'
import { ringOf } from '../edits/bodies.ts'
import { roundTo } from '../snap.ts'
import { REACH, reach } from '../reach.ts'
import { bulgeThrough } from './rings.ts'
import type { RingRef } from './snapping.ts'

export type Grip =
  | { readonly kind: 'vertex'; readonly ref: RingRef; readonly index: number }
  | { readonly kind: 'bulge'; readonly ref: RingRef; readonly index: number }
  | { readonly kind: 'edge'; readonly ref: RingRef; readonly index: number }
  | { readonly kind: 'ring'; readonly ref: RingRef }

/** Outline and holes of a body. */
export const ringRefs = (body: Prism): RingRef[] =>
  [body.outline, ...body.holes].map((_ring, ring) => ({ body: body.id, ring }))

/** The ring that a reference names; null where it is gone. */
export function findRing(part: Part, ref: RingRef): Ring | null {
  const body = part.bodies.find((b) => b.id === ref.body)
  const ring = body && isPrism(body) ? ringOf(body, ref.ring) : []
  return ring.length > 0 ? ring : null
}

/** Points and middles of the chosen ring first, then any edge, then the inside of a ring, topmost body first. */
export function gripAt(
  part: Part,
  chosen: RingRef | null,
  p: Point,
  pxPerMm: number,
  touch: boolean,
): Grip | null {
  const px = (q: Point) => Math.hypot(q.x - p.x, q.y - p.y) * pxPerMm
  const near = reach(REACH.grip, touch)
  const ring = chosen && findRing(part, chosen)
  if (chosen && ring) {
    const index = nearestIndex(ring, px, near)
    if (index !== null) return { kind: 'vertex', ref: chosen, index }
    const middles = ringEdges(ring).map((e) => pointOnEdge(e, 0.5))
    const bulge = nearestIndex(middles, px, near * REACH.middleShare)
    if (bulge !== null) return { kind: 'bulge', ref: chosen, index: bulge }
  }
  const bodies = part.bodies.filter(isPrism).sort((a, b) => b.base + b.thickness - (a.base + a.thickness))
  for (const body of bodies) {
    for (const ref of ringRefs(body)) {
      const edges = ringEdges(ringOf(body, ref.ring)).map((e) => nearestOnEdge(e, p))
      const index = nearestIndex(edges, px, near * REACH.gripEdgeShare)
      if (index !== null) return { kind: 'edge', ref, index }
    }
  }
  for (const body of bodies) {
    const [outline, ...holes] = ringRefs(body)
    const hole = holes.find((ref) => isInside(ringOf(body, ref.ring), p))
    if (hole) return { kind: 'ring', ref: hole }
    if (outline && isInside(body.outline, p)) return { kind: 'ring', ref: outline }
  }
  return null
}

function nearestIndex(points: readonly Point[], px: (p: Point) => number, reach: number): number | null {
  let best: number | null = null
  let least = reach
  points.forEach((q, i) => {
    const d = px(q)
    if (d <= least) {
      least = d
      best = i
    }
  })
  return best
}

/** Bulge of the edge a–b dragged to p: straight and half-turn are caught within pixels, unless `free`. */
export function bulgeFor(a: Point, b: Point, p: Point, pxPerMm: number, free: boolean): number {
  const bulge = bulgeThrough(a, b, p)
  if (free) return bulge
  const chord = Math.hypot(b.x - a.x, b.y - a.y)
  const height = (Math.abs(bulge) * chord) / 2
  if (height * pxPerMm < REACH.bend) return 0
  if (Math.abs(height - chord / 2) * pxPerMm < REACH.bend) return Math.sign(bulge)
  return roundTo(bulge, 1e-4)
}

/** How far along an edge (0.01 to 0.99) the point of it nearest to p lies, in hundredths. */
export function shareAlong(ring: Ring, index: number, p: Point): number {
  const edge = ringEdges(ring)[index]
  if (!edge) return 0.5
  let share = 0.5
  let least = Infinity
  for (let k = 1; k < 100; k++) {
    const q = pointOnEdge(edge, k / 100)
    const d = Math.hypot(q.x - p.x, q.y - p.y)
    if (d < least) {
      least = d
      share = k / 100
    }
  }
  return share
}
