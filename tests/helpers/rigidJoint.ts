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
import { lessEq, solve, type Constraint, type Solution } from 'yalps'
import { cross3, scale3 } from '../../src-core/geometry/space/vector.ts'
import type { Point, Point3 } from '../../src-core/geometry/types.ts'
import type { SeatWrench } from '../../src-core/holding/loads.ts'

const SIDES = 32
/** mm: moments are divided by this so that rows are of one size. */
const ARM = 100

export interface PressForce {
  readonly at: Point
  readonly force: number
}

const PRECISIONS = [1e-8, 1e-6, 1e-9]
const UNBOUNDED: Solution = { status: 'unbounded', result: Infinity, variables: [] }

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

/** Where a body touches: a place and the direction in which it is pushed back, in the seat's u, v and n. */
export interface RigidContact {
  readonly at: Point3
  readonly normal: Point3
}

/** Forces on the edges of the pyramid around a contact's cone, each with a share of 1 along its normal. */
function cone({ at, normal }: RigidContact, friction: number): number[][] {
  const reach = friction / Math.cos(Math.PI / SIDES)
  const flat = Math.abs(normal.x) < 0.9 ? { x: 1, y: 0, z: 0 } : { x: 0, y: 1, z: 0 }
  const p = unit(cross3(normal, flat))
  const q = cross3(normal, p)
  return Array.from({ length: SIDES }, (_, k) => {
    const [c, s] = [reach * Math.cos((2 * Math.PI * k) / SIDES), reach * Math.sin((2 * Math.PI * k) / SIDES)]
    return pushAt(at, {
      x: normal.x + c * p.x + s * q.x,
      y: normal.y + c * p.y + s * q.y,
      z: normal.z + c * p.z + s * q.z,
    })
  })
}

const unit = (v: Point3): Point3 => scale3(v, 1 / Math.hypot(v.x, v.y, v.z))

function pushAt(at: Point3, f: Point3): number[] {
  const m = cross3(at, f)
  return row({ fu: f.x, fv: f.y, fn: f.z, mu: m.x, mv: m.y, mn: m.z })
}

/** 0 where the presses alone tip the body, Infinity where the load never does harm. */
export function rigidFactor(
  corners: readonly Point[],
  friction: number,
  presses: readonly PressForce[],
  load: SeatWrench,
  stops: readonly RigidStop[] = [],
): number {
  const contacts = corners.map(({ x, y }) => ({ at: { x, y, z: 0 }, normal: { x: 0, y: 0, z: 1 } }))
  return solveRigid(contacts, friction, presses, load, stops.map(pushes))
}

/**
 * A round in a vee: on each flank at both ends, as corners of it. Presses stand at (along, 0) and push along the
 * bisector at its top; where they rub, each grips there in the plane across the bisector.
 */
export function rigidVeeFactor(
  vee: { readonly half: number; readonly diameter: number; readonly rubs: boolean },
  ends: readonly number[],
  friction: number,
  presses: readonly PressForce[],
  load: SeatWrench,
): number {
  const [s, c] = [Math.sin(vee.half), Math.cos(vee.half)]
  const radius = vee.diameter / 2
  const contacts = ends.flatMap((x) =>
    [1, -1].map((side) => ({
      at: { x, y: side * radius * c, z: -radius * s },
      normal: { x: 0, y: -side * c, z: s },
    })),
  )
  const grips = presses.map(({ at, force }) => {
    const reach = (friction * force) / Math.cos(Math.PI / SIDES)
    return Array.from({ length: SIDES }, (_, k) => {
      const a = (2 * Math.PI * k) / SIDES
      return pushAt({ x: at.x, y: 0, z: radius }, { x: reach * Math.cos(a), y: reach * Math.sin(a), z: 0 })
    })
  })
  return solveRigid(contacts, friction, presses, load, vee.rubs ? grips : [])
}

/** @param held forces of which each list gives one, any mean of them, or none. */
function solveRigid(
  contacts: readonly RigidContact[],
  friction: number,
  presses: readonly PressForce[],
  load: SeatWrench,
  held: readonly number[][][],
): number {
  const rows: { readonly of: number[]; readonly limit: Constraint }[] = []
  for (const contact of contacts)
    for (const force of cone(contact, friction))
      rows.push({ of: force.map((w) => -w), limit: lessEq(HAIR * (1 + Math.sin(rows.length) ** 2)) })
  const pressed = presses.map((p) => row(forceAt(p.at, 0, 0, p.force)))
  const size = presses.reduce((s, p) => s + p.force, 0)
  rows.push({ of: ROWS.map((_, i) => pressed.reduce((s, p) => s + p[i]!, 0) / size), limit: lessEq(1) })
  // What each stop costs: as much as the slip runs into it, and no less than nothing.
  const costs = rows.length - 1
  const driven = row(load)
  const slacks = held.map(() => new Map<string, number>())
  held.forEach((ways, i) => {
    slacks[i]!.set(String(costs), 1)
    for (const push of ways) {
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
  // Of rows that hardly differ the solver now and then takes one for none: unbounded is what it finds however it rounds.
  const solution = PRECISIONS.map(
    (precision) => () =>
      solve(
        { direction: 'maximize', objective: 'power', constraints, variables },
        { maxPivots: 20_000, precision },
      ),
  ).reduce((found, run) => (found.status === 'unbounded' ? run() : found), UNBOUNDED)
  if (solution.status === 'unbounded') return 0
  if (solution.status !== 'optimal') throw new Error(`linear program: ${solution.status}`)
  return solution.result > 0 ? size / solution.result : Infinity
}
