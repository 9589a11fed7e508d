/** Where each owner of a picture's ground shows best. */
import type { Point } from '../../geometry/types.ts'
import type { DepthMap } from './depthMap.ts'

export interface Spot {
  readonly at: Point
  /** From there to the nearest ground of another, in the picture's own unit. */
  readonly clear: number
}

/** By the owner's number: the middle of the widest ground that shows of it. Distances by two sweeps of a chamfer. */
export function widestSpots(map: DepthMap): ReadonlyMap<number, Spot> {
  const { columns, rows, owners } = map
  const away = new Float32Array(columns * rows)
  /** The least of the ways over neighbours of the same owner; half a cell to that of another. */
  const least = (r: number, k: number, ways: readonly Way[]): number => {
    let shortest = Infinity
    for (const { rows: dr, columns: dk, long } of ways) {
      const [row, column] = [r + dr, k + dk]
      if (row < 0 || column < 0 || row >= rows || column >= columns) return 0
      const there = row * columns + column
      const way = owners[there] === owners[r * columns + k] ? away[there]! + long : long / 2
      if (way < shortest) shortest = way
    }
    return shortest
  }
  for (let r = 0; r < rows; r++) for (let k = 0; k < columns; k++) away[r * columns + k] = least(r, k, BEFORE)
  const best = new Map<number, Spot>()
  for (let r = rows - 1; r >= 0; r--)
    for (let k = columns - 1; k >= 0; k--) {
      const at = r * columns + k
      away[at] = Math.min(away[at]!, least(r, k, AFTER))
      const owner = owners[at]!
      const clear = away[at]! * map.cell
      if (owner > 0 && clear > (best.get(owner)?.clear ?? 0)) best.set(owner, { at: map.middle(at), clear })
    }
  return best
}

interface Way {
  readonly rows: number
  readonly columns: number
  readonly long: number
}

/** Neighbours that a sweep has been at, from below and from above. */
const BEFORE: readonly Way[] = [
  { rows: 0, columns: -1, long: 1 },
  { rows: -1, columns: -1, long: Math.SQRT2 },
  { rows: -1, columns: 0, long: 1 },
  { rows: -1, columns: 1, long: Math.SQRT2 },
]
const AFTER: readonly Way[] = BEFORE.map(({ rows, columns, long }) => ({
  rows: -rows,
  columns: -columns,
  long,
}))
