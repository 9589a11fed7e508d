/** A small picture of a solid as it lies, seen from the front, the right and above, without perspective. */
import { meshBox } from './properties.ts'

export interface Shaded {
  /** Pixels. */
  readonly width: number
  readonly height: number
  /** Row by row from the top: 0 where nothing is, else how light, 1 to 255. */
  readonly light: Uint8ClampedArray
}

const [C, S] = [Math.cos(Math.PI / 6), 0.5]
/** Rows: to the right on the picture, up on it, toward the eye. An isometric view (ISO 5456-3). */
const EYE = (() => {
  const up = Math.asin(1 / Math.sqrt(3))
  const [c, s] = [Math.cos(up), Math.sin(up)]
  const h = Math.SQRT1_2
  return [
    [h, h, 0],
    [-h * s, h * s, c],
    [h * c, -h * c, s],
  ] as const
})()
/** Where the light comes from, in the picture's own directions; of length 1. */
const LAMP = [-S * 0.5, C * 0.75, Math.sqrt(1 - (S * 0.5) ** 2 - (C * 0.75) ** 2)] as const
const SHADE = { least: 70, span: 165, edge: 0.45 } as const
/** Of the depth over all: a step that is an edge. */
const STEP = 0.02

/** z is up; triangles as nine numbers each, of any winding. */
export function shaded(triangles: Float64Array, width: number, height: number): Shaded {
  const seen = new Float64Array(triangles.length)
  for (let i = 0; i < triangles.length; i += 3)
    for (let k = 0; k < 3; k++)
      seen[i + k] =
        EYE[k]![0] * triangles[i]! + EYE[k]![1] * triangles[i + 1]! + EYE[k]![2] * triangles[i + 2]!
  const { low, high } = meshBox({ vertices: seen })
  const margin = 0.06
  const scale = Math.min(
    (width * (1 - 2 * margin)) / Math.max(1e-12, high[0]! - low[0]!),
    (height * (1 - 2 * margin)) / Math.max(1e-12, high[1]! - low[1]!),
  )
  for (let i = 0; i < seen.length; i += 3) {
    seen[i] = width / 2 + scale * (seen[i]! - (low[0]! + high[0]!) / 2)
    seen[i + 1] = height / 2 - scale * (seen[i + 1]! - (low[1]! + high[1]!) / 2)
  }
  const depth = new Float64Array(width * height).fill(-Infinity)
  const face = new Uint8ClampedArray(width * height)
  for (let i = 0; i < seen.length; i += 9) paintFacet(seen, i, scale, { width, height, depth, face })
  return { width, height, light: withEdges({ width, height, depth, face }, STEP * (high[2]! - low[2]!)) }
}

interface Canvas {
  readonly width: number
  readonly height: number
  readonly depth: Float64Array
  readonly face: Uint8ClampedArray
}

function paintFacet(p: Float64Array, at: number, scale: number, to: Canvas): void {
  const [ax, ay, az, bx, by, bz, cx, cy, cz] = p.subarray(at, at + 9) as unknown as number[] as [
    number, number, number, number, number, number, number, number, number,
  ] // prettier-ignore
  const double = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay)
  if (double === 0) return
  const light = lightOn([bx - ax, ay - by, scale * (bz - az)], [cx - ax, ay - cy, scale * (cz - az)])
  const [x0, x1] = [
    Math.max(0, Math.floor(Math.min(ax, bx, cx))),
    Math.min(to.width - 1, Math.ceil(Math.max(ax, bx, cx))),
  ]
  const [y0, y1] = [
    Math.max(0, Math.floor(Math.min(ay, by, cy))),
    Math.min(to.height - 1, Math.ceil(Math.max(ay, by, cy))),
  ]
  for (let y = y0; y <= y1; y++)
    for (let x = x0; x <= x1; x++) {
      // Shares of the three corners at the middle of the pixel.
      const [px, py] = [x + 0.5, y + 0.5]
      const u = ((bx - px) * (cy - py) - (cx - px) * (by - py)) / double
      const v = ((cx - px) * (ay - py) - (ax - px) * (cy - py)) / double
      const w = 1 - u - v
      if (u < 0 || v < 0 || w < 0) continue
      const z = u * az + v * bz + w * cz
      const i = y * to.width + x
      if (z <= to.depth[i]!) continue
      to.depth[i] = z
      to.face[i] = light
    }
}

/** By the angle between the lamp and the facet's side that is seen. */
function lightOn(u: readonly number[], v: readonly number[]): number {
  const n = [
    u[1]! * v[2]! - u[2]! * v[1]!,
    u[2]! * v[0]! - u[0]! * v[2]!,
    u[0]! * v[1]! - u[1]! * v[0]!,
  ] as const
  const length = Math.hypot(...n)
  if (length === 0) return SHADE.least
  const toward = Math.sign(n[2]) || 1
  const cosine = (toward * (n[0] * LAMP[0] + n[1] * LAMP[1] + n[2] * LAMP[2])) / length
  return SHADE.least + SHADE.span * Math.max(0, cosine)
}

/** Dark where a face ends: beside nothing, a step in depth or another light. */
function withEdges({ width, height, depth, face }: Canvas, step: number): Uint8ClampedArray {
  const light = face.slice()
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x
      if (face[i] === 0) continue
      const beside = [
        x + 1 < width ? i + 1 : i,
        y + 1 < height ? i + width : i,
        x > 0 ? i - 1 : i,
        y > 0 ? i - width : i,
      ]
      const ends = beside.some(
        (k, n) =>
          face[k] === 0 ||
          (n < 2 && (Math.abs(depth[k]! - depth[i]!) > step || Math.abs(face[k]! - face[i]!) > 12)),
      )
      if (ends) light[i] = face[i]! * SHADE.edge
    }
  return light
}
