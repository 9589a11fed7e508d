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
  const least = (r: number, k: number, ways: readonly Way[]): number =>
    Math.min(
      ...ways.map(([dr, dk, long]) => {
        const [row, column] = [r + dr, k + dk]
        if (row < 0 || column < 0 || row >= rows || column >= columns) return 0
        const there = row * columns + column
        return owners[there] === owners[r * columns + k] ? away[there]! + long : long / 2
      }),
    )
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

type Way = readonly [rows: number, columns: number, long: number]

/** Neighbours that a sweep has been at, from below and from above. */
const BEFORE: readonly Way[] = [
  [0, -1, 1],
  [-1, -1, Math.SQRT2],
  [-1, 0, 1],
  [-1, 1, Math.SQRT2],
]
const AFTER: readonly Way[] = BEFORE.map(([dr, dk, long]) => [-dr, -dk, long])
