/** Newton's method on the sphere for a function that does not change along a ray. */
import type { Direction } from './slipLattice.ts'

/** A function of (x, y, z) to second order: value, gradient, and the Hessian's xx, xy, xz, yy, yz, zz. */
export type Expansion = Float64Array

/** Longest step, rad. */
const REACH = 0.3
const STEPS = 12
const HALVINGS = 6

export interface Valley {
  readonly q: Direction
  readonly value: number
}

/** The least value that steps downhill from `start` reach, and where; `start` is a unit vector. */
export function descend(
  start: Direction,
  value: (q: Direction) => number,
  expand: (q: Direction) => Expansion,
): Valley {
  let q = start
  let best = value(q)
  for (let step = 0; step < STEPS; step++) {
    const [u, w] = tangents(q)
    const [du, dw] = newtonStep(expand(q), u, w)
    let share = Math.min(1, REACH / Math.hypot(du, dw))
    if (!(share > 0)) return { q, value: best }
    let next: Direction | null = null
    let reached = best
    for (let i = 0; i < HALVINGS && !next; i++, share /= 2) {
      const tried = unit([
        q[0] + share * (du * u[0] + dw * w[0]),
        q[1] + share * (du * u[1] + dw * w[1]),
        q[2] + share * (du * u[2] + dw * w[2]),
      ])
      const at = value(tried)
      if (at < best) {
        next = tried
        reached = at
      }
    }
    if (!next) return { q, value: best }
    const gain = best - reached
    q = next
    best = reached
    if (gain <= 1e-10 * Math.abs(best)) return { q, value: best }
  }
  return { q, value: best }
}

/** Step against the gradient in the tangent plane, each principal curvature taken as positive so that it goes down. */
function newtonStep(e: Expansion, u: Direction, w: Direction): [number, number] {
  const [gx, gy, gz] = [e[1]!, e[2]!, e[3]!]
  const [xx, xy, xz, yy, yz, zz] = [e[4]!, e[5]!, e[6]!, e[7]!, e[8]!, e[9]!]
  const form = (a: Direction, b: Direction) =>
    a[0] * (xx * b[0] + xy * b[1] + xz * b[2]) +
    a[1]! * (xy * b[0] + yy * b[1] + yz * b[2]) +
    a[2]! * (xz * b[0] + yz * b[1] + zz * b[2])
  const gu = gx * u[0] + gy * u[1] + gz * u[2]
  const gw = gx * w[0] + gy * w[1] + gz * w[2]
  const uu = form(u, u)
  const uw = form(u, w)
  const ww = form(w, w)
  const mean = (uu + ww) / 2
  const half = Math.hypot((uu - ww) / 2, uw)
  const angle = Math.atan2(2 * uw, uu - ww) / 2
  const c = Math.cos(angle)
  const s = Math.sin(angle)
  const least = 1e-9 * (Math.abs(mean) + half) + 1e-300
  const along = -(c * gu + s * gw) / Math.max(Math.abs(mean + half), least)
  const across = -(-s * gu + c * gw) / Math.max(Math.abs(mean - half), least)
  return [c * along - s * across, s * along + c * across]
}

/** The direction of a slip that is not nought. */
export function unit(q: Direction): Direction {
  const length = Math.hypot(q[0], q[1], q[2])
  return [q[0] / length, q[1] / length, q[2] / length]
}

/** Two unit vectors square to a unit vector and to each other. */
export function tangents(q: Direction): [Direction, Direction] {
  const [x, y, z] = q
  const u = Math.abs(z) < 0.8 ? unit([-y, x, 0]) : unit([0, -z, y])
  return [u, [y * u[2] - z * u[1], z * u[0] - x * u[2], x * u[1] - y * u[0]]]
}
