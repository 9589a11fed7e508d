/** Snapping, pure: distances are screen pixels, so that it feels the same at every zoom. */
import { wholeTurn } from '../../src-core/geometry/angles.ts'
import { ROUNDING } from '../../src-core/geometry/tolerance.ts'
import { sizeFor } from '../../src-core/units/convert.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { REACH } from './reach.ts'

export interface SnapTarget {
  readonly at: Point
  /** What the point is, for the guide. */
  readonly text: string
  /** Lower wins where two are equally near. */
  readonly rank: number
}

/** The nearest target within the radius (ties: rank, then order), else the point itself. */
export function snapPoint(
  raw: Point,
  targets: readonly SnapTarget[],
  pxPerMm: number,
  radiusPx: number = REACH.snap.mouse,
): { point: Point; target: SnapTarget | null } {
  let best: SnapTarget | null = null
  let least = Infinity
  for (const target of targets) {
    const distance = Math.hypot(target.at.x - raw.x, target.at.y - raw.y) * pxPerMm
    if (distance > radiusPx) continue
    const nearer = distance < least - ROUNDING.length
    const tie = Math.abs(distance - least) <= ROUNDING.length && best !== null && target.rank < best.rank
    if (nearer || tie) {
      best = target
      least = distance
    }
  }
  return best ? { point: best.at, target: best } : { point: raw, target: null }
}

/** mm: round figures of either system. */
const STEPS = {
  mm: [0.01, 0.05, 0.1, 0.5, 1, 5, 10],
  in: [0.0254, 0.127, 0.254, 1.27, 2.54, 6.35, 12.7],
} as const

/** A step for free drags that suits the zoom and the units shown: about two pixels, at most 10 mm or half an inch. mm */
export function freeStep(pxPerMm: number, units: 'mm' | 'in' = 'mm', least = 0): number {
  const steps = STEPS[units].filter((s) => s >= least)
  return steps.find((s) => s >= 1 / pxPerMm) ?? steps.at(-1)!
}

/** By which an arrow key moves what is chosen, or a length's figure, in the units shown. mm */
export const keyStep = (units: 'mm' | 'in', isFine = false): number =>
  isFine ? sizeFor(units, 0.1, 0.005) : sizeFor(units, 1, 0.05)

/** Nearest multiple, free of trailing binary digits. */
export const roundTo = (value: number, step: number): number =>
  Number((Math.round(value / step) * step).toFixed(6))

/** Degrees: catches multiples of the turn step, else half degrees; 0 to below 360. */
export function snapAngle(degrees: number): { angle: number; snapped: boolean } {
  const detent = Math.round(degrees / REACH.turnStep) * REACH.turnStep
  const snapped = Math.abs(degrees - detent) <= REACH.turn
  const angle = snapped ? detent : roundTo(degrees, 0.5)
  return { angle: wholeTurn(angle), snapped }
}
