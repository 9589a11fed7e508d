/** λ_s, what a joint carries in its seat's plane: by search, or for one stud in closed form. */
import type { ContactHull } from './contact.ts'
import { effectsAt, type SeatLoad, type SeatWrench } from './loads.ts'
import { studPresses, type Bearing, type Stud } from './presses.ts'
import { SlipSearch, type WorstSlip } from './slipSearch.ts'

export interface Sliding {
  worst(omega: number): WorstSlip
}

/** Over all slips in the plane. */
export function searchedSliding(bearings: readonly Bearing[], loads: readonly SeatLoad[]): Sliding {
  const points = bearings.map((b) => ({ at: b.bears, capacity: b.friction * b.low }))
  return new SlipSearch(points, loads)
}

/**
 * One stud whose washer's ring is wholly over what touches: 1/λ_s ≤ T/(μF) + M/(μFρ), T the force across it and M the
 * moment about it, each load's own worst. It carries T alone μF/T times and M alone μFρ/M times, and loads that are
 * carried λᵢ times in parts are carried 1/Σ(1/λᵢ) times together. Null where the ring reaches beyond what touches.
 */
export function studSliding(
  stud: Stud,
  friction: number,
  hull: ContactHull,
  loads: readonly SeatLoad[],
): Sliding | null {
  if (!studPresses(stud).every((p) => hull.holds(p.at))) return null
  const grip = (stud.friction ?? friction) * stud.force
  const arm = grip * stud.meanRadius
  const shares: [number, number, number] = [0, 0, 0]
  const share = (load: number, carried: number) => (load > 0 ? load / carried : 0)
  for (const load of loads) {
    const { across, about } = worstAtStud(load, stud)
    shares[load.growth] += share(across, grip) + share(about, arm)
  }
  return { worst: (omega) => ({ factor: 1 / effectsAt(shares, omega), slip: null, shares }) }
}

/** Largest force across the stud, N, and moment about it, N·mm. */
function worstAtStud({ steady, turning }: SeatLoad, { at }: Stud): { across: number; about: number } {
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
