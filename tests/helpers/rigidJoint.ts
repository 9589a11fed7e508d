/**
 * Independent of the core's joint: a rigid body on friction cones at the corners of what it touches, by a general linear
 * program. Greatest λ at which contact forces balance the presses and λ times a load. Written for the small motion ξ
 * of the body that the load drives most for what it costs the presses (the program's dual, which starts from no motion):
 *
 *   1/λ = greatest load·ξ   with   −presses·ξ ≤ 1,   cone force·ξ ≤ 0 for no force of any cone, turned about
 *
 * Cones are drawn around by pyramids, so the answer is at or a little above the true one; limits of 0 are set a hair
 * apart so that the solver does not go round in circles.
 */
import { lessEq, solve, type Constraint } from 'yalps'
import type { Point } from '../../src-core/geometry/types.ts'
import type { SeatWrench } from '../../src-core/holding/loads.ts'

const SIDES = 32
/** mm: moments are divided by this so that rows are of one size. */
const ARM = 100

export interface PressForce {
  readonly at: Point
  readonly force: number
}

/** N·mm/ARM: how far apart the limits of 0 are. */
const HAIR = 1e-7

const ROWS = ['fu', 'fv', 'fn', 'mu', 'mv', 'mn'] as const

function row(w: SeatWrench): number[] {
  return ROWS.map((r) => (r.startsWith('m') ? w[r] / ARM : w[r]))
}

const forceAt = ({ x, y }: Point, fu: number, fv: number, fn: number): SeatWrench => ({
  fu,
  fv,
  fn,
  mu: y * fn,
  mv: -x * fn,
  mn: x * fv - y * fu,
})

/** Stands in the way of slips at a place of the seat, up to a force, N; without `into` of slips whichever way. */
export interface RigidStop {
  readonly at: Point
  readonly into: Point | null
  readonly capacity: number
}

/** The ways in which a stop pushes back; a pin's disc of force drawn around by a pyramid. */
function pushes({ at, into, capacity }: RigidStop): number[][] {
  if (into) return [row(forceAt(at, -into.x * capacity, -into.y * capacity, 0))]
  const reach = capacity / Math.cos(Math.PI / SIDES)
  return Array.from({ length: SIDES }, (_, k) => {
    const a = (2 * Math.PI * k) / SIDES
    return row(forceAt(at, reach * Math.cos(a), reach * Math.sin(a), 0))
  })
}

/** 0 where the presses alone tip the body, Infinity where the load never does harm. */
export function rigidFactor(
  corners: readonly Point[],
  friction: number,
  presses: readonly PressForce[],
  load: SeatWrench,
  stops: readonly RigidStop[] = [],
): number {
  const reach = friction / Math.cos(Math.PI / SIDES)
  const rows: { readonly of: number[]; readonly limit: Constraint }[] = []
  corners.forEach((c) => {
    for (let k = 0; k < SIDES; k++) {
      const a = (2 * Math.PI * k) / SIDES
      const cone = row(forceAt(c, reach * Math.cos(a), reach * Math.sin(a), 1))
      rows.push({ of: cone.map((w) => -w), limit: lessEq(HAIR * (1 + Math.sin(rows.length) ** 2)) })
    }
  })
  const pressed = presses.map((p) => row(forceAt(p.at, 0, 0, p.force)))
  const size = presses.reduce((s, p) => s + p.force, 0)
  rows.push({ of: ROWS.map((_, i) => pressed.reduce((s, p) => s + p[i]!, 0) / size), limit: lessEq(1) })
  // What each stop costs: as much as the slip runs into it, and no less than nothing.
  const costs = rows.length - 1
  const driven = row(load)
  const slacks = stops.map(() => new Map<string, number>())
  stops.forEach((stop, i) => {
    slacks[i]!.set(String(costs), 1)
    for (const push of pushes(stop)) {
      slacks[i]!.set(String(rows.length), -1)
      rows.push({ of: push.map((w) => -w / size), limit: lessEq(HAIR * (1 + Math.sin(rows.length) ** 2)) })
    }
  })
  const variables = new Map<string, Map<string, number>>()
  ROWS.forEach((name, i) => {
    for (const sign of [1, -1]) {
      const column = new Map(rows.map((r, k) => [String(k), sign * r.of[i]!] as const))
      variables.set(`${name}${sign}`, column.set('power', sign * driven[i]!))
    }
  })
  slacks.forEach((column, i) => variables.set(`stop${i}`, column))
  const constraints = new Map(rows.map((r, k) => [String(k), r.limit] as const))
  const solution = solve(
    { direction: 'maximize', objective: 'power', constraints, variables },
    { maxPivots: 20_000 },
  )
  if (solution.status === 'unbounded') return 0
  if (solution.status !== 'optimal') throw new Error(`linear program: ${solution.status}`)
  return solution.result > 0 ? size / solution.result : Infinity
}
