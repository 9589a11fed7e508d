/** Moving a photograph over the plan by its ties: the pixels stay, the points they lie on move together. */
import { turnPoint } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import { applyTo, type Affine } from '../geometry/affine.ts'
import { COORDINATE_LIMIT } from '../geometry/limits.ts'
import { ROUNDING } from '../geometry/tolerance.ts'
import type { Ties } from './planMap.ts'

/** The ties with each plan point (mm) replaced; null where one would leave the range a job may hold. */
export function mapTies(ties: Ties, change: (p: Point) => Point): Ties | null {
  const moved = ties.map(({ u, v, x, y }) => ({ u, v, ...change({ x, y }) }))
  const inRange = (v: number) => Math.abs(v) <= COORDINATE_LIMIT
  return moved.every((t) => inRange(t.x) && inRange(t.y)) ? (moved as unknown as Ties) : null
}

/** Moved by a step, mm. */
export const moveTies = (ties: Ties, by: Point): Ties | null =>
  mapTies(ties, (p) => ({ x: p.x + by.x, y: p.y + by.y }))

/** Turned by degrees counter-clockwise and scaled by a factor about a point of the plan. */
export function turnTies(ties: Ties, about: Point, degrees: number, factor = 1): Ties | null {
  return mapTies(ties, (p) => {
    const by = turnPoint({ x: p.x - about.x, y: p.y - about.y }, degrees)
    return { x: about.x + factor * by.x, y: about.y + factor * by.y }
  })
}

/**
 * The move, turn and scaling that carries the plan points of one set of ties to those of another, as a map of the
 * plan; null where the pixels differ or more than that was done.
 */
export function carried(from: Ties, to: Ties): Affine | null {
  if (from.length !== to.length || from.some((t, i) => t.u !== to[i]!.u || t.v !== to[i]!.v)) return null
  const [p, q] = from
  const [a, b] = to
  const dx = q.x - p.x
  const dy = q.y - p.y
  const n = dx * dx + dy * dy
  const re = ((b.x - a.x) * dx + (b.y - a.y) * dy) / n
  const im = ((b.y - a.y) * dx - (b.x - a.x) * dy) / n
  const map = { a: re, b: im, c: -im, d: re, e: a.x - re * p.x + im * p.y, f: a.y - im * p.x - re * p.y }
  const near = ROUNDING.share * (1 + Math.hypot(a.x, a.y) + Math.hypot(b.x, b.y))
  const same = from.every((t, i) => {
    const at = applyTo(map, t)
    return Math.hypot(at.x - to[i]!.x, at.y - to[i]!.y) <= near
  })
  return same ? map : null
}
