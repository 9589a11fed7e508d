/**
 * Which part is so small on the sheet that it is drawn again, enlarged: it is encircled by a narrow line with a letter, and
 * the detail has letter and scale over it (ISO 128-3, from memory). Plate frame, mm.
 */
import { flattenRegion } from '../../geometry/flatten.ts'
import type { Point } from '../../geometry/types.ts'
import type { Mounted } from '../../mounting/types.ts'
import { SCALES } from '../sheet/sheetSizes.ts'

/** From the end of the alphabet: bores have its beginning. */
export const DETAIL_LETTER = 'Z'
/** A part less wide and high than this on the sheet lies under its own symbols, mm. */
const SMALL = 25
/** Greatest diameter of the detail, mm on the sheet: it has room in a column of lists. */
const MOST = 54
/** Least that it is larger than in the view. */
const LEAST_GAIN = 2
/** Round the part, as a share of what it reaches. */
const AROUND = 1.15

export interface Detail {
  readonly centre: Point
  readonly radius: number
  /** Sheet mm a model mm. */
  readonly scale: number
}

/** The part with the axis it is bored about; null where it is large enough in a view at a scale, or no detail would help. */
export function detailOf({ bodies }: Mounted, scale: number): Detail | null {
  const points = bodies
    .filter((b) => b.body.effect === 'adds')
    .flatMap((b) => b.regions.flatMap((r) => flattenRegion(r, 0.1).flat()))
  const part = boxOf(points)
  if (!part || Math.max(part.width, part.height) * scale >= SMALL) return null
  const { centre } = boxOf([...points, { x: 0, y: 0 }])!
  const reach = Math.max(
    Math.hypot(centre.x, centre.y),
    ...points.map((p) => Math.hypot(p.x - centre.x, p.y - centre.y)),
  )
  const radius = reach * AROUND
  const found = SCALES.find((s) => 2 * radius * s <= MOST)
  return found && found >= LEAST_GAIN * scale ? { centre, radius, scale: found } : null
}

function boxOf(points: readonly Point[]): { centre: Point; width: number; height: number } | null {
  if (points.length === 0) return null
  const xs = points.map((p) => p.x)
  const ys = points.map((p) => p.y)
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
  return { centre: { x: (x0 + x1) / 2, y: (y0 + y1) / 2 }, width: x1 - x0, height: y1 - y0 }
}
