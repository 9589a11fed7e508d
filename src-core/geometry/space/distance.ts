/**
 * Distance of two convex pieces by the method of Gilbert, Johnson and Keerthi: the point nearest the origin of their
 * differences, sought in simplices of corners. Of polytopes it ends after finitely many steps at the exact answer.
 */
import type { Point3 } from '../types.ts'
import { farthestCorner, type Convex } from './convex.ts'
import { Simplex } from './simplex.ts'

export interface Nearest {
  /** mm; 0 where the pieces touch or have material in common. */
  readonly distance: number
  /** Points of both at that distance; one and the same, in both of them, where it is 0. */
  readonly onA: Point3
  readonly onB: Point3
}

/** mm: nearer than this touches. */
const TOUCH = 1e-9
/** Share of the distance within which the answer is known when the search ends. */
const NEAR = 1e-12
/** Far more than are taken: it is the end of a search that rounding keeps from settling. */
const STEPS = 200

const a = new Float64Array(3)
const b = new Float64Array(3)

/** The nearest points of two pieces. */
export const nearestPoints = (first: Convex, second: Convex): Nearest => search(first, second, Infinity)

/** A point that two pieces have in common; null where they are apart. */
export function commonPoint(first: Convex, second: Convex): Point3 | null {
  const { distance, onA } = search(first, second, 0)
  return distance > 0 ? null : onA
}

/** Given up once the pieces are plainly further apart than `enough`, mm; the distance is then above it and no more. */
function search(first: Convex, second: Convex, enough: number): Nearest {
  const simplex = new Simplex()
  let d = away(first, second)
  let square = Infinity
  for (let i = 0; i < STEPS; i++) {
    // Towards the origin: against the point nearest to it.
    farthestCorner(first, -d.x, -d.y, -d.z, a)
    farthestCorner(second, d.x, d.y, d.z, b)
    const reach = d.x * (a[0]! - b[0]!) + d.y * (a[1]! - b[1]!) + d.z * (a[2]! - b[2]!)
    if (reach > enough * Math.hypot(d.x, d.y, d.z) && enough < Infinity)
      return { distance: Infinity, ...simplex.points() }
    // No corner lies nearer by more than rounding.
    if (i > 0 && square - reach <= NEAR * square) break
    if (!simplex.add(a, b)) break
    simplex.reduce()
    d = simplex.nearest()
    const now = d.x * d.x + d.y * d.y + d.z * d.z
    if (simplex.holdsOrigin || now <= TOUCH * TOUCH) return { distance: 0, ...simplex.points() }
    if (now >= square) break
    square = now
  }
  return { distance: Math.sqrt(square), ...simplex.points() }
}

/** From one piece's middle to the other's, for a start. */
function away(first: Convex, second: Convex): Point3 {
  const middle = ({ box: { low, high } }: Convex, k: 'x' | 'y' | 'z') => low[k] + high[k]
  const d = (k: 'x' | 'y' | 'z') => middle(first, k) - middle(second, k)
  const found = { x: d('x'), y: d('y'), z: d('z') }
  return found.x === 0 && found.y === 0 && found.z === 0 ? { x: 1, y: 0, z: 0 } : found
}
