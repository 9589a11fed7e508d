/**
 * Winding numbers in the faces of a plane drawing whose directed edges meet at their ends only. Crossing an edge that
 * is run n times from right to left raises the winding number by n; far outside it is 0.
 */
import type { EdgeTable } from './edgeTable.ts'
import { Grid } from './grid.ts'
import type { PointTable } from './pointTable.ts'

/** Half-edge 2e runs edge e from its low to its high vertex, 2e + 1 back. Those out of a vertex lie counter-clockwise. */
export interface Windings {
  /** Half-edges that leave vertex v: out[starts[v]] up to out[starts[v + 1]]. */
  readonly starts: Int32Array
  readonly out: Int32Array
  /** Winding number on the left of each half-edge. */
  readonly left: Int32Array
}

const UNKNOWN = -2147483648
const MOST_ENTRIES = 8_000_000

export const tail = (edges: EdgeTable, h: number) => (h & 1 ? edges.high[h >> 1]! : edges.low[h >> 1]!)
export const head = (edges: EdgeTable, h: number) => (h & 1 ? edges.low[h >> 1]! : edges.high[h >> 1]!)
const times = (edges: EdgeTable, h: number) => (h & 1 ? -edges.net[h >> 1]! : edges.net[h >> 1]!)

/** Null where the drawing turns out not to be consistent, or is too intricate. */
export function windings(points: PointTable, edges: EdgeTable): Windings | null {
  const { starts, out } = leaving(points, edges)
  const left = new Int32Array(2 * edges.count).fill(UNKNOWN)
  const outside = outsideWinding(points, edges)
  if (!outside) return null
  // Left to right, so that the first vertex of each connected piece is its leftmost.
  const order = Int32Array.from({ length: points.count }, (_, v) => v)
  const { xs, ys } = points
  order.sort((p, q) => xs[p]! - xs[q]! || ys[p]! - ys[q]!)
  const queue: number[] = []
  for (const seed of order) {
    if (starts[seed] === starts[seed + 1] || left[out[starts[seed]!]!] !== UNKNOWN) continue
    const first = out[starts[seed]!]!
    setLeft(left, edges, first, outside(seed) + times(edges, first))
    queue.push(seed)
    while (queue.length > 0) {
      if (!spread(queue.pop()!, edges, starts, out, left, queue)) return null
    }
  }
  return { starts, out, left }
}

function setLeft(left: Int32Array, edges: EdgeTable, h: number, winding: number): void {
  left[h] = winding
  left[h ^ 1] = winding - times(edges, h)
}

/** Carries the winding number once round a vertex and on to its neighbours. */
function spread(
  v: number,
  edges: EdgeTable,
  starts: Int32Array,
  out: Int32Array,
  left: Int32Array,
  queue: number[],
): boolean {
  const begin = starts[v]!
  const degree = starts[v + 1]! - begin
  let known = 0
  while (left[out[begin + known]!] === UNKNOWN) known++
  let winding = left[out[begin + known]!]!
  for (let k = 1; k <= degree; k++) {
    const h = out[begin + ((known + k) % degree)]!
    winding += times(edges, h)
    if (left[h] === UNKNOWN) {
      setLeft(left, edges, h, winding)
      queue.push(head(edges, h))
    } else if (left[h] !== winding) return false
  }
  return true
}

/** Half-edges with a net run, by the vertex they leave, counter-clockwise from the direction −x (itself last). */
function leaving({ xs, ys, count }: PointTable, edges: EdgeTable): { starts: Int32Array; out: Int32Array } {
  const starts = new Int32Array(count + 1)
  let total = 0
  for (let h = 0; h < 2 * edges.count; h++) {
    if (edges.net[h >> 1] === 0) continue
    const v = tail(edges, h)
    starts[v + 1] = starts[v + 1]! + 1
    total++
  }
  for (let v = 1; v <= count; v++) starts[v] = starts[v]! + starts[v - 1]!
  const fill = starts.slice()
  const out = new Int32Array(total)
  for (let h = 0; h < 2 * edges.count; h++) {
    if (edges.net[h >> 1] === 0) continue
    const v = tail(edges, h)
    out[fill[v]!] = h
    fill[v] = fill[v]! + 1
  }
  const across = (h: number) => xs[head(edges, h)]! - xs[tail(edges, h)]!
  const up = (h: number) => ys[head(edges, h)]! - ys[tail(edges, h)]!
  // Below, level to the right, above, level to the left.
  const half = (h: number) => (up(h) < 0 ? 0 : up(h) > 0 ? 2 : across(h) > 0 ? 1 : 3)
  for (let v = 0; v < count; v++) {
    if (starts[v + 1]! - starts[v]! < 2) continue
    out
      .subarray(starts[v]!, starts[v + 1]!)
      .sort((p, q) => half(p) - half(q) || up(p) * across(q) - across(p) * up(q))
  }
  return { starts, out }
}

/** The winding number just left of the leftmost vertex of a connected piece: what lies above decides. */
function outsideWinding({ xs, ys }: PointTable, edges: EdgeTable): ((v: number) => number) | null {
  let width = 0
  for (const x of xs) if (x > width) width = x
  // One row of cells: columns of the drawing.
  const grid = new Grid(width + 1, 0, Math.min(4096, edges.count + 1))
  const cells = grid.sort(edges.count, MOST_ENTRIES, (e, visit) => {
    if (edges.net[e] !== 0) grid.alongSegment(xs[edges.low[e]!]!, 0, xs[edges.high[e]!]!, 0, 1, visit)
  })
  if (!cells) return null
  return (v) => {
    const x = xs[v]!
    const y = ys[v]!
    let winding = 0
    let cell = 0
    grid.alongSegment(x, 0, x, 0, 0, (c) => (cell = c))
    for (let i = cells.starts[cell]!; i < cells.starts[cell + 1]!; i++) {
      const e = cells.items[i]!
      let a = edges.low[e]!
      let b = edges.high[e]!
      let net = edges.net[e]!
      if (xs[a]! > xs[b]!) [a, b, net] = [b, a, -net]
      if (!(xs[a]! < x && x <= xs[b]!)) continue
      const above = (xs[b]! - xs[a]!) * (y - ys[a]!) - (ys[b]! - ys[a]!) * (x - xs[a]!) < 0
      if (above) winding -= net
    }
    return winding
  }
}
