/** Section hatching: narrow lines at 45°, clipped to outlines. Sheet mm. */
import type { Point } from '../../geometry/types.ts'
import type { PathPrimitive, PathStep } from '../model/model.ts'
import type { Segment } from '../placing/quad.ts'

/** Distances between hatch lines, mm: things that touch differ in it or in the way they fall. */
export const WIDE_HATCH = 2.4
export const NARROW_HATCH = 1.5
/** A view with more lines than this is hatched wider. */
const MOST_LINES = 400

/**
 * Hatch lines over the ground within closed outlines (even-odd), given as segments in any order. `sense` 1 rises to
 * the right, -1 falls. The lines of one hatching lie on one grid, so parts of one piece match. One path.
 */
export function hatching(outline: readonly Segment[], sense: 1 | -1, apart = WIDE_HATCH): PathPrimitive[] {
  // Turned so that hatch lines are level: `across` is constant on one.
  const turned = outline.map(({ a, b }) => ({ a: turn(a, sense), b: turn(b, sense) }))
  const all = turned.flatMap(({ a, b }) => [a.across, b.across])
  if (all.length === 0) return []
  const low = Math.min(...all)
  const high = Math.max(...all)
  const spacing = apart * Math.max(1, Math.ceil((high - low) / apart / MOST_LINES))
  const steps: PathStep[] = []
  for (let k = Math.ceil(low / spacing); k * spacing < high; k++) {
    const level = k * spacing
    const hits = turned
      .filter(({ a, b }) => a.across <= level !== b.across <= level)
      .map(({ a, b }) => a.along + ((level - a.across) / (b.across - a.across)) * (b.along - a.along))
      .sort((p, q) => p - q)
    for (let i = 0; i + 1 < hits.length; i += 2) {
      if (hits[i + 1]! - hits[i]! < 0.1) continue
      const p = back(hits[i]!, level, sense)
      const q = back(hits[i + 1]!, level, sense)
      steps.push({ to: 'move', x: p.x, y: p.y }, { to: 'line', x: q.x, y: q.y })
    }
  }
  return steps.length > 0 ? [{ kind: 'path', layer: 'hatch', steps, fill: 'none' }] : []
}

const turn = (p: Point, sense: 1 | -1) => ({
  along: (p.x + sense * p.y) * Math.SQRT1_2,
  across: (p.y - sense * p.x) * Math.SQRT1_2,
})

const back = (along: number, across: number, sense: 1 | -1): Point => ({
  x: (along - sense * across) * Math.SQRT1_2,
  y: (sense * along + across) * Math.SQRT1_2,
})

/** The edges of closed rings. */
export const ringSegments = (rings: readonly (readonly Point[])[]): Segment[] =>
  rings.flatMap((ring) => ring.map((a, i) => ({ a, b: ring[(i + 1) % ring.length]! })))
