/** A photograph squared up: each point of a grid over the plan takes its colour from where the picture shows it. */
import type { Point } from '../geometry/types.ts'
import { multiply, project, weight, type Matrix3 } from './matrix.ts'
import type { PlanMap } from './planMap.ts'

/** Pixels in rows from the top, four bytes each: red, green, blue, opacity. */
export interface Pixels {
  readonly width: number
  readonly height: number
  readonly data: Uint8ClampedArray<ArrayBuffer>
}

/** Where a squared-up picture lies: its upper left corner in the plan, mm, and its pixels a millimetre. */
export interface Sheet {
  readonly width: number
  readonly height: number
  readonly corner: Point
  readonly pxPerMm: number
}

/** Toward the horizon the plane runs off to infinity; nearer to it than this share of the middle's weight is cut off. */
const HORIZON = 0.2

/** The part of a picture that shows the plan's plane, as corners in the plan, mm. Empty where nothing of it does. */
export function pictureInPlan(map: PlanMap, width: number, height: number): Point[] {
  const corners = [
    { x: 0, y: 0 },
    { x: width, y: 0 },
    { x: width, y: height },
    { x: 0, y: height },
  ]
  const over = (p: Point) => weight(map.toPlan, p) - HORIZON
  return corners
    .flatMap((p, i) => {
      const q = corners[(i + 1) % 4]!
      const [a, b] = [over(p), over(q)]
      const kept = a >= 0 ? [p] : []
      if (a >= 0 === b >= 0) return kept
      const t = a / (a - b)
      return [...kept, { x: p.x + t * (q.x - p.x), y: p.y + t * (q.y - p.y) }]
    })
    .map((p) => project(map.toPlan, p))
}

/** A sheet for a picture's whole plan, as fine as the picture is about its middle, of at most `most` pixels a side. */
export function sheetFor(map: PlanMap, width: number, height: number, most: number): Sheet | null {
  const corners = pictureInPlan(map, width, height)
  if (corners.length < 3) return null
  const xs = corners.map((p) => p.x)
  const ys = corners.map((p) => p.y)
  const [x0, y1] = [Math.min(...xs), Math.max(...ys)]
  const [w, h] = [Math.max(...xs) - x0, y1 - Math.min(...ys)]
  const [a, b, c, d, e, f, g, i, j] = map.toPixel
  // The Jacobian of a projective map is its determinant over the cube of its weight, here 1.
  const det = a * (e * j - f * i) - b * (d * j - f * g) + c * (d * i - e * g)
  const pxPerMm = Math.min(Math.sqrt(Math.abs(det)), most / w, most / h)
  const across = (mm: number) => Math.max(1, Math.min(most, Math.ceil(mm * pxPerMm)))
  return { width: across(w), height: across(h), corner: { x: x0, y: y1 }, pxPerMm }
}

/** The sheet's pixels, each blended of the four nearest in the picture; clear where the picture does not reach. */
export function warpPixels(picture: Pixels, map: PlanMap, sheet: Sheet): Pixels {
  const { width, height, corner, pxPerMm } = sheet
  const fromSheet: Matrix3 = [1 / pxPerMm, 0, corner.x, 0, -1 / pxPerMm, corner.y, 0, 0, 1]
  const m = multiply(map.toPixel, fromSheet)
  const data = new Uint8ClampedArray(4 * width * height)
  for (let row = 0; row < height; row++)
    for (let column = 0; column < width; column++) {
      const at = { x: column + 0.5, y: row + 0.5 }
      if (weight(m, at) > 0) blend(picture, project(m, at), data, 4 * (row * width + column))
    }
  return { width, height, data }
}

/** Writes the colour at a point of the picture; nothing outside of it. */
function blend({ width, height, data }: Pixels, p: Point, out: Uint8ClampedArray, at: number): void {
  if (!(p.x >= 0 && p.y >= 0 && p.x < width && p.y < height)) return
  const x = Math.min(width - 1, Math.max(0, p.x - 0.5))
  const y = Math.min(height - 1, Math.max(0, p.y - 0.5))
  const x0 = Math.floor(x)
  const y0 = Math.floor(y)
  const right = x0 + 1 < width ? 4 : 0
  const below = y0 + 1 < height ? 4 * width : 0
  const fx = x - x0
  const fy = y - y0
  const i = 4 * (y0 * width + x0)
  for (let k = 0; k < 4; k++)
    out[at + k] =
      (1 - fy) * ((1 - fx) * data[i + k]! + fx * data[i + right + k]!) +
      fy * ((1 - fx) * data[i + below + k]! + fx * data[i + below + right + k]!)
}
