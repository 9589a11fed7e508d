/**
 * Cutting a disc out of a region bounded by directed straight and arc edges (region on the left), exactly: no edge
 * is flattened. What a bore takes away, and what it leaves, are again sets of directed edges, so they can be
 * weighed by `edgeMoments` and cut again.
 */
import { arcFraction, edgePiece, makeEdge, pointOnEdge, reverseEdge, ringEdges, type Edge } from './edges.ts'
import { edgeMeetings } from './intersect.ts'
import { signedRingMoments } from './moments.ts'
import { windingNumber } from './nearest.ts'
import { TOLERANCE } from './tolerance.ts'
import type { Point, Region, Ring } from './types.ts'

/** A region's boundary as directed edges with its material on the left. */
export function regionEdges(region: Region): Edge[] {
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
    const cuts = [0, 1]
    circle.forEach((half, i) => {
      if (liesOnCircle(edge, centre, radius)) {
        for (const end of [edge.a, edge.b]) {
          const t = half.arc && arcFraction(half.arc, Math.atan2(end.y - centre.y, end.x - centre.x))
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
        ;(runsCounterClockwise(piece) ? inside : outside).push(piece)
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

function split(edge: Edge, cuts: readonly number[]): Edge[] {
  const sorted = [...cuts].sort((a, b) => a - b)
  const pieces: Edge[] = []
  let from = 0
  for (const t of sorted) {
    if (t - from <= 1e-12) continue
    pieces.push(edgePiece(edge, from, t))
    from = t
  }
  return pieces
}

function liesOnCircle(e: Edge, centre: Point, radius: number): boolean {
  if (!e.arc) return false
  const slack = TOLERANCE.coincident
  return (
    Math.abs(e.arc.radius - radius) <= slack &&
    Math.hypot(e.arc.centre.x - centre.x, e.arc.centre.y - centre.y) <= slack
  )
}

const runsCounterClockwise = (e: Edge) => e.arc!.sweep > 0

function coversDirection(e: Edge, centre: Point, at: Point): boolean {
  return arcFraction(e.arc!, Math.atan2(at.y - centre.y, at.x - centre.x)) !== null
}
