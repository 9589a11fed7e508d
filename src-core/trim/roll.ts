/**
 * The roll test. Free to turn, the heavy side settles down; the mean of several rests tells where it is. Level, it is
 * held by a weight on the other side: with friction, one weight just lifts it (r·up = U + F), a lighter one just lets
 * it fall (r·down = U − F), so U = r(up + down)/2 and F = r(up − down)/2, in g·mm (statics of a turning body).
 */
import { directionOf, polar, toDegrees, toRadians, turnBetween } from '../geometry/angles.ts'
import { plain, type Formatter } from '../units/format.ts'
import {
  READING,
  alongAcross,
  spread,
  weightDisplacements,
  type Estimate,
  type Solved,
  type WeightDoubt,
} from './estimate.ts'
import type { RollReadings } from './readings.ts'

type Hold = NonNullable<RollReadings['hold']>[number]

/** Mean resultant length under which rests point nowhere. Evenswing's own setting. */
const NOWHERE = 0.5
/** A rest this many standard deviations and degrees from the others is worth another roll. Own settings. */
const FAR = { deviations: 3, degrees: 12 } as const
/** Scatter in degrees from which it is worth a word. Own setting. */
const WIDE = 15

export interface Rests {
  /** Circular mean, degrees. */
  readonly mean_deg: number
  /** Mean resultant length: 1 where all agree, near 0 where they point everywhere. */
  readonly resultant: number
  /** Standard deviation of one rest, degrees, from the resultant length: √(−2 ln R) (circular statistics). */
  readonly scatter_deg: number
}

/** @param rests degrees, one or more. */
export function restsOf(rests: readonly number[]): Rests {
  const n = rests.length
  const sum = rests.reduce(
    (s, a) => {
      const p = polar(1 / n, a)
      return { x: s.x + p.x, y: s.y + p.y }
    },
    { x: 0, y: 0 },
  )
  const resultant = Math.min(1, Math.hypot(sum.x, sum.y))
  const spreadOut = Math.sqrt(-2 * Math.log(Math.max(resultant, 1e-12)))
  return {
    mean_deg: directionOf(sum),
    resultant,
    scatter_deg: n > 1 ? toDegrees(spreadOut) * Math.sqrt(n / (n - 1)) : 0,
  }
}

export interface Held {
  readonly unbalance_g_mm: number
  /** Half the difference of lifting and letting fall, g·mm at the spindle. */
  readonly friction_g_mm: number
  /** Standard deviation between the readings; null for a single one. */
  readonly scatter_g_mm: number | null
  /** Whether it was held on both sides, so that a spindle which turns easier one way is evened out. */
  readonly bothSides: boolean
}

const middle = (h: Hold) => (h.radius_mm * (h.up_g + h.down_g)) / 2
const half = (h: Hold) => (h.radius_mm * (h.up_g - h.down_g)) / 2
const mean = (values: readonly number[]) => values.reduce((s, v) => s + v, 0) / values.length

/** Both sides count alike, however often each was held. Null without a reading. */
export function heldOf(hold: readonly Hold[]): Held | null {
  if (hold.length === 0) return null
  const sides = [90, -90].map((side) => hold.filter((h) => h.side === side)).filter((s) => s.length > 0)
  const unbalance = mean(sides.map((s) => mean(s.map(middle))))
  const off = hold.reduce((s, h) => s + (middle(h) - unbalance) ** 2, 0)
  return {
    unbalance_g_mm: unbalance,
    friction_g_mm: mean(sides.map((s) => mean(s.map(half)))),
    scatter_g_mm: hold.length > 1 ? Math.sqrt(off / (hold.length - 1)) : null,
    bothSides: sides.length === 2,
  }
}

/** Degrees by which the heavy side may stop short of straight down: U·sin δ = F. 90 where friction is the greater. */
const deadAngle = ({ unbalance_g_mm: u, friction_g_mm: f }: Held) =>
  f >= u ? 90 : toDegrees(Math.asin(f / u))

/** A value that lies anywhere within ±half is doubted by half/√3 (rectangular distribution, JCGM 100:2008, 4.3.7). */
const rectangular = (half: number) => half / Math.sqrt(3)

/** 97.5 % points of Student's t over that of the normal distribution, by degrees of freedom (published tables). */
const STUDENT = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228].map((t) => t / 1.96)
const fewness = (freedom: number) => STUDENT[freedom - 1] ?? 1 + 1.3 / freedom

