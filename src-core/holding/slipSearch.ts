/**
 * What presses hold in the plane of a seat, by limit analysis. Each press k bears at s_k with a grip c_k = μ·F_k. For
 * any rigid slip q = (vᵤ, vᵥ, ω) in the plane they resist with the power
 *
 *   R(q) = Σ c_k·|v + ω n × s_k|
 *
 * to which stops add what they bear (slipStops.ts), and the loads drive it with P(q). By the upper-bound theorem the load factor is at most R/P for every q with P > 0,
 * and for rigid friction (associated flow, each press' force a disc of radius c_k) the least of them is exact: it is
 * the slip about the worst instantaneous centre. A press or stop added only adds to R, so it never lowers the factor;
 * more load never raises it.
 *
 * Least of R/P: slips are directions, ω measured at a reference radius. Half the directions are enough if the worse of
 * q and −q is taken. P's kinks are convex and bend R/P downward, so no least lies
 * on them; R's kinks are turns about a press and are tried exactly; everywhere else R/P is smooth, and Newton's method
 * goes down from the lattice's local minima and from beside each press, where a strong one leaves narrow valleys.
 * Deterministic.
 */
import { roundCircle } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import type { Effects, SeatLoad } from './loads.ts'
import { descend, tangents, unit, type Expansion, type Valley } from './slipDescent.ts'
import { SlipDrive, type Weights } from './slipDrive.ts'
import { addSpeed, divide } from './slipExpansion.ts'
import { LATTICE, localMinima, type Direction } from './slipLattice.ts'
import { SlipStops, type SlipStop } from './slipStops.ts'

export interface FrictionPoint {
  readonly at: Point
  /** N */
  readonly capacity: number
}

/** A rigid slip: velocity at the plane's origin and turning counter-clockwise, of any common size. */
export interface Slip {
  readonly vx: number
  readonly vy: number
  /** rad/s for speeds in mm/s. */
  readonly turning: number
}

export interface WorstSlip {
  /** Infinity where nothing drives. */
  readonly factor: number
  readonly slip: Slip | null
  /** P/R of that slip as it grows with speed: 1/factor at this speed, no more than that at any other. */
  readonly shares: Effects
}

/** Local minima of the lattice that are followed down. */
const STARTS = 6
/** A start is not followed where it is above the least found so far by more than the ratio drops between such points. */
const LATTICE_DROP = 1.4
const BESIDE_DROP = 1.2
/** Slips tried beside each press, and how far beside, rad. */
const BESIDE = 8
const ASIDE = 0.04
/** Share of the loads' size below which a slip is not driven but by rounding. */
const UNDRIVEN = 1e-13
/** R for q and for −q, P's three growths for q, and for −q. */
const STRIDE = 8
const DRIVEN = 2

/** Least of (R − less·P) / P', P weighed by `less`, P' by `by`. */
export interface Ratio {
  readonly less: Weights | null
  readonly by: Weights
}

export class SlipSearch {
  private readonly origin: Point
  private readonly reference: number
  /** Per press its place over the reference radius and its grip, N. */
  private readonly grips: Float64Array
  private readonly drive: SlipDrive
  private readonly stops: SlipStops | null
  private readonly lattice: Float64Array
  private readonly values = new Float64Array(LATTICE.length)
  private readonly top: Expansion = new Float64Array(10)
  private readonly bottom: Expansion = new Float64Array(10)
  /** Turns about each press and slips that a turning load does not drive, then the slips beside each of the former. */
  private readonly turns: readonly Direction[]
  private readonly turnPowers: Float64Array
  private readonly beside: readonly Direction[]
  private readonly besidePowers: Float64Array
  private readonly presses: number

