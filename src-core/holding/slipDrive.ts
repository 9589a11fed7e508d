/**
 * The power P(q) with which loads drive a slip, each counted where it harms (see loads.ts), as flat numbers for the
 * search: for each load its steady part c and, where it turns, a and b, all on (vᵤ, vᵥ, ω at the reference radius).
 */
import type { Point } from '../geometry/types.ts'
import type { SeatLoad, SeatWrench } from './loads.ts'
import { addLinear, addSwing } from './slipExpansion.ts'
import type { Expansion } from './slipDescent.ts'
import type { Direction } from './slipLattice.ts'

/** Per load: c, a, b. */
const STRIDE = 9

/** Shares of the effects that do not grow, grow with Ω and with Ω². */
export type Weights = readonly [number, number, number]

export class SlipDrive {
  private readonly parts: Float64Array
  private readonly loads: readonly SeatLoad[]
  /** Slips that a turning load does not drive. */
  readonly still: readonly Direction[]

  /** About `origin`, ω measured at `reference` mm. */
  constructor(loads: readonly SeatLoad[], origin: Point, reference: number) {
    this.loads = loads.filter((l) => drives(l.steady) || l.turning?.some(drives))
    this.parts = new Float64Array(STRIDE * this.loads.length)
    const still: Direction[] = []
    this.loads.forEach(({ steady, turning }, i) => {
      const put = (w: SeatWrench, at: number) =>
        this.parts.set([w.fu, w.fv, (w.mn - origin.x * w.fv + origin.y * w.fu) / reference], at)
      put(steady, STRIDE * i)
      if (!turning) return
      put(turning[0], STRIDE * i + 3)
      put(turning[1], STRIDE * i + 6)
      const q = squareToBoth(this.parts, STRIDE * i + 3)
      if (q) still.push(q)
    })
    this.still = still
  }

  /** Adds P's three growths for q to `into` at `at`, and those for −q three places on. */
  addBothWays(q: Direction, into: Float64Array, at: number): void {
    for (let i = 0; i < this.loads.length; i++) {
      const { growth, eitherWay } = this.loads[i]!
      const mean = this.dot(q, STRIDE * i)
      const swing = this.swing(q, i)
      into[at + growth]! += eitherWay ? Math.abs(mean) + swing : Math.max(0, mean + swing)
      into[at + 3 + growth]! += eitherWay ? Math.abs(mean) + swing : Math.max(0, swing - mean)
    }
  }

  power(q: Direction, weights: Weights): number {
    let sum = 0
    for (let i = 0; i < this.loads.length; i++) {
      const { growth, eitherWay } = this.loads[i]!
      const weight = weights[growth]
      if (weight === 0) continue
      const mean = this.dot(q, STRIDE * i)
      sum += weight * Math.max(0, (eitherWay ? Math.abs(mean) : mean) + this.swing(q, i))
    }
    return sum
  }

  /** Adds the power to second order. */
  expand(e: Expansion, q: Direction, weights: Weights): void {
    const { parts } = this
    for (let i = 0; i < this.loads.length; i++) {
      const { growth, eitherWay, turning } = this.loads[i]!
      const weight = weights[growth]
      if (weight === 0) continue
      const at = STRIDE * i
      const mean = this.dot(q, at)
      if (!eitherWay && mean + this.swing(q, i) <= 0) continue
      const sign = eitherWay && mean < 0 ? -weight : weight
      addLinear(e, q, sign, parts[at]!, parts[at + 1]!, parts[at + 2]!)
      if (turning) addSwing(e, q, weight, parts, at + 3)
    }
  }

  /** About the largest power that any slip takes, N. */
  size(weights: Weights): number {
    let sum = 0
    for (let i = 0; i < this.loads.length; i++)
      for (let k = 0; k < STRIDE; k++)
        sum += weights[this.loads[i]!.growth] * Math.abs(this.parts[STRIDE * i + k]!)
    return sum
  }

  private dot(q: Direction, at: number): number {
    const { parts } = this
    return parts[at]! * q[0] + parts[at + 1]! * q[1] + parts[at + 2]! * q[2]
  }

  private swing(q: Direction, i: number): number {
    if (!this.loads[i]!.turning) return 0
    const a = this.dot(q, STRIDE * i + 3)
    const b = this.dot(q, STRIDE * i + 6)
    return Math.sqrt(a * a + b * b)
  }
}

const drives = (w: SeatWrench) => w.fu !== 0 || w.fv !== 0 || w.mn !== 0

function squareToBoth(of: Float64Array, at: number): Direction | null {
  const [ax, ay, az, bx, by, bz] = [of[at]!, of[at + 1]!, of[at + 2]!, of[at + 3]!, of[at + 4]!, of[at + 5]!]
  const q: Direction = [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx]
  const length = Math.hypot(...q)
  return length > 0 ? [q[0] / length, q[1] / length, q[2] / length] : null
}
