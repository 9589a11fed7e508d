/** Readings as circles and vectors, in a box of −1 to 1, y up. */
import { polar } from '../../src-core/geometry/angles.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { weightVector } from '../../src-core/trim/estimate.ts'
import type { Readings } from '../../src-core/trim/readings.ts'

export interface FigureCircle {
  readonly centre: Point
  readonly radius: number
  /** The first reading, or one with a trial weight. */
  readonly role: 'first' | 'trial'
}

export interface FigureArrow {
  readonly from: Point
  readonly to: Point
  readonly role: 'reading' | 'effect' | 'measured' | 'computed'
}

export interface TrimFigure {
  readonly circles: readonly FigureCircle[]
  readonly arrows: readonly FigureArrow[]
  /** Where it came to rest, on the rim. */
  readonly marks: readonly Point[]
}

export interface Heavy {
  readonly size: number | null
  readonly angle: number
}

const ORIGIN: Point = { x: 0, y: 0 }

/** @param measured size null where only the direction is known. */
export function trimFigure(readings: Readings, measured: Heavy | null, computed: Heavy): TrimFigure {
  switch (readings.method) {
    case 'roll':
      return {
        circles: [],
        marks: readings.rests_deg.map((a) => polar(1, a)),
        arrows: heavyArrows(measured, computed),
      }
    case 'four-run':
      return fourCircles(readings, measured)
    case 'vector': {
      const v0 = polar(readings.first.amplitude, readings.first.phase_deg)
      const v1 = polar(readings.trial.amplitude, readings.trial.phase_deg)
      const most = Math.max(readings.first.amplitude, readings.trial.amplitude)
      const to = (p: Point): Point => ({ x: p.x / most, y: p.y / most })
      return {
        circles: [],
        marks: [],
        arrows: [
          { from: ORIGIN, to: to(v0), role: 'reading' },
          { from: ORIGIN, to: to(v1), role: 'reading' },
          { from: to(v0), to: to(v1), role: 'effect' },
        ],
      }
    }
  }
}

/** Both directions in one picture, the larger as long as the rim. */
function heavyArrows(measured: Heavy | null, computed: Heavy): FigureArrow[] {
  const most = Math.max(measured?.size ?? 0, computed.size ?? 0)
  const long = (h: Heavy) => 0.9 * (h.size === null || most === 0 ? 1 : Math.max(0.15, h.size / most))
  return [
    { from: ORIGIN, to: polar(long(computed), computed.angle), role: 'computed' },
    ...(measured
      ? [{ from: ORIGIN, to: polar(long(measured), measured.angle), role: 'measured' } as const]
      : []),
  ]
}

/**
 * Circles about the trial places on the first reading's circle: O for the place, the trial's amplitude for its radius.
 * Where they meet lies opposite the heavy side, as far out as the trial weight's own effect.
 */
function fourCircles(
  { first, trials }: Extract<Readings, { method: 'four-run' }>,
  measured: Heavy | null,
): TrimFigure {
  const weights = trials.map((t) => Math.hypot(weightVector(t).x, weightVector(t).y))
  const usual = weights.reduce((s, w) => s + w, 0) / weights.length
  const reach = Math.max(...trials.map((t) => first + t.amplitude))
  const circles = trials.map((t): FigureCircle => {
    return { centre: polar(first / reach, t.angle_deg), radius: t.amplitude / reach, role: 'trial' }
  })
  const effect = measured?.size ? (first * usual) / measured.size : null
  return {
    marks: [],
    circles: [{ centre: ORIGIN, radius: first / reach, role: 'first' }, ...circles],
    arrows:
      measured && effect !== null
        ? [{ from: ORIGIN, to: polar(Math.min(1, effect / reach), measured.angle + 180), role: 'measured' }]
        : [],
  }
}