  /** `points`, `loads` and `stops` in the plane; `near` are more places whose distance sets the scale of turning. */
  constructor(
    points: readonly FrictionPoint[],
    loads: readonly SeatLoad[],
    near: readonly Point[] = [],
    stops: readonly SlipStop[] = [],
  ) {
    const gripping = points.filter((p) => p.capacity > 0)
    this.presses = gripping.length
    this.origin = middleOf(gripping.map((p) => p.at))
    const { x, y } = this.origin
    this.reference = Math.max(
      1,
      ...[...near, ...gripping.map((p) => p.at)].map((p) => Math.hypot(p.x - x, p.y - y)),
    )
    this.grips = Float64Array.from(
      gripping.flatMap(({ at, capacity }) => [
        (at.x - x) / this.reference,
        (at.y - y) / this.reference,
        capacity,
      ]),
    )
    this.drive = new SlipDrive(loads, this.origin, this.reference)
    this.stops = stops.length > 0 ? new SlipStops(stops, this.origin, this.reference) : null
    const noses = gripping.map((_, i) => unit([this.grips[3 * i + 1]!, -this.grips[3 * i]!, 1]))
    this.turns = [...noses, ...this.drive.still]
    this.beside = noses.flatMap(ringAbout)
    this.lattice = this.powersOf(LATTICE)
    this.turnPowers = this.powersOf(this.turns)
    this.besidePowers = this.powersOf(this.beside)
  }

  /** The factor against slip at Ω, rad/s, and the slip that it belongs to. */
  worst(omega: number): WorstSlip {
    return this.least({ less: null, by: [1, omega, omega * omega] })
  }

  least(ratio: Ratio): WorstSlip {
    const { values, lattice } = this
    const driven = UNDRIVEN * this.drive.size(ratio.by)
    const value = (q: Direction) => this.value(q, ratio, driven)
    const expand = (q: Direction) => this.expansion(q, ratio)
    const tried = (powers: Float64Array, i: number) => quotient(powers, STRIDE * i, ratio, driven)
    let best: Valley = { q: [0, 0, 1], value: Infinity }
    const turned = this.turns.map((q, i) => {
      const at = tried(this.turnPowers, i)
      if (at < best.value) best = { q, value: at }
      return at
    })
    for (let i = 0; i < LATTICE.length; i++) values[i] = tried(lattice, i)
    const follow = (q: Direction, powers: Float64Array, i: number) => {
      const found = descend(worseWay(q, powers, STRIDE * i, ratio, driven), value, expand)
      if (found.value < best.value) best = found
    }
    for (const i of localMinima(values, STARTS))
      if (values[i]! < best.value * LATTICE_DROP) follow(LATTICE[i]!, lattice, i)
    for (let k = 0; k < this.presses; k++) {
      let lowest = -1
      // Where the turn about the press is lower than all beside it, it is the least there.
      let at = Math.min(turned[k]!, best.value * BESIDE_DROP)
      for (let i = k * BESIDE; i < (k + 1) * BESIDE; i++) {
        const here = tried(this.besidePowers, i)
        if (here < at) [lowest, at] = [i, here]
      }
      if (lowest >= 0) follow(this.beside[lowest]!, this.besidePowers, lowest)
    }
    for (const passing of this.stops?.leastPassing(value) ?? [])
      if (passing.value < best.value) best = passing
    if (!(best.value < Infinity)) return { factor: best.value, slip: null, shares: [0, 0, 0] }
    const q = this.way(best.q, value)
    return { factor: best.value, slip: this.slipOf(q), shares: this.shares(q) }
  }

  /** Of a slip and its opposite the worse. */
  private way(q: Direction, value: (q: Direction) => number): Direction {
    const back: Direction = [-q[0], -q[1], -q[2]]
    return value(back) < value(q) ? back : q
  }

  private shares(q: Direction): Effects {
    const [resist, , p0, p1, p2] = this.powersOf([q])
    const share = (power: number) => (power > 0 ? power / resist! : 0)
    return [share(p0!), share(p1!), share(p2!)]
  }

