/** Runs of straight and arc edges, the common coin of the readers. */
import { FULL_TURN } from '../geometry/angles.ts'
import { makeEdge } from '../geometry/edges.ts'
import type { Point, Vertex } from '../geometry/types.ts'
import { applyTo, applyToVector, determinant, keepsCircles, type Affine } from '../geometry/affine.ts'
import { ROUNDING } from '../geometry/tolerance.ts'
import { fitArcs, type Fit } from './fitArcs.ts'

export interface Chain {
  /** Of a closed chain the last edge runs back to the first vertex; of an open one the last bulge is not used. */
  readonly vertices: readonly Vertex[]
  readonly closed: boolean
  /** Name of the element it comes from, and where that stands in the file. */
  readonly kind: string
  readonly place: string
}

/** An elliptic arc: centre + u·cos t + v·sin t, t in radians from `start` over `sweep`. */
export interface EllipticArc {
  readonly centre: Point
  readonly u: Point
  readonly v: Point
  readonly start: number
  readonly sweep: number
}

/** Vertices of an elliptic arc, both ends included: exact arcs where it is circular, fitted ones elsewhere. */
export function ellipticArc({ centre, u, v, start, sweep }: EllipticArc, fit: Fit): Vertex[] {
  const at = (t: number): Point => ({
    x: centre.x + u.x * Math.cos(t) + v.x * Math.sin(t),
    y: centre.y + u.y * Math.cos(t) + v.y * Math.sin(t),
  })
  const pieces = Math.max(1, Math.ceil(Math.abs(sweep) / Math.PI - ROUNDING.share))
  const breaks = Array.from({ length: pieces + 1 }, (_, k) => start + (sweep * k) / pieces)
  const size = Math.hypot(u.x, u.y) + Math.hypot(v.x, v.y)
  const unequal = Math.abs(Math.hypot(u.x, u.y) - Math.hypot(v.x, v.y))
  const skew = size === 0 ? 0 : Math.abs(u.x * v.x + u.y * v.y) / size
  if (unequal > ROUNDING.share * size || skew > ROUNDING.share * size) {
    // Quarter turns to begin with, so that no half of an ellipse is taken for a straight line.
    return fitArcs(at, halved(breaks), fit)
  }
  const turn = u.x * v.y - u.y * v.x > 0 ? 1 : -1
  // A half turn is exactly 1, which the tangent misses by a digit.
  const half = Math.abs(Math.abs(sweep / pieces) - Math.PI) < ROUNDING.fraction
  const bulge = turn * (half ? Math.sign(sweep) : Math.tan(sweep / pieces / 4))
  return breaks.map((t, k) => {
    fit.budget.vertex(fit.place)
    return k < pieces ? { ...at(t), bulge } : at(t)
  })
}

/** A full circle as two half-turn arcs or an ellipse as fitted ones, closed: the end is not repeated. */
export function fullEllipse(arc: Omit<EllipticArc, 'start' | 'sweep'>, fit: Fit): Vertex[] {
  return ellipticArc({ ...arc, start: 0, sweep: FULL_TURN }, fit).slice(0, -1)
}

const halved = (breaks: readonly number[]) =>
  breaks.flatMap((t, i) => (i === 0 ? [t] : [(breaks[i - 1]! + t) / 2, t]))

/** A chain under an affine map; arcs that would become elliptic are fitted. */
export function mapChain(chain: Chain, m: Affine, fit: Fit): Chain {
  const { vertices, closed } = chain
  const turn = determinant(m) < 0 ? -1 : 1
  const edgeCount = closed ? vertices.length : vertices.length - 1
  const mapped: Vertex[] = []
  const exact = keepsCircles(m)
  vertices.forEach((vertex, i) => {
    const bulge = i < edgeCount ? (vertex.bulge ?? 0) : 0
    if (bulge === 0 || exact) {
      fit.budget.vertex(fit.place)
      mapped.push(bulge === 0 ? applyTo(m, vertex) : { ...applyTo(m, vertex), bulge: turn * bulge })
      return
    }
    const { arc } = makeEdge(vertex, vertices[(i + 1) % vertices.length]!, bulge)
    if (!arc) {
      fit.budget.vertex(fit.place)
      mapped.push(applyTo(m, vertex))
      return
    }
    const { centre, radius, start, sweep } = arc
    const u = applyToVector(m, { x: radius, y: 0 })
    const v = applyToVector(m, { x: 0, y: radius })
    mapped.push(...ellipticArc({ centre: applyTo(m, centre), u, v, start, sweep }, fit).slice(0, -1))
  })
  return { ...chain, vertices: mapped }
}

/** The same run from its other end; for open chains. */
export function reverseChain(vertices: readonly Vertex[]): Vertex[] {
  return vertices.map((_, i) => {
    const { x, y } = vertices[vertices.length - 1 - i]!
    const bulge = i + 1 < vertices.length ? -(vertices[vertices.length - 2 - i]!.bulge ?? 0) : 0
    return bulge === 0 ? { x, y } : { x, y, bulge }
  })
}
