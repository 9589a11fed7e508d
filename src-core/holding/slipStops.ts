/**
 * What stands in the way of a slip from one side only: Σ cap·max(0, v(c)·n), n pointing into the stop. It bends upward
 * where the slip passes a stop by, v(c)·n = 0: on that great circle of slips a least may lie that no descent through
 * smooth country ends at, so each circle is searched by itself.
 */
import { FULL_TURN } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import { tangents, unit, type Expansion } from './slipDescent.ts'
import { addLinear } from './slipExpansion.ts'
import type { Direction } from './slipLattice.ts'

/** `into`: of length 1. */
export interface SlipStop {
  readonly at: Point
  readonly into: Point
  /** N */
  readonly capacity: number
}

/** Per stop: v(c)·n as a linear measure of a slip, and its capacity. */
const STRIDE = 4
/** Slips looked at round each circle, and steps of the golden section between two of them. */
const ROUND = 120
const SECTIONS = 40
const GOLDEN = (Math.sqrt(5) - 1) / 2

export class SlipStops {
  private readonly parts: Float64Array

  /** About `origin`, ω measured at `reference` mm. */
  constructor(stops: readonly SlipStop[], origin: Point, reference: number) {
    this.parts = Float64Array.from(
      stops.flatMap(({ at, into, capacity }) => [
        into.x,
        into.y,
        (into.y * (at.x - origin.x) - into.x * (at.y - origin.y)) / reference,
        capacity,
      ]),
    )
  }

  resistance(q: Direction): number {
    const { parts } = this
    let sum = 0
    for (let i = 0; i < parts.length; i += STRIDE) sum += parts[i + 3]! * Math.max(0, this.motion(q, i))
    return sum
  }

  /** Adds the resistance to second order. */
  expand(e: Expansion, q: Direction): void {
    const { parts } = this
    for (let i = 0; i < parts.length; i += STRIDE)
      if (this.motion(q, i) > 0) addLinear(e, q, parts[i + 3]!, parts[i]!, parts[i + 1]!, parts[i + 2]!)
  }

  /** Of the slips that pass a stop by, each circle's least values, and where. */
  leastPassing(value: (q: Direction) => number): { readonly q: Direction; readonly value: number }[] {
    const found: { q: Direction; value: number }[] = []
    for (let i = 0; i < this.parts.length; i += STRIDE) {
      const { parts } = this
      const [u, w] = tangents(unit([parts[i]!, parts[i + 1]!, parts[i + 2]!]))
      const on = (turn: number): Direction => {
        const [c, s] = [Math.cos(turn), Math.sin(turn)]
        return [c * u[0] + s * w[0], c * u[1] + s * w[1], c * u[2] + s * w[2]]
      }
      const step = FULL_TURN / ROUND
      const values = Array.from({ length: ROUND }, (_, k) => value(on(k * step)))
      values.forEach((v, k) => {
        if (v < Infinity && v <= values[(k + 1) % ROUND]! && v <= values.at(k - 1)!)
          found.push(goldenSection((turn) => value(on(turn)), (k - 1) * step, (k + 1) * step, on))
      })
    }
    return found
  }

  private motion(q: Direction, i: number): number {
    const { parts } = this
    return parts[i]! * q[0] + parts[i + 1]! * q[1] + parts[i + 2]! * q[2]
  }
}

function goldenSection(
  value: (turn: number) => number,
  low: number,
  high: number,
  on: (turn: number) => Direction,
): { q: Direction; value: number } {
  let [a, b] = [low, high]
  let [c, d] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)]
  let [atC, atD] = [value(c), value(d)]
  for (let i = 0; i < SECTIONS; i++) {
    if (atC < atD) {
      ;[b, d, atD] = [d, c, atC]
      c = b - GOLDEN * (b - a)
      atC = value(c)
    } else {
      ;[a, c, atC] = [c, d, atD]
      d = a + GOLDEN * (b - a)
      atD = value(d)
    }
  }
  const turn = atC < atD ? c : d
  return { q: on(turn), value: Math.min(atC, atD) }
}
