/**
 * Loads on a joint's body, in the frame that turns with the plate. A load is *fixed in the plate* (centrifugal force,
 * start and stop: what it does to a slip or an edge counts where it harms, max(0, effect)), *turning* against the
 * plate (weight, cut: its amplitude over a turn), or *of either sign* (its magnitude). In general
 *
 *   effect(φ) = steady + a·cos φ + b·sin φ,   worst: max(0, steady + √(a² + b²)), of either sign |steady| + √(a² + b²)
 *
 * Loads of one loading are each taken at their worst and summed.
 */
import { cross3, dot3, minus3 } from '../geometry/space/vector.ts'
import type { Point3 } from '../geometry/types.ts'
import type { Seat } from './seat.ts'

/** A force, N, and its moment about the plate frame's origin (on the axis, at the plate's face), N·mm. */
export interface Wrench {
  readonly force: Point3
  readonly moment: Point3
}

/** Power of the speed that a load grows with: none, Ω (start and stop, α = Ω/t), Ω² (centrifugal). */
export type Growth = 0 | 1 | 2

/** Wrenches are per (rad/s) to the power of `growth`. */
export interface Load {
  readonly steady: Wrench
  /** The part that turns, at φ = 0 and a quarter of a turn on. */
  readonly turning: readonly [Wrench, Wrench] | null
  /** Whether the whole may act the other way round too. */
  readonly eitherWay: boolean
  readonly growth: Growth
}

/** What acts at one time. */
export interface Loading {
  readonly name: string
  readonly loads: readonly Load[]
}

const NONE: Point3 = { x: 0, y: 0, z: 0 }
const NO_WRENCH: Wrench = { force: NONE, moment: NONE }

/** A force, N, at a point, mm, and a moment besides, N·mm. */
export function wrenchAt(at: Point3, force: Point3, moment: Point3 = NONE): Wrench {
  const m = cross3(at, force)
  return { force, moment: { x: m.x + moment.x, y: m.y + moment.y, z: m.z + moment.z } }
}

/** Fixed in the plate. */
export const fixedLoad = (steady: Wrench, growth: Growth = 0): Load => ({
  steady,
  turning: null,
  eitherWay: false,
  growth,
})

/** Of either sign. */
export const eitherWayLoad = (steady: Wrench, growth: Growth = 0): Load => ({
  steady,
  turning: null,
  eitherWay: true,
  growth,
})

/** A force, N, square to the axis that acts at one point of the body, mm, and turns against the plate, as weight does. */
export const turningForce = (force: number, at: Point3): Load => ({
  steady: NO_WRENCH,
  turning: [wrenchAt(at, { x: force, y: 0, z: 0 }), wrenchAt(at, { x: 0, y: force, z: 0 })],
  eitherWay: false,
  growth: 0,
})

/** A wrench that goes round the axis as a whole, its point with it, as a tool does. */
export function orbitingLoad({ force, moment }: Wrench, eitherWay: boolean): Load {
  const across = ({ x, y }: Point3): Point3 => ({ x, y, z: 0 })
  const quarter = ({ x, y }: Point3): Point3 => ({ x: -y, y: x, z: 0 })
  return {
    steady: { force: { x: 0, y: 0, z: force.z }, moment: { x: 0, y: 0, z: moment.z } },
    turning: [
      { force: across(force), moment: across(moment) },
      { force: quarter(force), moment: quarter(moment) },
    ],
    eitherWay,
    growth: 0,
  }
}

/** A wrench about a place in the seat, along u, v and n: N and N·mm. */
export interface SeatWrench {
  readonly fu: number
  readonly fv: number
  readonly fn: number
  readonly mu: number
  readonly mv: number
  readonly mn: number
}

/** A load's wrenches about a seat's origin. */
export interface SeatLoad {
  readonly steady: SeatWrench
  readonly turning: readonly [SeatWrench, SeatWrench] | null
  readonly eitherWay: boolean
  readonly growth: Growth
}

function seatWrench({ origin, u, v, n }: Seat, { force, moment }: Wrench): SeatWrench {
  const m = minus3(moment, cross3(origin, force))
  return {
    fu: dot3(force, u),
    fv: dot3(force, v),
    fn: dot3(force, n),
    mu: dot3(m, u),
    mv: dot3(m, v),
    mn: dot3(m, n),
  }
}

/** A load of the plate's frame in a seat's: forces in N along u, v and n, moments in N·mm about its origin. */
export const seatLoad = (seat: Seat, load: Load): SeatLoad => ({
  ...load,
  steady: seatWrench(seat, load.steady),
  turning: load.turning && [seatWrench(seat, load.turning[0]), seatWrench(seat, load.turning[1])],
})

/** Worst of what a load does, by its measure (linear) of a wrench. */
export function worstEffect(
  { steady, turning, eitherWay }: SeatLoad,
  measure: (w: SeatWrench) => number,
): number {
  const mean = measure(steady)
  const swing = turning ? Math.hypot(measure(turning[0]), measure(turning[1])) : 0
  return eitherWay ? Math.abs(mean) + swing : Math.max(0, mean + swing)
}

/** A sum of effects as a function of speed: c0 + c1·Ω + c2·Ω². */
export type Effects = readonly [number, number, number]

/** At rest nothing that grows counts, be it without bound. */
export const effectsAt = (e: Effects, omega: number): number =>
  omega === 0 ? e[0] : e[0] + omega * (e[1] + omega * e[2])
