/**
 * A drawing with its lines cut where a filled shape lies over them: a CAD screen has no paper colour to hide lines
 * with. Sheet mm.
 */
import { edgeBounds, edgesBox, type Edge } from '../../../geometry/edges.ts'
import { windingNumber } from '../../../geometry/nearest.ts'
import { apart, boxAround, inBox, type Box } from '../../../geometry/polygonBox.ts'
import type { Point } from '../../../geometry/types.ts'
import { boxed, chain, edgePieces, edgeRuns, isOn, type Boxed, type Run } from '../../model/edgePieces.ts'
import type { CirclePrimitive, PathPrimitive, Primitive } from '../../model/model.ts'

/** A filled shape: what is inside an odd number of its rings is hidden. */
interface Cover {
  readonly rings: readonly Run[]
  readonly boundary: readonly Boxed[]
  readonly bounds: Box
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
    if (p.fill === 'paper' || p.fill === 'tint') covers.push(coverOf(runs))
  }
  return out.reverse()
}

function coverOf(rings: readonly Run[]): Cover {
  const boundary = boxed(rings.flat())
  return { rings, boundary, bounds: boxAround(boundary.map((b) => b.box)) }
}

function cut<T extends PathPrimitive | CirclePrimitive>(
  p: T,
  runs: readonly Run[],
  covers: readonly Cover[],
): (T | PathPrimitive)[] {
  const own = edgesBox(runs.flat())
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
  const isHidden = (p: Point) => near.some((c) => hides(c, p))
  return edgePieces(
    edge,
    near.flatMap((c) => c.boundary),
    isHidden,
  ).flatMap((piece) => (piece.sort ? [] : [piece.edge]))
}

const hides = ({ rings, boundary, bounds }: Cover, p: Point): boolean =>
  inBox(bounds, p) &&
  rings.filter((ring) => windingNumber(ring, p) !== 0).length % 2 === 1 &&
  !isOn(boundary, p)
