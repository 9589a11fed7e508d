/** Where the points marked in a photograph lie on the part, from what is typed about them. */
import type { Point } from '../../src-core/geometry/types.ts'

/** Two points a known distance apart, or four corners of a known rectangle from the lower left one round. */
export type Method = 'distance' | 'rectangle'
/** Which way the line from the first to the second point runs on the part. */
export type Along = 'picture' | 'x' | 'y' | 'kept'
/** A point of the picture, pixels; null: not said yet. */
export interface Marked {
  readonly u: number | null
  readonly v: number | null
}

export interface Said {
  readonly method: Method
  readonly marks: readonly Marked[]
  /** mm; null: not said yet. */
  readonly distance: number | null
  readonly width: number | null
  readonly height: number | null
  /** Where the first lies, mm. */
  readonly at: Point
  readonly along: Along
  /** Radians of the line from 1 to 2 on the part as the photograph of the job lies; null: there is none. */
  readonly kept: number | null
}

/** The marks' points on the part, mm; null while something is missing. */
export function markPlan(said: Said): Point[] | null {
  const { at, kept, distance, width, height } = said
  const fine = (v: number) => Number(v.toFixed(9))
  const from = (angle: number, x: number, y: number): Point => ({
    x: fine(at.x + x * Math.cos(angle) - y * Math.sin(angle)),
    y: fine(at.y + x * Math.sin(angle) + y * Math.cos(angle)),
  })
  if (said.method === 'rectangle') {
    if (width === null || height === null) return null
    const angle = kept ?? 0
    return [at, from(angle, width, 0), from(angle, width, height), from(angle, 0, height)]
  }
  const [a, b] = said.marks
  if (distance === null || !a || !b) return null
  if (a.u === null || a.v === null || b.u === null || b.v === null) return null
  const inPicture = Math.atan2(a.v - b.v, b.u - a.u)
  const angles = { picture: inPicture, x: 0, y: Math.PI / 2, kept: kept ?? inPicture }
  return [at, from(angles[said.along], distance, 0)]
}
