/** Snapping, pure: distances are screen pixels, so that it feels the same at every zoom. */
import type { Point } from '../../src-core/geometry/types.ts'

export interface SnapTarget {
  readonly at: Point
  /** What the point is, for the guide. */
  readonly text: string
  /** Lower wins where two are equally near. */
  readonly rank: number
}

export const SNAP_PX = 10

/** The nearest target within the radius (ties: rank, then order), else the point itself. */
export function snapPoint(
  raw: Point,
  targets: readonly SnapTarget[],
  pxPerMm: number,
  radiusPx: number = SNAP_PX,
): { point: Point; target: SnapTarget | null } {
  let best: SnapTarget | null = null
  let least = Infinity
  for (const target of targets) {
    const distance = Math.hypot(target.at.x - raw.x, target.at.y - raw.y) * pxPerMm
    if (distance > radiusPx) continue
    const nearer = distance < least - 1e-9
    const tie = Math.abs(distance - least) <= 1e-9 && best !== null && target.rank < best.rank
    if (nearer || tie) {
      best = target
      least = distance
    }
  }
  return best ? { point: best.at, target: best } : { point: raw, target: null }
}

/** A step for free drags that suits the zoom: about two pixels, from 0.01 to 10 mm. */
export function freeStep(pxPerMm: number): number {
  const wanted = 2 / pxPerMm
  return [0.01, 0.05, 0.1, 0.5, 1, 5].find((s) => s >= wanted / 2) ?? 10
}

/** Nearest multiple, free of trailing binary digits. */
export const roundTo = (value: number, step: number): number =>
  Number((Math.round(value / step) * step).toFixed(6))

/** Degrees: catches multiples of 15 within two degrees, else half degrees; 0 to below 360. */
export function snapAngle(degrees: number): { angle: number; snapped: boolean } {
  const detent = Math.round(degrees / 15) * 15
  const snapped = Math.abs(degrees - detent) <= 2
  const angle = snapped ? detent : roundTo(degrees, 0.5)
  return { angle: ((angle % 360) + 360) % 360, snapped }
}