/** Standard uncertainty of the direction, degrees. */
function directionDoubt(rests: readonly number[], { scatter_deg }: Rests, held: Held | null): number {
  const n = rests.length
  const repeated = n > 1 ? (fewness(n - 1) * scatter_deg) / Math.sqrt(n) : READING.loneRest_deg
  // Rests reached from one side all stop short the same way: repeating them does not show it.
  const short = held ? rectangular(deadAngle(held)) : 0
  return Math.min(90, Math.hypot(repeated, READING.rest_deg, short))
}

/** Standard uncertainty of the unbalance along its direction, without that of the weights, g·mm. */
function amountDoubt(hold: readonly Hold[], held: Held): number {
  // Held on one side U lies for certain between what lifts and what lets fall; on both, half of that is left to doubt,
  // for friction is not the same all round. Own setting, no source.
  const friction = rectangular(held.friction_g_mm) * (held.bothSides ? 0.5 : 1)
  return Math.hypot(friction, (held.scatter_g_mm ?? 0) / Math.sqrt(hold.length))
}

/** Solves a roll test; its misfit is the rests' standard deviation in degrees. */
export function solveRoll(
  { rests_deg, hold = [] }: RollReadings,
  doubt: WeightDoubt,
  fmt: Formatter,
): Solved & { readonly rests: Rests; readonly held: Held | null } {
  const rests = restsOf(rests_deg)
  const held = heldOf(hold)
  const across = directionDoubt(rests_deg, rests, held)
  const direction = { angle_deg: rests.mean_deg, doubt_deg: across }
  const remarks = [...restRemarks(rests_deg, rests, fmt), ...holdRemarks(held, fmt)]
  const base = { ok: true, direction, remarks, rests, held } as const
  if (!held) return { ...base, estimates: [] }
  const vector = polar(held.unbalance_g_mm, rests.mean_deg)
  const radius = mean(hold.map((h) => h.radius_mm))
  const estimate: Estimate = {
    vector,
    covariance: spread([
      ...weightDisplacements(vector, radius, doubt),
      polar(amountDoubt(hold, held), rests.mean_deg),
      alongAcross(vector, 0, toRadians(across)),
    ]),
    misfit: rests_deg.length > 1 ? rests.scatter_deg : null,
    response: null,
  }
  return { ...base, estimates: [estimate] }
}

function restRemarks(all: readonly number[], rests: Rests, fmt: Formatter): string[] {
  const n = all.length
  if (n === 1) return ['One rest alone tells little. Let it roll twice more, from both sides.']
  if (rests.resultant < NOWHERE)
    return [
      'It comes to rest anywhere. Either it is balanced as far as friction lets one see, or the spindle does not turn freely: declutch, take the belt off, and roll again.',
    ]
  const far = n < 3 ? [] : all.flatMap((rest, i) => farFrom(rest, all.toSpliced(i, 1), fmt))
  const wide =
    rests.scatter_deg > WIDE && far.length === 0
      ? [
          `The rests scatter by ${plain(rests.scatter_deg, 0)}°. Let it roll from both sides until they settle; the doubt counts the scatter.`,
        ]
      : []
  return [...far, ...wide]
}

function farFrom(rest: number, others: readonly number[], fmt: Formatter): string[] {
  const { mean_deg, scatter_deg } = restsOf(others)
  const off = Math.abs(turnBetween(mean_deg, rest))
  if (off <= Math.max(FAR.degrees, FAR.deviations * scatter_deg)) return []
  return [
    `The rest at ${fmt.angle(rest)} lies ${plain(off, 0)}° from the others. Roll it again; it still counts in the mean.`,
  ]
}

/** Share of the unbalance from which friction is worth a word, and difference of the sides. Own settings. */
const STICKY = 0.3

function holdRemarks(held: Held | null, fmt: Formatter): string[] {
  if (!held)
    return [
      'Only the direction is known. Hold the heavy side level with a hung weight to find how heavy it is.',
    ]
  const { unbalance_g_mm: u, friction_g_mm: f } = held
  const figures = `friction ${fmt.unbalance(f)} of ${fmt.unbalance(u)}`
  if (f >= u)
    return [
      `Friction hides it: what is there may be anything up to ${fmt.unbalance(u + f)} (${figures}). Free the spindle and roll again.`,
    ]
  const sticky =
    f > STICKY * u
      ? [
          `Friction is high against what is measured (${figures}). A freer spindle or a larger radius tells more.`,
        ]
      : []
  const side = held.bothSides
    ? []
    : [
        'It was held on one side only. Held level on the other side too, a spindle that turns easier one way is evened out.',
      ]
  return [...sticky, ...side]
}
