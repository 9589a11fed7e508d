/**
 * The joint of a round in a vee, for `Joint`: the seat's u runs along the vee, its n out of it along the bisector, and
 * its origin lies on the round's axis. The round touches each flank from one end of what touches to the other.
 */
import type { ContactHull } from './contact.ts'
import { effectsAt, worstEffect, type SeatLoad } from './loads.ts'
import type { Bearing } from './presses.ts'
import type { Sliding } from './sliding.ts'
import { tipEdges, type TipEdge } from './tipping.ts'
import { axialGrip, gripHeight, turningGrip, type VeeGrip, type VeeInput } from './vee.ts'

/**
 * 1/λ_s ≤ A/A₁ + T/T₁: A along the vee, T about the round's axis, each load's own worst, A₁ and T₁ what the presses carry
 * of each alone.
 */
export function veeSliding(vee: VeeInput, bearings: readonly Bearing[], loads: readonly SeatLoad[]): Sliding {
  const sum = (of: (grip: VeeGrip, force: number) => number) =>
    bearings.reduce((s, b) => s + of({ ...vee, friction: b.friction }, b.low), 0)
  const along = sum(axialGrip)
  const turning = sum(turningGrip)
  const shares: [number, number, number] = [0, 0, 0]
  const share = (load: number, by: number) => (load > 0 ? load / by : 0)
  for (const load of loads) {
    const both = { ...load, eitherWay: true }
    shares[load.growth] +=
      share(
        worstEffect(both, (w) => w.fu),
        along,
      ) +
      share(
        worstEffect(both, (w) => w.mu),
        turning,
      )
  }
  return { worst: (omega) => ({ factor: 1 / effectsAt(shares, omega), slip: null, shares }) }
}

/**
 * Each flank at each end of it. With forces Nᵢ on the flanks at places aᵢ, moments about an end leave both flanks loaded
 * as long as the moment that lifts there, and tan β times that of what pushes to the side about the same end, come to no
 * more than what the presses right. What acts along the vee lifts by its height over where the grip along it acts.
 */
export function veeEdges(vee: VeeInput, hull: ContactHull, bearings: readonly Bearing[]): TipEdge[] {
  const us = hull.points.map((p) => p.x)
  const end = (x: number, inward: 1 | -1) => {
    const at = { x, y: 0 }
    return { from: at, to: at, inward: { x: inward, y: 0 } }
  }
  const ends = [end(Math.min(...us), 1), end(Math.max(...us), -1)]
  const height = gripHeight(vee)
  const side = Math.tan(vee.half)
  return tipEdges({ edges: ends, hasArea: true }, bearings).flatMap((e) =>
    [side, -side].map((s) => ({ ...e, flank: { height, side: s } })),
  )
}
