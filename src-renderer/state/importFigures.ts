/** What a file would bring into the job, before it does. */
import { partMass } from '../../src-core/mass/part.ts'
import { isPrism, type Body, type Part } from '../../src-core/job/schema.ts'
import type { Preview } from '../../src-core/import/types.ts'
import { significant } from '../../src-core/units/format.ts'
import { meshBox } from '../../src-core/mesh/properties.ts'
import { ringBox } from '../editor/draw/rings.ts'

export interface ImportFigures {
  /** mm over all: left to right, bottom to top, seat to front. */
  readonly x: number
  readonly y: number
  readonly z: number
  readonly mass_kg: number
}

/** What was read over all, in the file's own numbers, by which one tells its unit: 100 × 40. Null where nothing was. */
export function spanWords({ outlines, solid }: Preview): string | null {
  const points = solid
    ? Array.from({ length: solid.triangles.length / 3 }, (_, i) => solid.triangles.subarray(3 * i, 3 * i + 3))
    : outlines.flatMap(({ outline }) => {
        const { x0, y0, x1, y1 } = ringBox(outline)
        return [
          [x0, y0],
          [x1, y1],
        ]
      })
  const [first, ...rest] = points
  if (first === undefined) return null
  const low = Array.from(first)
  const high = [...low]
  for (const point of rest)
    point.forEach((v, k) => {
      low[k] = Math.min(low[k]!, v)
      high[k] = Math.max(high[k]!, v)
    })
  return high.map((v, k) => significant(v - low[k]!, 4)).join(' × ')
}

/** Sizes over all and mass of bodies at the part's density; null without bodies or where they cannot be weighed. */
export function importFigures(part: Part, bodies: readonly Body[]): ImportFigures | null {
  if (bodies.length === 0) return null
  const boxes = bodies.map((body) => {
    if (isPrism(body)) {
      const { x0, y0, x1, y1 } = ringBox(body.outline)
      return { low: [x0, y0, body.base], high: [x1, y1, body.base + body.thickness] }
    }
    const { low, high } = meshBox(body.mesh)
    return { low: [low[0], low[1], low[2] + body.base], high: [high[0], high[1], high[2] + body.base] }
  })
  const over = (k: number) =>
    Math.max(...boxes.map((b) => b.high[k]!)) - Math.min(...boxes.map((b) => b.low[k]!))
  try {
    const { computedMass } = partMass({ ...part, bodies: [...bodies], bores: [], weighedMass: null }, [])
    return { x: over(0), y: over(1), z: over(2), mass_kg: computedMass }
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}
