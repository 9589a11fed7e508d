/**
 * A drawing with its lines cut where a filled shape lies over them: a CAD screen has no paper colour to hide lines
 * with. Sheet mm.
 */
import {
  circleRing,
  edgeBounds,
  edgePiece,
  makeEdge,
  pointOnEdge,
  ringEdges,
  type Edge,
} from '../../../geometry/edges.ts'
import { edgeMeetings } from '../../../geometry/intersect.ts'
import { nearestOnEdge, windingNumber } from '../../../geometry/nearest.ts'
import { PAPER_TOLERANCE } from '../../../geometry/tolerance.ts'
import type { Point } from '../../../geometry/types.ts'
import type { CirclePrimitive, PathPrimitive, PathStep, Primitive } from '../../model/model.ts'
import type { Bounds } from '../../placing/inkMap.ts'
import { subPaths } from '../../model/subPaths.ts'

/** A filled shape: what is inside an odd number of its rings is hidden. */
interface Cover {
  readonly rings: readonly Run[]
  readonly bounds: Bounds
}

/** The same primitives, those that later ones hide wholly left out, those hidden in part cut to what shows. */
export function uncovered(primitives: readonly Primitive[]): Primitive[] {
  const out: Primitive[] = []
  const covers: Cover[] = []
  // From the uppermost down, so that each meets only what lies over it.
  for (const p of primitives.toReversed()) {
    if (p.kind !== 'path' && p.kind !== 'circle') {
      out.push(p)
      continue
    }
    const runs = edgeRuns(p)
    out.push(...(p.fill === 'solid' ? [p] : cut(p, runs, covers)))
    if (p.fill === 'paper' || p.fill === 'tint') covers.push({ rings: runs, bounds: boundsOf(runs.flat()) })
  }
  return out.reverse()
}

type Run = readonly Edge[]

function edgeRuns(p: PathPrimitive | CirclePrimitive): Run[] {
  if (p.kind === 'circle') return [ringEdges(circleRing(p.centre, 2 * p.radius))]
  return subPaths(p.steps).map(({ vertices, closed }) =>
    closed
      ? ringEdges(vertices)
      : vertices.slice(1).map((to, i) => makeEdge(vertices[i]!, to, vertices[i]!.bulge ?? 0)),
  )
}

function boundsOf(edges: readonly Edge[]): Bounds {
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity }
  for (const b of edges.map(edgeBounds)) {
    box.x0 = Math.min(box.x0, b.x0)
    box.y0 = Math.min(box.y0, b.y0)
    box.x1 = Math.max(box.x1, b.x1)
    box.y1 = Math.max(box.y1, b.y1)
  }
  return box
}

const apart = (a: Bounds, b: Bounds): boolean => a.x0 > b.x1 || b.x0 > a.x1 || a.y0 > b.y1 || b.y0 > a.y1

function cut<T extends PathPrimitive | CirclePrimitive>(
  p: T,
  runs: readonly Run[],
  covers: readonly Cover[],
): (T | PathPrimitive)[] {
  const own = boundsOf(runs.flat())
  const over = covers.filter((c) => !apart(c.bounds, own))
  if (over.length === 0) return [p]
  let whole = true
  const steps = runs.flatMap((edges) => {
    const pieces = edges.map((edge) => showing(edge, over))
    if (pieces.some((kept, i) => kept.length !== 1 || kept[0] !== edges[i])) whole = false
    return chain(pieces.flat())
  })
  if (whole) return [p]
  return steps.length > 0 ? [{ kind: 'path', layer: p.layer, steps, fill: 'none' }] : []
}

/** The pieces of an edge that no cover hides; the edge itself where none does. */
function showing(edge: Edge, covers: readonly Cover[]): Edge[] {
  const own = edgeBounds(edge)
  const near = covers.filter((c) => !apart(c.bounds, own))
  if (near.length === 0) return [edge]
  const at = near
    .flatMap((c) => c.rings.flatMap((ring) => ring.flatMap((e) => edgeMeetings(edge, e))))
    .map((m) => m.ta)
  const cuts = [0, ...at, 1].sort((a, b) => a - b)
  const pieces: [number, number][] = []
  for (let i = 0; i + 1 < cuts.length; i++) {
    const [from, to] = [cuts[i]!, cuts[i + 1]!]
    if (to - from < PAPER_TOLERANCE.leastPiece) continue
    if (near.some((c) => hides(c, pointOnEdge(edge, (from + to) / 2)))) continue
    const last = pieces.at(-1)
    if (last && from - last[1] < PAPER_TOLERANCE.leastPiece) last[1] = to
    else pieces.push([from, to])
  }
  return pieces.map(([from, to]) =>
    edgePiece(
      edge,
      from < PAPER_TOLERANCE.leastPiece ? 0 : from,
      to > 1 - PAPER_TOLERANCE.leastPiece ? 1 : to,
    ),
  )
}

function hides({ rings, bounds }: Cover, p: Point): boolean {
  if (p.x < bounds.x0 || p.x > bounds.x1 || p.y < bounds.y0 || p.y > bounds.y1) return false
  if (rings.filter((ring) => windingNumber(ring, p) !== 0).length % 2 === 0) return false
  return !rings.some((ring) =>
    ring.some((e) => {
      const q = nearestOnEdge(e, p)
      return Math.hypot(q.x - p.x, q.y - p.y) < PAPER_TOLERANCE.onOutline
    }),
  )
}

/** Edges as steps, one run for those that follow on one another. */
function chain(edges: readonly Edge[]): PathStep[] {
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
