/**
 * What a group of clamps holds in the plane of the plate: the general search (slipSearch.ts) for one part and one cut.
 * Loads, worst turn taken: the part's centrifugal pull m·Ω²·r_p turns with the part; its weight m·g and the tool's
 * tangential force F turn relative to it, so each is taken in the direction that does most harm; the tool's torque
 * F·R about the axis is taken in the worse sense:
 *
 *   P(q) = m·Ω²·(r_p · v_p) + m·g·|v_p| + F·|v_0| + M·|ω|,   v_p, v_0 the velocities at centre of mass and axis.
 */
import type { Point } from '../../src-core/geometry/types.ts'
import { pointMass } from '../../src-core/mass/massMoments.ts'
import { seatLoad, turningForce } from '../../src-core/holding/loads.ts'
import { centrifugalLoad, torqueLoad, weightLoad } from '../../src-core/holding/machineLoads.ts'
import { plateSeat } from '../../src-core/holding/seat.ts'
import { SlipSearch, type FrictionPoint } from '../../src-core/holding/slipSearch.ts'
import type { SlipStop } from '../../src-core/holding/slipStops.ts'

export type { FrictionPoint } from '../../src-core/holding/slipSearch.ts'

export interface SlipLoads {
  /** kg */
  readonly mass: number
  /** Centre of mass, mm from the axis. */
  readonly centre: Point
  /** N, acting at the axis in the worst direction. */
  readonly force: number
  /** N·mm about the axis. */
  readonly torque: number
}

export class SlipGroup {
  private readonly search: SlipSearch

  constructor(
    points: readonly FrictionPoint[],
    { mass, centre, force, torque }: SlipLoads,
    stops: readonly SlipStop[] = [],
  ) {
    const body = pointMass(mass, { x: centre.x, y: centre.y, z: 0 })
    const axis = { x: 0, y: 0, z: 0 }
    const loads = [centrifugalLoad(body), weightLoad(body), turningForce(force, axis), torqueLoad(torque)]
    const seat = plateSeat(0)
    this.search = new SlipSearch(
      points,
      loads.map((l) => seatLoad(seat, l)),
      [centre, axis],
      stops,
    )
  }

  /** Factor against slip at Ω (rad/s); Infinity where nothing drives. */
  factor(omega: number): number {
    return this.search.worst(omega).factor
  }

  /** Ω (rad/s) at which the factor falls to `wanted`; 0 where it is not above it at rest, Infinity where it never falls. */
  speedAtFactor(wanted: number): number {
    if (this.factor(0) <= wanted) return 0
    const { factor } = this.search.least({ less: [wanted, 0, 0], by: [0, 0, wanted] })
    return Math.sqrt(Math.max(0, factor))
  }
}
