/**
 * What a group of clamps holds in the plane of the plate, by limit analysis. Each clamp i presses the part on one
 * friction face with a capacity cᵢ = μ·Nᵢ at its nose rᵢ. For any rigid slip q = (vₓ, v_y, ω) in the plane the
 * clamps resist with the power
 *
 *   D(q) = Σ cᵢ·|v + ω ẑ × rᵢ|
 *
 * and the loads drive it with P(q). By the upper-bound theorem the load factor is at most D/P for every q with
 * P > 0, and for rigid friction (associated flow, each face's force a disc of radius cᵢ) the least of them is
 * exact: it is the slip about the worst instantaneous centre. A clamp added only adds to D, so it never lowers the
 * factor; more load never raises it.
 *
 * Loads, worst turn taken: the part's centrifugal pull m·Ω²·r_p turns with the part; its weight m·g and the tool's
 * tangential force F turn relative to it, so each is taken in the direction that does most harm; the tool's torque
 * F·R about the axis is taken in the worse sense:
 *
 *   P(q) = m·Ω²·(r_p · v_p) + m·g·|v_p| + F·|v_0| + M·|ω|,   v_p, v_0 the velocities at centre of mass and axis.
 *
 * Slips are normalised on a sphere with ω measured at a reference radius; a grid over it is refined by shrinking
 * steps from the best few points. Deterministic.
 */
import type { Point } from '../geometry/types.ts'

export interface FrictionPoint {
  readonly at: Point
  /** N */
  readonly capacity: number
}

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

const GRAVITY = 9.80665
const LATITUDES = 16
const LONGITUDES = 32
const SEEDS = 2
/** Halvings of the step from one grid cell: to some 1e-6 of a turn. */
const ROUNDS = 15

/** Powers of one slip: resistance, driving apart from the centrifugal one, and centrifugal per Ω² (1/s²). */
interface Powers {
  readonly resist: number
  readonly drive: number
  readonly pull: number
}

export class SlipGroup {
  private readonly reference: number
  private readonly grid: { theta: number; phi: number; powers: Powers }[] = []

  private readonly points: readonly FrictionPoint[]
  private readonly loads: SlipLoads

  constructor(points: readonly FrictionPoint[], loads: SlipLoads) {
    this.points = points
    this.loads = loads
    const spread = points.reduce((s, p) => Math.max(s, Math.hypot(p.at.x, p.at.y)), 1)
    this.reference = Math.max(spread, Math.hypot(loads.centre.x, loads.centre.y))
    for (let i = 0; i <= LATITUDES; i++) {
      const theta = (Math.PI * i) / LATITUDES
      for (let k = 0; k < LONGITUDES; k++) {
        const phi = (2 * Math.PI * k) / LONGITUDES
        this.grid.push({ theta, phi, powers: this.powers(theta, phi) })
        if (i === 0 || i === LATITUDES) break
      }
    }
    // Turning about one of the clamps is where the resistance has its kinks.
    for (const { at } of points) this.addCentre(at)
    this.addCentre(loads.centre)
  }

  private addCentre(c: Point): void {
    for (const sign of [1, -1]) {
      const w = sign / this.reference
      const theta = Math.acos(sign / Math.hypot(1, c.x * w, c.y * w))
      const phi = Math.atan2(-c.x * w, c.y * w)
      this.grid.push({ theta, phi, powers: this.powers(theta, phi) })
    }
  }

  private powers(theta: number, phi: number): Powers {
    const s = Math.sin(theta)
    const vx = s * Math.cos(phi)
    const vy = s * Math.sin(phi)
    const w = Math.cos(theta) / this.reference
    let resist = 0
    for (const { at, capacity } of this.points) {
      const sx = vx - w * at.y
      const sy = vy + w * at.x
      resist += capacity * Math.sqrt(sx * sx + sy * sy)
    }
    const { mass, centre, force, torque } = this.loads
    const px = vx - w * centre.y
    const py = vy + w * centre.x
    return {
      resist,
      drive: mass * GRAVITY * Math.sqrt(px * px + py * py) + force * s + torque * Math.abs(w),
      // mm to m: mass·Ω²·r is in N when r is in m.
      pull: (mass * (centre.x * px + centre.y * py)) / 1000,
    }
  }

  /** Factor against slip at Ω (rad/s); Infinity where nothing drives. */
  factor(omega: number): number {
    const square = omega * omega
    return this.least(({ resist, drive, pull }) => {
      const power = drive + square * pull
      return power > 1e-12 ? resist / power : Infinity
    })
  }

  /** Ω (rad/s) at which the factor falls to `wanted`; 0 where it is below it at rest, Infinity where it never falls. */
  speedAtFactor(wanted: number): number {
    const square = this.least(({ resist, drive, pull }) => {
      const spare = resist - wanted * drive
      if (spare <= 0) return 0
      return pull > 1e-15 ? spare / (wanted * pull) : Infinity
    })
    return Math.sqrt(square)
  }

  private least(measure: (powers: Powers) => number): number {
    const seeds: Seed[] = []
    for (const { theta, phi, powers } of this.grid) {
      const value = measure(powers)
      if (seeds.length === SEEDS && value >= seeds[SEEDS - 1]!.value) continue
      seeds.push({ theta, phi, value })
      seeds.sort((a, b) => a.value - b.value)
      if (seeds.length > SEEDS) seeds.pop()
    }
    return seeds.reduce((best, seed) => Math.min(best, this.refine(seed, measure)), Infinity)
  }

  /** Steps to the best of eight neighbours while that helps, then halves the step. */
  private refine(seed: Seed, measure: (powers: Powers) => number): number {
    let { theta, phi, value } = seed
    let step = Math.PI / LATITUDES / 2
    for (let round = 0; round < ROUNDS; round++) {
      for (let moves = 0; moves < 3; moves++) {
        let better: Seed | null = null
        for (const [dt, dp] of NEIGHBOURS) {
          const t = theta + step * dt
          const p = phi + step * dp
          const at = measure(this.powers(t, p))
          if (at < (better?.value ?? value)) better = { theta: t, phi: p, value: at }
        }
        if (!better) break
        ;({ theta, phi, value } = better)
      }
      step /= 2
    }
    return value
  }
}

interface Seed {
  readonly theta: number
  readonly phi: number
  readonly value: number
}

const DIAGONAL = Math.SQRT1_2
const NEIGHBOURS: readonly (readonly [number, number])[] = [
  [1, 0],
  [DIAGONAL, DIAGONAL],
  [0, 1],
  [-DIAGONAL, DIAGONAL],
  [-1, 0],
  [-DIAGONAL, -DIAGONAL],
  [0, -1],
  [DIAGONAL, -DIAGONAL],
]
