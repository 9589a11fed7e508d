/** What was measured beside what was computed. */
import type { Analysis } from '../analysis/result.ts'
import type { Covariance } from '../doubt/covariance.ts'
import { directionOf, polar, toDegrees, turnBetween } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import type { Formatter } from '../units/format.ts'
import type { Direction, Estimate } from './estimate.ts'

/** 95 % of χ² with two degrees of freedom: two vectors nearer than this, in units of their doubt, may be one. */
const ONE_AND_THE_SAME = 5.991
/** The same of a direction alone, in standard deviations. */
const ONE_DIRECTION = 1.96

export interface Computed {
  readonly static_g_mm: number
  readonly static_angle_deg: number
  readonly upper95_g_mm: number
  /** Measured less computed; null where only a direction was measured. */
  readonly difference_g_mm: number | null
  readonly difference_angle_deg: number | null
  /** Whether both doubts together allow the difference. */
  readonly agrees: boolean
  /** The comparison as a sentence. */
  readonly message: string
}

/** The static unbalance as computed, g·mm, plate frame. */
export const computedVector = (a: Analysis): Point =>
  polar(a.unbalance.static_g_mm, a.unbalance.static_angle_deg)

/** What was measured less what was computed, g·mm, plate frame. */
export function missingIn(a: Analysis, { vector }: Estimate): Point {
  const computed = computedVector(a)
  return { x: vector.x - computed.x, y: vector.y - computed.y }
}

const plus = (a: Covariance, b: Covariance): Covariance => ({
  xx: a.xx + b.xx,
  xy: a.xy + b.xy,
  yy: a.yy + b.yy,
})

/** Squared length of a difference in units of its doubt; infinite where there is a difference and no doubt across it. */
export function squaredDoubts(d: Point, { xx, xy, yy }: Covariance): number {
  const det = xx * yy - xy * xy
  if (!(det > 0)) return d.x === 0 && d.y === 0 ? 0 : Infinity
  return (yy * d.x * d.x - 2 * xy * d.x * d.y + xx * d.y * d.y) / det
}

/** Whether a computed vector may be the measured one. */
export const mayBe = (computed: Point, covariance: Covariance, measured: Estimate): boolean =>
  squaredDoubts(
    { x: measured.vector.x - computed.x, y: measured.vector.y - computed.y },
    plus(covariance, measured.covariance),
  ) <= ONE_AND_THE_SAME

/** Standard uncertainty of a vector's direction, degrees. */
function directionDoubt(v: Point, { xx, xy, yy }: Covariance): number {
  const square = v.x * v.x + v.y * v.y
  if (!(square > 0)) return 180
  const across = (xx * v.y * v.y - 2 * xy * v.x * v.y + yy * v.x * v.x) / square
  return Math.min(180, toDegrees(Math.sqrt(Math.max(0, across) / square)))
}

/** What was measured beside what was computed. @param direction of the heavy side, where only that was measured. */
export function compared(
  a: Analysis,
  measured: Estimate | null,
  direction: Direction | null,
  fmt: Formatter,
): Computed {
  const { static_g_mm, static_angle_deg, upper95_g_mm } = a.unbalance
  const base = { static_g_mm, static_angle_deg, upper95_g_mm }
  const computed = computedVector(a)
  const says = `computed ${fmt.unbalance(static_g_mm)} at ${fmt.angle(static_angle_deg)}`
  if (measured) {
    const off = missingIn(a, measured)
    const agrees = mayBe(computed, a.covariance, measured)
    const gap = Math.hypot(off.x, off.y)
    const way = directionOf(off)
    const message = agrees
      ? `Measured and computed agree within their doubts: ${says}, the difference ${fmt.unbalance(gap)}.`
      : `Measured and computed do not agree: ${says}, ${fmt.unbalance(gap)} more toward ${fmt.angle(way)} was measured. Find out why before power.`
    return { ...base, difference_g_mm: gap, difference_angle_deg: way, agrees, message }
  }
  const none = { difference_g_mm: null, difference_angle_deg: null }
  if (!direction) return { ...base, ...none, agrees: false, message: `Nothing was measured: ${says}.` }
  const turn = Math.abs(turnBetween(static_angle_deg, direction.angle_deg))
  const doubt = Math.hypot(direction.doubt_deg, directionDoubt(computed, a.covariance))
  const agrees = turn <= ONE_DIRECTION * doubt
  const message = agrees
    ? `The heavy side came to rest where it was computed, within doubt: ${says}.`
    : `The heavy side came to rest ${fmt.angle(turn)} from where it was computed: ${says}. Find out why before power.`
  return { ...base, ...none, agrees, message }
}

/** What a correction was to leave: its best figure, toward where, and its 95 % bound. */
export interface Expected {
  readonly amount: number
  readonly angle: number
  readonly upper: number
}

/** 95 % of a vector's length about nought, in standard deviations of each way: √5.991. */
const ABOUT_NOUGHT = Math.sqrt(ONE_AND_THE_SAME)

/**
 * Whether the readings after a correction are what it was to leave, as a sentence. Its doubt is taken from its bound as if it
 * left nought, which is the smaller one that the bound allows: what differs is rather told once too often.
 */
export function closesLoop(
  { amount, angle, upper }: Expected,
  measured: Estimate,
  fmt: Formatter,
): { readonly agrees: boolean; readonly message: string } {
  const left = polar(amount, angle)
  const square = (Math.max(0, upper - amount) / ABOUT_NOUGHT) ** 2
  const agrees = mayBe(left, { xx: square, xy: 0, yy: square }, measured)
  const gap = fmt.unbalance(Math.hypot(measured.vector.x - left.x, measured.vector.y - left.y))
  const wanted = `${fmt.unbalance(amount)} at ${fmt.angle(angle)}`
  const message = agrees
    ? `The correction left what it was to leave, within doubt: ${wanted} expected, the difference ${gap}.`
    : `The correction did not leave what it was to: ${wanted} expected, the difference ${gap}. See that the weight is the one that was planned and sits where it was planned, then measure again.`
  return { agrees, message }
}
