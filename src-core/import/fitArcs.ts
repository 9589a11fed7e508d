/** Curves as circular arcs and straight edges that stray from them by no more than a tolerance. */
import { makeEdge } from '../geometry/edges.ts'
import { nearestOnEdge } from '../geometry/nearest.ts'
import type { Point, Vertex } from '../geometry/types.ts'
import type { Budget } from './refusal.ts'

/** Arcs no longer than a quarter turn: tan(90°/4). */
const LARGEST_BULGE = 0.4143
const DEEPEST = 14
/** Steps of work to find how far a point lies from an edge. */
const DISTANCE_COST = 8
const SAMPLES = [0.1, 0.23, 0.37, 0.5, 0.63, 0.77, 0.9]

export interface Fit {
  /** Largest distance from the curve, in its own unit, found at seven places of every piece. */
  readonly tolerance: number
  readonly budget: Budget
  readonly place: string
}

/**
 * The curve from breaks[0] to the last of `breaks` as vertices with bulges, both ends included. Between two breaks it
 * must be smooth. Each piece is the arc through its two ends and its middle, halved while the curve strays from it.
 * `cost`: steps of work that a point of the curve takes.
 */
export function fitArcs(
  curve: (t: number) => Point,
  breaks: readonly number[],
  fit: Fit,
  cost = 1,
): Vertex[] {
  const out: Vertex[] = []
  for (let i = 0; i + 1 < breaks.length; i++) {
    const t0 = breaks[i]!
    const t1 = breaks[i + 1]!
    fitPiece(curve, t0, curve(t0), t1, curve(t1), DEEPEST, { ...fit, cost }, out)
  }
  const end = curve(breaks.at(-1)!)
  out.push({ x: end.x, y: end.y })
  return out
}

function fitPiece(
  curve: (t: number) => Point,
  t0: number,
  p0: Point,
  t1: number,
  p1: Point,
  depth: number,
  fit: Fit & { readonly cost: number },
  out: Vertex[],
): void {
  fit.budget.work((fit.cost + DISTANCE_COST) * (SAMPLES.length + 1), fit.place)
  const tm = (t0 + t1) / 2
  const pm = curve(tm)
  let bulge = bulgeThrough(p0, pm, p1)
  const sagitta = (Math.abs(bulge) * Math.hypot(p1.x - p0.x, p1.y - p0.y)) / 2
  if (sagitta <= fit.tolerance / 10) bulge = 0
  if (
    depth === 0 ||
    (Math.abs(bulge) <= LARGEST_BULGE && follows(curve, t0, p0, t1, p1, bulge, fit.tolerance))
  ) {
    fit.budget.vertex(fit.place)
    out.push(bulge !== 0 && depth > 0 ? { x: p0.x, y: p0.y, bulge } : { x: p0.x, y: p0.y })
    return
  }
  fitPiece(curve, t0, p0, tm, pm, depth - 1, fit, out)
  fitPiece(curve, tm, pm, t1, p1, depth - 1, fit, out)
}

function follows(
  curve: (t: number) => Point,
  t0: number,
  p0: Point,
  t1: number,
  p1: Point,
  bulge: number,
  tolerance: number,
): boolean {
  const edge = makeEdge(p0, p1, bulge)
  return SAMPLES.every((s) => {
    const p = curve(t0 + (t1 - t0) * s)
    const q = nearestOnEdge(edge, p)
    return Math.hypot(p.x - q.x, p.y - q.y) <= tolerance
  })
}

/**
 * Bulge of the arc from p0 through pm to p1. With φ the angle at pm, the arc's included angle is 2(π − φ), so the
 * bulge is tan((π − φ)/2) = |u × v| / (|u||v| − u·v). Infinite where p0 and p1 lie the same way from pm.
 */
export function bulgeThrough(p0: Point, pm: Point, p1: Point): number {
  const ux = p0.x - pm.x
  const uy = p0.y - pm.y
  const vx = p1.x - pm.x
  const vy = p1.y - pm.y
  const cross = ux * vy - uy * vx
  const rest = Math.hypot(ux, uy) * Math.hypot(vx, vy) - (ux * vx + uy * vy)
  if (cross === 0) return rest > 0 ? 0 : Infinity
  return -cross / rest
}