  private slipOf(q: Direction): Slip {
    const turning = q[2] / this.reference
    return { vx: q[0] + turning * this.origin.y, vy: q[1] - turning * this.origin.x, turning }
  }

  private powersOf(slips: readonly Direction[]): Float64Array {
    const into = new Float64Array(STRIDE * slips.length)
    slips.forEach((q, i) => {
      const grip = this.grip(q)
      into[STRIDE * i] = grip + (this.stops?.resistance(q) ?? 0)
      into[STRIDE * i + 1] = grip + (this.stops?.resistance([-q[0], -q[1], -q[2]]) ?? 0)
      this.drive.addBothWays(q, into, STRIDE * i + DRIVEN)
    })
    return into
  }

  private resistance(q: Direction): number {
    return this.grip(q) + (this.stops?.resistance(q) ?? 0)
  }

  /** What presses resist with, the same for a slip and its opposite. */
  private grip(q: Direction): number {
    const { grips } = this
    let sum = 0
    for (let i = 0; i < grips.length; i += 3) {
      const sx = q[0] - q[2] * grips[i + 1]!
      const sy = q[1] + q[2] * grips[i]!
      sum += grips[i + 2]! * Math.sqrt(sx * sx + sy * sy)
    }
    return sum
  }

  private value(q: Direction, { less, by }: Ratio, driven: number): number {
    const power = this.drive.power(q, by)
    if (!(power > driven)) return Infinity
    return (this.resistance(q) - (less ? this.drive.power(q, less) : 0)) / power
  }

  /** The ratio to second order about a slip. The array returned is used again by the next call. */
  private expansion(q: Direction, { less, by }: Ratio): Expansion {
    const { top, bottom, grips } = this
    top.fill(0)
    bottom.fill(0)
    for (let i = 0; i < grips.length; i += 3) addSpeed(top, q, grips[i + 2]!, grips[i]!, grips[i + 1]!)
    this.stops?.expand(top, q)
    if (less) this.drive.expand(top, q, [-less[0], -less[1], -less[2]])
    this.drive.expand(bottom, q, by)
    return divide(top, bottom)
  }
}

function middleOf(points: readonly Point[]): Point {
  const sum = points.reduce((s, p) => ({ x: s.x + p.x, y: s.y + p.y }), { x: 0, y: 0 })
  const n = Math.max(1, points.length)
  return { x: sum.x / n, y: sum.y / n }
}

function ringAbout(q: Direction): Direction[] {
  const [u, w] = tangents(q)
  return roundCircle({ x: 0, y: 0 }, ASIDE, BESIDE).map(({ x: c, y: s }) =>
    unit([q[0] + c * u[0] + s * w[0], q[1] + c * u[1] + s * w[1], q[2] + c * u[2] + s * w[2]]),
  )
}

const weigh = (powers: Float64Array, at: number, w: Weights): number =>
  w[0] * powers[at]! + w[1] * powers[at + 1]! + w[2] * powers[at + 2]!

/** One way round: 0 for q, 1 for −q. */
function oneWay(powers: Float64Array, at: number, back: 0 | 1, { less, by }: Ratio, driven: number): number {
  const drive = at + DRIVEN + 3 * back
  const power = weigh(powers, drive, by)
  if (!(power > driven)) return Infinity
  return (powers[at + back]! - (less ? weigh(powers, drive, less) : 0)) / power
}

/** The worse of both ways. */
const quotient = (powers: Float64Array, at: number, ratio: Ratio, driven: number): number =>
  Math.min(oneWay(powers, at, 0, ratio, driven), oneWay(powers, at, 1, ratio, driven))

const worseWay = (q: Direction, powers: Float64Array, at: number, ratio: Ratio, driven: number): Direction =>
  oneWay(powers, at, 1, ratio, driven) < oneWay(powers, at, 0, ratio, driven) ? [-q[0], -q[1], -q[2]] : q
