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
 * Since r_p · (ω ẑ × r_p) = 0, the first term is m·Ω²·(r_p · v). D and the other loads are the same for q and −q, so
 * the worse of the two has P with |r_p · v|, and half the directions of q are enough.
 *
 * Least of D/P: slips are directions, ω measured at a reference radius. P's kinks (ω = 0, r_p · v = 0) bend D/P
 * downward, so no least lies on them; D's kinks are turns about a nose and are tried exactly; everywhere else D/P is
 * smooth, and Newton's method goes down from the lattice's local minima and from beside each nose, where a strong
 * clamp leaves narrow valleys. Deterministic.
 */
import type { Point } from '../geometry/types.ts'
import { STANDARD_GRAVITY } from '../unbalance/static.ts'
import { descend, tangents, unit, type Expansion } from './slipDescent.ts'
import { LATTICE, localMinima, type Direction } from './slipLattice.ts'

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

const AXIS: Point = { x: 0, y: 0 }
/** Local minima of the lattice that are followed down. */
const STARTS = 6
/** A start is not followed where it is above the least found so far by more than the ratio drops between such points. */
const LATTICE_DROP = 1.4
const BESIDE_DROP = 1.2
/** Slips tried beside each nose, and how far beside, rad. */
const BESIDE = 8
const ASIDE = 0.04

/** Powers of one slip: resistance, driving apart from the centrifugal one, and centrifugal per Ω² (1/s²). */
interface Powers {
  readonly resist: number
  readonly drive: number
  readonly pull: number
}

/** Which ratio is made least: (resist − less·drive) / (drive·drives + pull·pulls). */
interface Ratio {
  readonly less: number
  readonly drives: number
  readonly pulls: number
}

export class SlipGroup {
  private readonly reference: number
  private readonly points: readonly FrictionPoint[]
  private readonly loads: SlipLoads
  private readonly lattice: readonly Powers[]
  private readonly values = new Float64Array(LATTICE.length)
  private readonly top: Expansion = new Float64Array(10)
  private readonly bottom: Expansion = new Float64Array(10)
  /** Turns about each nose, the centre of mass and the axis. */
  private readonly turns: readonly Powers[]
  /** For each nose the slips beside the turn about it. */
  private readonly beside: readonly (readonly { readonly q: Direction; readonly powers: Powers }[])[]

  constructor(points: readonly FrictionPoint[], loads: SlipLoads) {
    this.points = points
    this.loads = loads
    const reach = [loads.centre, ...points.map((p) => p.at)].map((p) => Math.hypot(p.x, p.y))
    this.reference = Math.max(1, ...reach)
    this.lattice = LATTICE.map((q) => this.powers(q))
    const noses = points.map((p) => this.turnAbout(p.at))
    const turns = [...noses, this.turnAbout(loads.centre), this.turnAbout(AXIS)]
    this.turns = turns.map((q) => this.powers(q))
    this.beside = noses.map((q) => ringAbout(q).map((r) => ({ q: r, powers: this.powers(r) })))
  }

  private turnAbout(centre: Point): Direction {
    return unit([centre.y / this.reference, -centre.x / this.reference, 1])
  }

  /** Factor against slip at Ω (rad/s); Infinity where nothing drives. */
  factor(omega: number): number {
    return this.least({ less: 0, drives: 1, pulls: omega * omega })
  }

  /** Ω (rad/s) at which the factor falls to `wanted`; 0 where it is not above it at rest, Infinity where it never falls. */
  speedAtFactor(wanted: number): number {
    if (this.factor(0) <= wanted) return 0
    return Math.sqrt(Math.max(0, this.least({ less: wanted, drives: 0, pulls: wanted })))
  }

  private least(ratio: Ratio): number {
    const value = (q: Direction) => quotient(this.powers(q), ratio)
    const expand = (q: Direction) => this.expansion(q, ratio)
    const turns = this.turns.map((p) => quotient(p, ratio))
    let best = Math.min(...turns)
    const { values, lattice } = this
    for (let i = 0; i < lattice.length; i++) values[i] = quotient(lattice[i]!, ratio)
    for (const i of localMinima(values, STARTS))
      if (values[i]! < best * LATTICE_DROP) best = Math.min(best, descend(LATTICE[i]!, value, expand))
    this.beside.forEach((ring, i) => {
      let lowest: Direction | null = null
      // Where the turn about the nose is lower than all beside it, it is the least there.
      let at = Math.min(turns[i]!, best * BESIDE_DROP)
      for (const { q, powers } of ring) {
        const tried = quotient(powers, ratio)
        if (tried < at) [lowest, at] = [q, tried]
      }
      if (lowest) best = Math.min(best, descend(lowest, value, expand))
    })
    return best
  }

