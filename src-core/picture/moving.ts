/** Moving a photograph over the plan by its ties: the pixels stay, the points they lie on move together. */
import type { Point } from '../geometry/types.ts'
import { LIMITS } from '../job/schema.ts'
import type { Ties } from './planMap.ts'

/** The ties with each plan point (mm) replaced; null where one would leave the range a job may hold. */
export function mapTies(ties: Ties, change: (p: Point) => Point): Ties | null {
  const moved = ties.map(({ u, v, x, y }) => ({ u, v, ...change({ x, y }) }))
  const inRange = (v: number) => Math.abs(v) <= LIMITS.coordinate
  return moved.every((t) => inRange(t.x) && inRange(t.y)) ? (moved as unknown as Ties) : null
}

/** Moved by a step, mm. */
export const moveTies = (ties: Ties, by: Point): Ties | null =>
  mapTies(ties, (p) => ({ x: p.x + by.x, y: p.y + by.y }))

/** Turned by degrees counter-clockwise and scaled by a factor about a point of the plan. */
export function turnTies(ties: Ties, about: Point, degrees: number, factor = 1): Ties | null {
  const c = factor * Math.cos((degrees * Math.PI) / 180)
  const s = factor * Math.sin((degrees * Math.PI) / 180)
  return mapTies(ties, (p) => {
    const x = p.x - about.x
    const y = p.y - about.y
    return { x: about.x + c * x - s * y, y: about.y + s * x + c * y }
  })
}
