/**
 * Cutting a disc out of a region bounded by directed straight and arc edges (region on the left), exactly: no edge
 * is flattened. What a bore takes away, and what it leaves, are again sets of directed edges, so they can be
 * weighed by `edgeMoments` and cut again.
 */
import { keptOf } from './kept.ts'
import { angleTowards } from './angles.ts'
import {
  arcFraction,
  edgePiece,
  makeEdge,
  pointOnEdge,
  reverseEdge,
  ringEdges,
  type Arc,
  type Edge,
} from './edges.ts'
import { edgeMeetings } from './intersect.ts'
import { signedRingMoments } from './ringMoments.ts'
import { windingNumber } from './nearest.ts'
import { ROUNDING, TOLERANCE } from './tolerance.ts'
import type { Point, Region, Ring } from './types.ts'

/**
 * A region's boundary as directed edges with its material on the left; kept per region object, which is immutable, for
 * every bore asks it again.
 */
export const regionEdges: (region: Region) => readonly Edge[] = keptOf(findEdges)

function findEdges(region: Region): Edge[] {
  const oriented = (ring: Ring, outer: boolean) => {
    const edges = ringEdges(ring)
    const counterClockwise = signedRingMoments(ring, ring[0]).area > 0
    return counterClockwise === outer ? edges : edges.map(reverseEdge).reverse()
  }
  return [...oriented(region.outline, true), ...region.holes.flatMap((hole) => oriented(hole, false))]
}

export interface DiscCut {
  /** Boundary of what lies within the disc. */
  readonly inside: Edge[]
  /** Boundary of what is left. */
  readonly outside: Edge[]
}

/** Splits a region by a circle, mm. */
export function cutDisc(edges: readonly Edge[], centre: Point, diameter: number): DiscCut {
  const radius = diameter / 2
  const circle = [
    makeEdge({ x: centre.x - radius, y: centre.y }, { x: centre.x + radius, y: centre.y }, 1),
    makeEdge({ x: centre.x + radius, y: centre.y }, { x: centre.x - radius, y: centre.y }, 1),
  ]
  const inside: Edge[] = []
  const outside: Edge[] = []
  const circleCuts: number[][] = [
    [0, 1],
    [0, 1],
  ]
  const onCircle: Edge[] = []
  for (const edge of edges) {
    const side = plainSide(edge, centre, radius)
    if (side !== null) {
      ;(side === 'inside' ? inside : outside).push(edge)
      continue
    }
    const cuts = [0, 1]
    circle.forEach((half, i) => {
      if (liesOnCircle(edge, centre, radius)) {
        for (const end of [edge.a, edge.b]) {
          const t = half.arc && arcFraction(half.arc, angleTowards(centre, end))
          if (t !== null) circleCuts[i]!.push(t)
        }
        return
      }
      for (const { ta, tb } of edgeMeetings(edge, half)) {
        cuts.push(ta)
        circleCuts[i]!.push(tb)
      }
    })
    for (const piece of split(edge, cuts)) {
      if (liesOnCircle(piece, centre, radius)) {
        onCircle.push(piece)
        // Along the circle: material inside the disc if it runs with it, outside if against.
        ;(onCircleArc(piece, centre).sweep > 0 ? inside : outside).push(piece)
        continue
      }
      const mid = pointOnEdge(piece, 0.5)
      const within = Math.hypot(mid.x - centre.x, mid.y - centre.y) < radius
      ;(within ? inside : outside).push(piece)
    }
  }
  circle.forEach((half, i) => {
    for (const piece of split(half, circleCuts[i]!)) {
      const mid = pointOnEdge(piece, 0.5)
      if (onCircle.some((e) => coversDirection(e, centre, mid)) || windingNumber(edges, mid) === 0) continue
      inside.push(piece)
      outside.push(reverseEdge(piece))
    }
  })
  return { inside, outside }
}

/**
 * On which side of the circle an edge lies whole, where that is plain to see; null where it may touch it. An arc of at
 * most a half turn strays from its chord by half the chord times its bulge.
 */
function plainSide({ a, b, bulge }: Edge, centre: Point, radius: number): 'inside' | 'outside' | null {
  const size = Math.abs(bulge)
  if (size > 1) return null
  const dx = b.x - a.x
  const dy = b.y - a.y
  const ax = a.x - centre.x
  const ay = a.y - centre.y
  const square = dx * dx + dy * dy
  const room = (Math.sqrt(square) / 2) * size + TOLERANCE.coincident * (1 + radius)
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, -(ax * dx + ay * dy) / square))
  const px = ax + t * dx
  const py = ay + t * dy
  const near = radius + room
  if (px * px + py * py > near * near) return 'outside'
  const far = radius - room
  if (far <= 0) return null
  const bx = b.x - centre.x
  const by = b.y - centre.y
  return Math.max(ax * ax + ay * ay, bx * bx + by * by) < far * far ? 'inside' : null
}

function split(edge: Edge, cuts: readonly number[]): Edge[] {
  const sorted = [...cuts].sort((a, b) => a - b)
  const pieces: Edge[] = []
  let from = 0
  for (const t of sorted) {
    if (t - from <= ROUNDING.fraction) continue
    pieces.push(edgePiece(edge, from, t))
    from = t
  }
  return pieces
}

/**
 * By three of its points: the centre of a short arc, found again from its ends, has few digits, and a very short arc of
 * the circle is a straight edge.
 */
function liesOnCircle(e: Edge, centre: Point, radius: number): boolean {
  const isOn = (p: Point) =>
    Math.abs(Math.hypot(p.x - centre.x, p.y - centre.y) - radius) <= TOLERANCE.coincident
  return isOn(e.a) && isOn(e.b) && isOn(pointOnEdge(e, 0.5))
}

/** An edge that lies on the circle as the circle's arc. */
function onCircleArc({ a, b, arc }: Edge, centre: Point): Arc {
  if (arc) return arc
  const radius = Math.hypot(a.x - centre.x, a.y - centre.y)
  const start = angleTowards(centre, a)
  const cross = (a.x - centre.x) * (b.y - centre.y) - (a.y - centre.y) * (b.x - centre.x)
  return { centre, radius, start, sweep: Math.asin(Math.max(-1, Math.min(1, cross / (radius * radius)))) }
}

function coversDirection(e: Edge, centre: Point, at: Point): boolean {
  return arcFraction(onCircleArc(e, centre), angleTowards(centre, at)) !== null
}
