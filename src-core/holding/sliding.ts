/** λ_s, what a joint carries in its seat's plane: by search, or for one stud and for a strap in closed form. */
import type { Point } from '../geometry/types.ts'
import { effectsAt, type SeatLoad, type SeatWrench } from './loads.ts'
import type { JointStop } from './jointData.ts'
import type { Bearing, Grip, Press, StrapGrip, Stud } from './presses.ts'
import { SlipSearch, type WorstSlip } from './slipSearch.ts'

export interface Sliding {
  worst(omega: number): WorstSlip
}

/** Over all slips in the plane. */
export function searchedSliding(
  bearings: readonly Bearing[],
  loads: readonly SeatLoad[],
  stops: readonly JointStop[] = [],
): Sliding {
  const points = bearings.map((b) => ({ at: b.bears, capacity: b.friction * b.low }))
  // A pin that holds whichever way grips as a press does.
  const pins = stops.filter((s) => s.into === null)
  const oneWay = stops.flatMap(({ at, into, capacity }) => (into ? [{ at, into, capacity }] : []))
  return new SlipSearch([...points, ...pins], loads, [], oneWay)
}

/** What a closed form needs: a place, N carried across it, N·mm carried about it. */
interface Carried {
  readonly at: Point
  readonly across: number
  readonly about: number
}

/**
 * One stud, or a strap's toe and heel, wholly over what touches: 1/λ_s ≤ T/T₁ + M/M₁, T the force across its bolt and M
 * the moment about it, each load's own worst, T₁ and M₁ what it carries alone; loads that are carried λᵢ times in parts
 * are carried 1/Σ(1/λᵢ) times together. Null for other grips and where a press reaches beyond what touches.
 */
export function closedSliding(
  grip: Grip,
  friction: number,
  bearings: readonly Bearing[],
  loads: readonly SeatLoad[],
): Sliding | null {
  if ('presses' in grip || !bearings.every((b) => b.bears === b.at)) return null
  const carried = 'stud' in grip ? studCarries(grip.stud, friction) : strapCarries(grip.strap, friction)
  const shares: [number, number, number] = [0, 0, 0]
  const share = (load: number, by: number) => (load > 0 ? load / by : 0)
  for (const load of loads) {
    const { across, about } = worstAt(load, carried.at)
    shares[load.growth] += share(across, carried.across) + share(about, carried.about)
  }
  return { worst: (omega) => ({ factor: 1 / effectsAt(shares, omega), slip: null, shares }) }
}

/** T₁ = μF, M₁ = μFρ. */
function studCarries({ at, force, friction: own, meanRadius }: Stud, friction: number): Carried {
  const across = (own ?? friction) * force
  return { at, across, about: across * meanRadius }
}

/**
 * A force at the bolt goes to toe and heel by the lever, so the one that slips first sets T₁: μF of the bolt where both
 * have one friction. M₁ is the couple of the weaker of them over their distance.
 */
function strapCarries({ toe, heel, bolt }: StrapGrip, friction: number): Carried {
  const apart = Math.hypot(toe.at.x - heel.at.x, toe.at.y - heel.at.y)
  const toHeel = Math.hypot(bolt.x - heel.at.x, bolt.y - heel.at.y)
  const grip = ({ force, friction: own }: Press) => (own ?? friction) * force
  const toeShare = Math.min(1, toHeel / apart)
  const across = Math.min(grip(toe) / toeShare, grip(heel) / (1 - toeShare))
  return { at: bolt, across, about: Math.min(grip(toe), grip(heel)) * apart }
}

/** Largest force across a place, N, and moment about it, N·mm. */
function worstAt({ steady, turning }: SeatLoad, at: Point): { across: number; about: number } {
  const about = ({ fu, fv, mn }: SeatWrench) => mn - at.x * fv + at.y * fu
  const mean = Math.hypot(steady.fu, steady.fv)
  if (!turning) return { across: mean, about: Math.abs(about(steady)) }
  const [a, b] = turning
  return {
    across: mean + longestRadius(a, b),
    about: Math.abs(about(steady)) + Math.hypot(about(a), about(b)),
  }
}

/** Half the longer axis of the ellipse a·cos φ + b·sin φ. */
function longestRadius(a: SeatWrench, b: SeatWrench): number {
  const aa = a.fu * a.fu + a.fv * a.fv
  const bb = b.fu * b.fu + b.fv * b.fv
  const ab = a.fu * b.fu + a.fv * b.fv
  return Math.sqrt((aa + bb + Math.hypot(aa - bb, 2 * ab)) / 2)
}