  private powers(q: Direction): Powers {
    const w = q[2] / this.reference
    let resist = 0
    for (const { at, capacity } of this.points) {
      const sx = q[0] - w * at.y
      const sy = q[1] + w * at.x
      resist += capacity * Math.sqrt(sx * sx + sy * sy)
    }
    const { mass, centre, force, torque } = this.loads
    const px = q[0] - w * centre.y
    const py = q[1] + w * centre.x
    return {
      resist,
      drive:
        mass * STANDARD_GRAVITY * Math.sqrt(px * px + py * py) +
        force * Math.sqrt(q[0] * q[0] + q[1] * q[1]) +
        torque * Math.abs(w),
      // mm to m: mass·Ω²·r is in N when r is in m.
      pull: (mass * Math.abs(centre.x * q[0] + centre.y * q[1])) / 1000,
    }
  }

  /** The ratio to second order about a slip. The array returned is used again by the next call. */
  private expansion(q: Direction, { less, drives, pulls }: Ratio): Expansion {
    const { top, bottom, reference } = this
    top.fill(0)
    bottom.fill(0)
    for (const { at, capacity } of this.points) addSpeed(top, q, capacity, at, reference)
    if (less !== 0) this.addDrive(top, q, -less)
    if (drives !== 0) this.addDrive(bottom, q, drives)
    const { mass, centre } = this.loads
    addLinear(bottom, q, (pulls * mass) / 1000, centre.x, centre.y, 0)
    return divide(top, bottom)
  }

  private addDrive(into: Expansion, q: Direction, share: number): void {
    const { mass, centre, force, torque } = this.loads
    addSpeed(into, q, share * mass * STANDARD_GRAVITY, centre, this.reference)
    addSpeed(into, q, share * force, AXIS, this.reference)
    addLinear(into, q, share * torque, 0, 0, 1 / this.reference)
  }
}

function ringAbout(q: Direction): Direction[] {
  const [u, w] = tangents(q)
  return Array.from({ length: BESIDE }, (_, i) => {
    const c = ASIDE * Math.cos((2 * Math.PI * i) / BESIDE)
    const s = ASIDE * Math.sin((2 * Math.PI * i) / BESIDE)
    return unit([q[0] + c * u[0] + s * w[0], q[1] + c * u[1] + s * w[1], q[2] + c * u[2] + s * w[2]])
  })
}

function quotient({ resist, drive, pull }: Powers, { less, drives, pulls }: Ratio): number {
  const driven = drives * drive + pulls * pull
  return driven > 1e-12 ? (resist - less * drive) / driven : Infinity
}

/** Adds k·|v + ω ẑ × r|. With the direction u of that velocity and t square to it: gradient k·Aᵀu, Hessian k·Aᵀt·tᵀA / |…|. */
function addSpeed(e: Expansion, q: Direction, k: number, { x, y }: Point, reference: number): void {
  const ax = x / reference
  const ay = y / reference
  const sx = q[0] - ay * q[2]
  const sy = q[1] + ax * q[2]
  const speed = Math.sqrt(sx * sx + sy * sy)
  if (speed === 0) return
  const ux = sx / speed
  const uy = sy / speed
  e[0]! += k * speed
  e[1]! += k * ux
  e[2]! += k * uy
  e[3]! += k * (ax * uy - ay * ux)
  const tz = ax * ux + ay * uy
  const h = k / speed
  e[4]! += h * uy * uy
  e[5]! -= h * uy * ux
  e[6]! -= h * uy * tz
  e[7]! += h * ux * ux
  e[8]! += h * ux * tz
  e[9]! += h * tz * tz
}

/** Adds k·|a · q| of a = (x, y, z). */
function addLinear(e: Expansion, q: Direction, k: number, x: number, y: number, z: number): void {
  const value = x * q[0] + y * q[1] + z * q[2]
  const signed = k * Math.sign(value)
  e[0]! += k * Math.abs(value)
  e[1]! += signed * x
  e[2]! += signed * y
  e[3]! += signed * z
}

/** n becomes n / d, to second order. */
function divide(n: Expansion, d: Expansion): Expansion {
  const by = 1 / d[0]!
  const f = n[0]! * by
  n[0] = f
  for (let i = 1; i < 4; i++) n[i] = (n[i]! - f * d[i]!) * by
  let at = 4
  for (let i = 1; i < 4; i++)
    for (let k = i; k < 4; k++, at++) n[at] = (n[at]! - f * d[at]! - n[i]! * d[k]! - d[i]! * n[k]!) * by
  return n
}
