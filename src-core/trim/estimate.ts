/** What readings say of an unbalance, with its doubt, and how much each reading is doubted. */
import { upperBound } from '../doubt/bound.ts'
import type { Covariance } from '../doubt/covariance.ts'
import { directionOf, polar } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import type { JobFault } from '../job/fault.ts'

/** How the reading follows the unbalance. */
export interface Response {
  /** Amplitude that 1 g·mm gives, in the meter's unit. */
  readonly perGmm: number
  /** Degrees by which the phase runs ahead of the heavy side; null where no phase was read. */
  readonly ahead_deg: number | null
}

export interface Estimate {
  /** g·mm, plate frame: where the heavy side is. */
  readonly vector: Point
  /** (g·mm)² */
  readonly covariance: Covariance
  /** What the readings leave unexplained; null where there is nothing left over to check them by. */
  readonly misfit: number | null
  /** Null for a roll. */
  readonly response: Response | null
}

/** A direction alone, degrees, with its standard uncertainty. */
export interface Direction {
  readonly angle_deg: number
  readonly doubt_deg: number
}

/** Readings that say something: `estimates` best first, more than one where they cannot be told apart. */
export interface Solved {
  readonly ok: true
  readonly estimates: readonly Estimate[]
  /** Set where only a direction is known. */
  readonly direction: Direction | null
  /** How the readings are judged, each a sentence. */
  readonly remarks: readonly string[]
}

/** Readings that cannot be, each with its field. */
export interface Refused {
  readonly ok: false
  readonly faults: readonly JobFault[]
}

export type Outcome = Solved | Refused

export const refused = (path: string, message: string): Refused => ({
  ok: false,
  faults: [{ path, message }],
})

/**
 * Standard uncertainties of what is read where nothing better is known. Evenswing's own settings, no source: a pointer
 * read to a fiftieth, a mark under a lamp to two degrees, a plumb line on the rim to two degrees.
 */
export const READING = {
  /** Share of the largest amplitude of the set. */
  amplitude: 0.02,
  phase_deg: 2,
  rest_deg: 2,
  /** Of a single rest, whose scatter nobody knows. */
  loneRest_deg: 15,
} as const

/** Standard uncertainties of a weight that is hung or stuck on: share of its mass, mm of its place each way. */
export interface WeightDoubt {
  readonly massShare: number
  readonly place: number
}

/** Covariance of what many independent causes displace, each given by the displacement of one standard uncertainty. */
export function spread(displacements: readonly Point[]): Covariance {
  return displacements.reduce<Covariance>(
    (sum, d) => ({ xx: sum.xx + d.x * d.x, xy: sum.xy + d.x * d.y, yy: sum.yy + d.y * d.y }),
    { xx: 0, xy: 0, yy: 0 },
  )
}

/** A displacement of a vector, part of its length along it and across it. */
export const alongAcross = (v: Point, along: number, across: number): Point => ({
  x: v.x * along - v.y * across,
  y: v.y * along + v.x * across,
})

/** Displacements of an unbalance found with one weight: its mass and radius along it, its place across it. */
export const weightDisplacements = (v: Point, radius: number, doubt: WeightDoubt): Point[] => [
  alongAcross(v, Math.hypot(doubt.massShare, doubt.place / radius), 0),
  alongAcross(v, 0, doubt.place / radius),
]

/** An answer as command line, window and run have it. */
export interface TrimAnswer {
  readonly measured_g_mm: number
  readonly heavy_angle_deg: number
  readonly upper95_g_mm: number
}

/** g·mm and degrees of the plate; the 95 % bound by the readings' own doubt. */
export const answerOf = ({ vector, covariance }: Estimate): TrimAnswer => ({
  measured_g_mm: Math.hypot(vector.x, vector.y),
  heavy_angle_deg: directionOf(vector),
  upper95_g_mm: upperBound(vector, covariance),
})

/** The unbalance of a weight, g·mm. */
export const weightVector = (w: {
  readonly mass_g: number
  readonly radius_mm: number
  readonly angle_deg: number
}): Point => polar(w.mass_g * w.radius_mm, w.angle_deg)

export interface PredictedReading {
  readonly amplitude: number
  readonly phase_deg: number | null
}

/** What the meter will show with weights on as well; null for a roll, where none reads. */
export function predictedReading(
  { vector, response }: Pick<Estimate, 'vector' | 'response'>,
  weights: readonly Point[],
): PredictedReading | null {
  if (!response) return null
  const left = weights.reduce((sum, w) => ({ x: sum.x + w.x, y: sum.y + w.y }), vector)
  const turn = response.ahead_deg
  return {
    amplitude: response.perGmm * Math.hypot(left.x, left.y),
    phase_deg: turn === null ? null : directionOf(polar(1, directionOf(left) + turn)),
  }
}
