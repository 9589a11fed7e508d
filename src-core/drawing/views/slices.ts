/**
 * Upright solids against the upright plane through the axis, seen from the operator's side (from -x): what the plane
 * cuts, what lies beyond it, what stands before it. Plate frame, mm.
 */
import { flattenRing } from '../../geometry/flatten.ts'
import { boxOf } from '../../geometry/polygonBox.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point, Ring } from '../../geometry/types.ts'
import { sectionRanges } from './section.ts'

export type Range = readonly [low: number, high: number]

export interface Slice {
  /** What of it stands before the plane: its levels; null where nothing does. */
  readonly before: Range | null
  /** What of it lies on or beyond the plane: its levels and how near it comes; null where nothing does. */
  readonly beyond: { readonly y: Range; readonly x: number } | null
  /** Levels at which the plane cuts it. */
  readonly cut: readonly Range[]
}

export function slice(ring: Ring, holes: readonly Ring[] = []): Slice {
  const points = flattenRing(ring, TOLERANCE.clashChord)
  const side = (sign: 1 | -1): Point[] => {
    const kept = halfPlane(points, sign)
    // A ring that only touches the plane has nothing on that side.
    return kept.some((p) => p.x * sign > TOLERANCE.height) ? kept : []
  }
  const [behind, front] = [side(1), side(-1)]
  const [far, near] = [boxOf([behind]), boxOf([front])]
  return {
    before: front.length > 0 ? [near.y0, near.y1] : null,
    beyond: behind.length > 0 ? { y: [far.y0, far.y1], x: Math.max(0, far.x0) } : null,
    cut: sectionRanges({ outline: ring, holes }),
  }
}

/** A polygon's part on one side of x = 0. */
function halfPlane(points: readonly Point[], sign: 1 | -1): Point[] {
  return points.flatMap((p, i) => {
    const q = points[(i + 1) % points.length]!
    const out = p.x * sign >= 0 ? [p] : []
    if (p.x * sign >= 0 !== q.x * sign >= 0) out.push({ x: 0, y: p.y + (p.x / (p.x - q.x)) * (q.y - p.y) })
    return out
  })
}
