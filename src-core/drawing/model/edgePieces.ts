/** An edge in pieces, told apart by what holds of their middles. */
import {
  circleRing,
  edgeBounds,
  edgePiece,
  makeEdge,
  pointOnEdge,
  ringEdges,
  type Edge,
} from '../../geometry/edges.ts'
import { edgeMeetings } from '../../geometry/intersect.ts'
import { nearestOnEdge } from '../../geometry/nearest.ts'
import { apart, type Box } from '../../geometry/polygonBox.ts'
import { PAPER_TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point } from '../../geometry/types.ts'
import type { CirclePrimitive, PathPrimitive, PathStep } from './model.ts'
import { subPaths } from './subPaths.ts'

/** Edges that follow on one another. */
export type Run = readonly Edge[]

/** What a primitive draws, as runs of edges. */
export function edgeRuns(p: PathPrimitive | CirclePrimitive): Run[] {
  if (p.kind === 'circle') return [ringEdges(circleRing(p.centre, 2 * p.radius))]
  return subPaths(p.steps).map(({ vertices, closed }) =>
    closed
      ? ringEdges(vertices)
      : vertices.slice(1).map((to, i) => makeEdge(vertices[i]!, to, vertices[i]!.bulge ?? 0)),
  )
}

/** An edge with its box: what a boundary is made of. */
export interface Boxed {
  readonly edge: Edge
  readonly box: Box
}

export const boxed = (edges: readonly Edge[]): Boxed[] =>
  edges.map((edge) => ({ edge, box: edgeBounds(edge) }))

/** Whether a point lies on a boundary: a line that runs along an outline shows. */
export const isOn = (boundary: readonly Boxed[], p: Point): boolean =>
  boundary.some(({ edge, box: { x0, y0, x1, y1 } }) => {
    const near = PAPER_TOLERANCE.onOutline
    if (p.x < x0 - near || p.x > x1 + near || p.y < y0 - near || p.y > y1 + near) return false
    const q = nearestOnEdge(edge, p)
    return Math.hypot(q.x - p.x, q.y - p.y) < near
  })

export interface Piece<T> {
  readonly edge: Edge
  readonly sort: T
}

/**
 * Cuts an edge where it meets boundaries and `more` times evenly besides; neighbours of one sort are one piece.
 */
export function edgePieces<T>(
  edge: Edge,
  boundaries: readonly Boxed[],
  sort: (middle: Point) => T,
  more = 0,
): Piece<T>[] {
  const own = edgeBounds(edge)
  const at = boundaries
    .filter((b) => !apart(b.box, own))
    .flatMap((b) => edgeMeetings(edge, b.edge).map((m) => m.ta))
  for (let i = 1; i <= more; i++) at.push(i / (more + 1))
  const cuts = [0, ...at, 1].sort((a, b) => a - b)
  const runs: { from: number; to: number; sort: T }[] = []
  for (let i = 0; i + 1 < cuts.length; i++) {
    const [from, to] = [cuts[i]!, cuts[i + 1]!]
    if (to - from < PAPER_TOLERANCE.leastPiece) continue
    const of = sort(pointOnEdge(edge, (from + to) / 2))
    const last = runs.at(-1)
    if (last?.sort === of && from - last.to < PAPER_TOLERANCE.leastPiece) last.to = to
    else runs.push({ from, to, sort: of })
  }
  return runs.map(({ from, to, sort: of }) => ({
    sort: of,
    edge: edgePiece(
      edge,
      from < PAPER_TOLERANCE.leastPiece ? 0 : from,
      to > 1 - PAPER_TOLERANCE.leastPiece ? 1 : to,
    ),
  }))
}

/** Edges as steps, one run for those that follow on one another. */
export function chain(edges: readonly Edge[]): PathStep[] {
  const steps: PathStep[] = []
  let pen: Point | null = null
  for (const { a, b, bulge } of edges) {
    if (!pen || Math.hypot(pen.x - a.x, pen.y - a.y) > PAPER_TOLERANCE.onOutline)
      steps.push({ to: 'move', x: a.x, y: a.y })
    steps.push(bulge === 0 ? { to: 'line', x: b.x, y: b.y } : { to: 'arc', x: b.x, y: b.y, bulge })
    pen = b
  }
  return steps
}
