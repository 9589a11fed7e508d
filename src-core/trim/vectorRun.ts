/**
 * Trim from amplitude and phase with one trial weight: the influence coefficient α = (V₁ − V₀)/w, and the unbalance
 * U = V₀/α, all as vectors (complex numbers). The correction is −U.
 */
import { polar, toRadians, turnBetween, directionOf } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import { plain } from '../units/format.ts'
import {
  READING,
  refused,
  spread,
  weightDisplacements,
  weightVector,
  type Outcome,
  type WeightDoubt,
} from './estimate.ts'
import type { VectorReadings } from './readings.ts'

/** A trial tells enough when it changes the amplitude by this share, or the phase by so many degrees (published rule). */
const ENOUGH = { share: 0.3, degrees: 30 } as const
/** A change smaller than this many standard uncertainties of the readings is none. Own setting. */
const NONE = 1

const times = (a: Point, b: Point): Point => ({ x: a.x * b.x - a.y * b.y, y: a.x * b.y + a.y * b.x })
const over = (a: Point, b: Point): Point => {
  const size = b.x * b.x + b.y * b.y
  return { x: (a.x * b.x + a.y * b.y) / size, y: (a.y * b.x - a.x * b.y) / size }
}
const minus = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y })
const sizeOf = (a: Point) => Math.hypot(a.x, a.y)

/** Solves one trial; with as many readings as unknowns there is no misfit to tell. */
export function solveVector({ first, trial }: VectorReadings, doubt: WeightDoubt): Outcome {
  const v0 = polar(first.amplitude, first.phase_deg)
  const v1 = polar(trial.amplitude, trial.phase_deg)
  const weight = weightVector(trial)
  const effect = minus(v1, v0)
  const noise = READING.amplitude * Math.max(first.amplitude, trial.amplitude)
  if (sizeOf(effect) <= NONE * noise)
    return refused(
      'trial',
      'changed nothing that one can read: take a heavier weight or a larger radius, and judge that run first',
    )
  const response = over(effect, weight)
  const vector = over(v0, response)
  // U = w·V₀/(V₁ − V₀), so dU = w·(V₁·dV₀ − V₀·dV₁)/(V₁ − V₀)².
  const by = over(weight, times(effect, effect))
  const across = toRadians(READING.phase_deg)
  const displaced = (read: Point, other: Point): Point[] => {
    const along = noise / Math.max(sizeOf(read), noise)
    const slope = times(by, other)
    return [
      times(slope, { x: read.x * along, y: read.y * along }),
      times(slope, { x: -read.y * across, y: read.x * across }),
    ]
  }
  return {
    ok: true,
    estimates: [
      {
        vector,
        covariance: spread([
          ...displaced(v0, v1),
          ...displaced(v1, v0),
          ...weightDisplacements(vector, trial.radius_mm, doubt),
        ]),
        misfit: null,
        response: { perGmm: sizeOf(response), ahead_deg: directionOf(response) },
      },
    ],
    direction: null,
    remarks: enoughRemarks(first, trial),
  }
}

function enoughRemarks(first: VectorReadings['first'], trial: VectorReadings['trial']): string[] {
  const share = Math.abs(trial.amplitude - first.amplitude) / first.amplitude
  const degrees = Math.abs(turnBetween(first.phase_deg, trial.phase_deg))
  if (share >= ENOUGH.share || degrees >= ENOUGH.degrees) return []
  return [
    `The trial weight tells too little: amplitude changed by ${plain(share * 100, 0)} % and phase by ${plain(degrees, 0)}°, where 30 % or 30° are wanted. Take a heavier one or another place.`,
  ]
}
