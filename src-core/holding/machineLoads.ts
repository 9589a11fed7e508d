/**
 * Loads of turning, starting, stopping, cutting and drilling on a body bolted to the plate. The centrifugal force of
 * each grain is dm·Ω²·r and its inertia when the plate gains speed −dm·α ẑ × r, so that about the axis at height z0
 *
 *   centrifugal   F = Ω²·S,        M = Ω²·ẑ × K
 *   inertia       F = −α·ẑ × S,    M = α·(K − J·ẑ)
 *
 * with S = ∫r dm, K = ∫(z − z0)·r dm and J = ∫r² dm about the axis (r across the axis): the body's own products of
 * inertia are in K. F at the axis with J about it is m·r·α at the centre of mass with J_cm about that.
 */
import { centreOfMass, type MassMoments } from '../mass/massMoments.ts'
import { STANDARD_GRAVITY } from '../unbalance/static.ts'
import {
  eitherWayLoad,
  fixedLoad,
  orbitingLoad,
  turningForce,
  wrenchAt,
  type Load,
  type Loading,
} from './loads.ts'
import type { Seat } from './seat.ts'

/** kg·mm/s² are mN, so kg·mm²/s² are mN·mm. */
const TO_N = 1e-3

/** Per Ω². Mass moments about the plate frame's origin. */
export const centrifugalLoad = ({ x, y, xz, yz }: MassMoments): Load =>
  fixedLoad({ force: { x: TO_N * x, y: TO_N * y, z: 0 }, moment: { x: -TO_N * yz, y: TO_N * xz, z: 0 } }, 2)

/** The same from ∫r dm, kg·mm, and ∫(z − z0)·r dm, kg·mm², about a height z0, mm. */
export const centrifugalLoadOf = (
  s: { readonly x: number; readonly y: number },
  k: { readonly x: number; readonly y: number },
  z0: number,
): Load =>
  fixedLoad(
    wrenchAt(
      { x: 0, y: 0, z: z0 },
      { x: TO_N * s.x, y: TO_N * s.y, z: 0 },
      { x: -TO_N * k.y, y: TO_N * k.x, z: 0 },
    ),
    2,
  )

/** The spindle is level: weight turns against the plate. */
export const weightLoad = (body: MassMoments): Load =>
  turningForce(body.m * STANDARD_GRAVITY, centreOfMass(body))

/**
 * Which way the spindle gains or loses speed: `gains` counter-clockwise speed (starting forward, stopping in
 * reverse), `loses` it, or either (the spindle may run both ways).
 */
export type Sense = 'gains' | 'loses' | 'either'

/** Inertia of a change from rest to Ω or back in `time` s, α = Ω/time: per Ω. */
export function inertiaLoad(
  { x, y, xx, yy, xz, yz }: MassMoments,
  time: number,
  sense: Sense = 'either',
): Load {
  const k = (sense === 'loses' ? -TO_N : TO_N) / time
  const wrench = {
    force: { x: k * y, y: -k * x, z: 0 },
    moment: { x: k * xz, y: k * yz, z: -k * (xx + yy) },
  }
  return sense === 'either' ? eitherWayLoad(wrench, 1) : fixedLoad(wrench, 1)
}

export interface CutForces {
  /** N */
  readonly tangential: number
  /** N; half the tangential force where no source says better. */
  readonly radial?: number | undefined
  /** N along the axis; half the tangential force where no source says better. */
  readonly feed?: number | undefined
  /** N·mm about the axis, either way. */
  readonly torque: number
  /** Where the tool cuts, mm from the axis and from the plate's face. */
  readonly radius: number
  readonly height: number
  /** Whether the feed presses only towards the plate; it may pull too where this is not said. */
  readonly towardsPlate?: boolean | undefined
}

/** Radial and axial force as a share of the tangential one. */
export const FORCE_SHARE = 0.5

/**
 * Tangential and radial force are one force square to the axis that goes round with the tool; its turning moment is
 * the torque. The feed force acts at the tool's point.
 */
export function cutLoads(cut: CutForces): Load[] {
  const { tangential, torque, radius, height } = cut
  const across = Math.hypot(tangential, cut.radial ?? FORCE_SHARE * tangential)
  const feed = cut.feed ?? FORCE_SHARE * tangential
  return [
    turningForce(across, { x: 0, y: 0, z: height }),
    torqueLoad(torque),
    orbitingLoad(
      wrenchAt({ x: radius, y: 0, z: height }, { x: 0, y: 0, z: -feed }),
      cut.towardsPlate !== true,
    ),
  ]
}

/** N·mm about the axis, either way. */
export const torqueLoad = (torque: number): Load =>
  eitherWayLoad({ force: { x: 0, y: 0, z: 0 }, moment: { x: 0, y: 0, z: torque } })

/** A drill on the axis: thrust towards the plate, N, and torque either way, N·mm. */
export const drillLoads = (thrust: number, torque: number): Load[] => [
  fixedLoad({ force: { x: 0, y: 0, z: -thrust }, moment: { x: 0, y: 0, z: 0 } }),
  torqueLoad(torque),
]

/**
 * Heights at which a cut from `low` to `high` has to be judged: on a seat parallel to the plate the one farthest from
 * it tilts most; on any other both ends, since what a load does is convex along the bore.
 */
export function cutHeights({ origin, n }: Seat, low: number, high: number): number[] {
  if (low === high) return [low]
  if (Math.hypot(n.x, n.y) > 1e-9) return [low, high]
  return [Math.abs(low - origin.z) > Math.abs(high - origin.z) ? low : high]
}

export interface Working {
  readonly body: MassMoments
  /** s */
  readonly startTime: number
  readonly brakeTime: number
  /** Each cut by its name, its loads once for each height that has to be judged. */
  readonly cuts: readonly Loading[]
  readonly starts?: Sense | undefined
  readonly stops?: Sense | undefined
}

/** Loadings judged apart: turning alone, each cut, start, stop, and an emergency stop in each cut. */
export function loadingsOf(working: Working): Loading[] {
  const { body, cuts } = working
  const turning = [centrifugalLoad(body), weightLoad(body)]
  const stop = inertiaLoad(body, working.brakeTime, working.stops)
  // Of two alike the one load serves, so that what is worst of all is seen at once.
  const alike = working.startTime === working.brakeTime && working.starts === working.stops
  const start = alike ? stop : inertiaLoad(body, working.startTime, working.starts)
  const loading = (name: string, ...loads: readonly Load[]): Loading => ({
    name,
    loads: [...turning, ...loads],
  })
  return [
    loading('turning'),
    ...cuts.map((c) => loading(c.name, ...c.loads)),
    loading('starting', start),
    loading('stopping', stop),
    ...cuts.map((c) => loading(`emergency stop, ${c.name}`, ...c.loads, stop)),
  ]
}
