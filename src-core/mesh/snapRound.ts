/**
 * Snap rounding: directed segments between grid points become segments that meet at their ends only, each within
 * about 0.7 of a grid unit of where it was. Every end and every crossing marks the unit square (pixel) it lies in,
 * and each segment is led through the middles of all marked pixels that it passes (J. D. Hobby, "Practical segment
 * intersection with finite precision output", Computational Geometry 13(4), 1999).
 */
import { EdgeTable } from './edgeTable.ts'
import { Grid, type Cells } from './grid.ts'
import type { PointTable } from './pointTable.ts'

/** `times`: how often a segment is run from `from` to `to`, negative for the other way. */
export interface Segments {
  readonly from: Int32Array
  readonly to: Int32Array
  readonly times: Int32Array
}

/** Caps on work, so that no input takes longer than about a second. */
const MOST_CELL_ENTRIES = 4_000_000
const MOST_PAIRS = 20_000_000
const MOST_CROSSINGS = 400_000

/** A sideways nudge of the pixels, so that no segment between grid points passes exactly through their corners. */
const NUDGE_X = 0.0137
const NUDGE_Y = 0.0219

/** Adds the crossings to `points`. Null where the segments are too intricate for the caps. */
export function snapRound(points: PointTable, segments: Segments): EdgeTable | null {
  const count = segments.from.length
  const { xs, ys } = points
  let width = 0
  let height = 0
  for (let i = 0; i < points.count; i++) {
    width = Math.max(width, xs[i]!)
    height = Math.max(height, ys[i]!)
  }
  for (const share of [2, 16]) {
    const grid = new Grid(width + 1, height + 1, Math.min(1 << 20, share * count + 16))
    const cells = grid.sort(count, MOST_CELL_ENTRIES, (s, visit) => {
      const a = segments.from[s]!
      const b = segments.to[s]!
      grid.alongSegment(xs[a]!, ys[a]!, xs[b]!, ys[b]!, 1, visit)
    })
    if (!cells || pairCount(cells) > MOST_PAIRS) continue
    if (!markCrossings(points, segments, cells)) return null
    return route(points, segments, grid)
  }
  return null
}

function pairCount({ starts }: Cells): number {
  let pairs = 0
  for (let c = 0; c + 1 < starts.length; c++) {
    const n = starts[c + 1]! - starts[c]!
    pairs += (n * (n - 1)) / 2
  }
  return pairs
}

function markCrossings(points: PointTable, { from, to }: Segments, { starts, items }: Cells): boolean {
  const { xs, ys } = points
  let crossings = 0
  for (let c = 0; c + 1 < starts.length; c++) {
    for (let i = starts[c]!; i < starts[c + 1]!; i++) {
      const p = items[i]!
      const a = from[p]!
      const b = to[p]!
      const ax = xs[a]!
      const ay = ys[a]!
      const ux = xs[b]! - ax
      const uy = ys[b]! - ay
      for (let j = i + 1; j < starts[c + 1]!; j++) {
        const q = items[j]!
        const d = from[q]!
        const e = to[q]!
        if (d === a || d === b || e === a || e === b) continue
        const dx = xs[d]! - ax
        const dy = ys[d]! - ay
        const ex = xs[e]! - ax
        const ey = ys[e]! - ay
        const sd = ux * dy - uy * dx
        const se = ux * ey - uy * ex
        if (sd === 0 || se === 0 || sd > 0 === se > 0) continue
        const wx = ex - dx
        const wy = ey - dy
        const sa = wy * dx - wx * dy
        const sb = wx * (uy - dy) - wy * (ux - dx)
        if (sa === 0 || sb === 0 || sa > 0 === sb > 0) continue
        const t = sd / (sd - se)
        // The nudge moves the pixels' corners off the places where symmetric drawings put crossings.
        points.add(Math.round(ax + dx + t * wx + NUDGE_X), Math.round(ay + dy + t * wy + NUDGE_Y))
        if (++crossings > MOST_CROSSINGS) return false
      }
    }
  }
  return true
}

/** Leads every segment through the marked pixels on its way. */
function route(points: PointTable, { from, to, times }: Segments, grid: Grid): EdgeTable | null {
  const { xs, ys } = points
  const pixels = grid.sort(points.count, MOST_CELL_ENTRIES, (p, visit) => {
    grid.alongSegment(xs[p]!, ys[p]!, xs[p]!, ys[p]!, 1, visit)
  })
  if (!pixels) return null
  const legs: number[] = []
  const onWay: { point: number; along: number }[] = []
  for (let s = 0; s < from.length; s++) {
    const a = from[s]!
    const b = to[s]!
    const ax = xs[a]!
    const ay = ys[a]!
    const ux = xs[b]! - ax
    const uy = ys[b]! - ay
    const half = (Math.abs(ux) + Math.abs(uy)) / 2
    onWay.length = 0
    grid.alongSegment(ax, ay, ax + ux, ay + uy, 1, (cell) => {
      for (let i = pixels.starts[cell]!; i < pixels.starts[cell + 1]!; i++) {
        const p = pixels.items[i]!
        // Place of the pixel's middle seen from the segment's (nudged) beginning.
        const x = xs[p]! - ax - NUDGE_X
        const y = ys[p]! - ay - NUDGE_Y
        if (Math.abs(ux * y - uy * x) > half) continue
        if (x < Math.min(0, ux) - 0.5 || x > Math.max(0, ux) + 0.5) continue
        if (y < Math.min(0, uy) - 0.5 || y > Math.max(0, uy) + 0.5) continue
        onWay.push({ point: p, along: ux * x + uy * y })
      }
    })
    onWay.sort((p, q) => p.along - q.along)
    let last = a
    for (const { point } of onWay) {
      if (point === last) continue
      legs.push(last, point, times[s]!)
      last = point
    }
    if (last !== b) legs.push(last, b, times[s]!)
  }
  const edges = new EdgeTable(legs.length / 3)
  for (let i = 0; i < legs.length; i += 3) edges.add(legs[i]!, legs[i + 1]!, legs[i + 2]!)
  return edges
}
