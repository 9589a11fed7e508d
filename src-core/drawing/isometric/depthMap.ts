/** What lies nearest to the eye at each cell of a picture, and whose it is. */
import { boxOf, type Box } from '../../geometry/polygonBox.ts'
import type { Point } from '../../geometry/types.ts'

/** A corner of a flat face on the picture, with how near it is. */
export interface Corner extends Point {
  readonly near: number
}

export class DepthMap {
  readonly cell: number
  readonly columns: number
  readonly rows: number
  /** Row by row; 0 where it is nobody's. */
  readonly owners: Uint16Array
  private readonly x0: number
  private readonly y0: number
  private readonly cells: Float32Array

  /** @param cell side of a cell, in the picture's own unit. */
  constructor(box: Box, cell: number) {
    this.cell = cell
    this.x0 = box.x0 - 2 * cell
    this.y0 = box.y0 - 2 * cell
    this.columns = Math.ceil((box.x1 - this.x0) / cell) + 3
    this.rows = Math.ceil((box.y1 - this.y0) / cell) + 3
    this.cells = new Float32Array(this.columns * this.rows).fill(-Infinity)
    this.owners = new Uint16Array(this.columns * this.rows)
  }

  /** A flat face with its holes (even-odd). Faces seen edge on leave nothing. */
  fill(rings: readonly (readonly Corner[])[], owner = 0): void {
    const plane = planeOf(rings[0] ?? [])
    if (!plane) return
    const { y0, y1 } = boxOf(rings)
    const low = Math.max(0, this.row(y0))
    const high = Math.min(this.rows - 1, this.row(y1))
    this.crossings(rings, low, high).forEach((xs, i) => {
      const y = this.y0 + (low + i + 0.5) * this.cell
      for (let k = 0; k + 1 < xs.length; k += 2) this.span(low + i, y, [xs[k]!, xs[k + 1]!], plane, owner)
    })
  }

  /** Where rings cross the middle of each row from `low` to `high`, in order; each edge is looked at in its own rows alone. */
  private crossings(rings: readonly (readonly Corner[])[], low: number, high: number): number[][] {
    const rows = Array.from({ length: Math.max(0, high - low + 1) }, (): number[] => [])
    const reached = (y: number) => Math.ceil((y - this.y0) / this.cell - 0.5)
    for (const ring of rings)
      ring.forEach((p, i) => {
        const q = ring[(i + 1) % ring.length]!
        const to = Math.min(high, reached(Math.max(p.y, q.y)) - 1)
        for (let r = Math.max(low, reached(Math.min(p.y, q.y))); r <= to; r++) {
          const y = this.y0 + (r + 0.5) * this.cell
          rows[r - low]!.push(p.x + ((y - p.y) / (q.y - p.y)) * (q.x - p.x))
        }
      })
    for (const xs of rows) xs.sort((a, b) => a - b)
    return rows
  }

  private span(
    r: number,
    y: number,
    [from, to]: readonly [number, number],
    { a, b, c }: Plane,
    owner: number,
  ): void {
    const first = Math.max(0, Math.ceil((from - this.x0) / this.cell - 0.5))
    const last = Math.min(this.columns - 1, Math.floor((to - this.x0) / this.cell - 0.5))
    for (let k = first; k <= last; k++) {
      const near = a * (this.x0 + (k + 0.5) * this.cell) + b * y + c
      const at = r * this.columns + k
      if (near <= this.cells[at]!) continue
      this.cells[at] = near
      this.owners[at] = owner
    }
  }

  /** Middle of a cell by its place in `owners`. */
  middle(cell: number): Point {
    return {
      x: this.x0 + ((cell % this.columns) + 0.5) * this.cell,
      y: this.y0 + (Math.floor(cell / this.columns) + 0.5) * this.cell,
    }
  }

  private row(y: number): number {
    return Math.floor((y - this.y0) / this.cell)
  }

  /** Whether a point shows: at it, or a cell beside it, nothing stands nearer by more than `slack`. */
  shows(p: Point, near: number, slack: number): boolean {
    const k = Math.floor((p.x - this.x0) / this.cell)
    const r = this.row(p.y)
    for (let j = r - 1; j <= r + 1; j++)
      for (let i = k - 1; i <= k + 1; i++) {
        if (i < 0 || j < 0 || i >= this.columns || j >= this.rows) return true
        if (this.cells[j * this.columns + i]! <= near + slack) return true
      }
    return false
  }
}

/** near = a·x + b·y + c */
interface Plane {
  readonly a: number
  readonly b: number
  readonly c: number
}

/** The plane of a ring's corners; null where it is seen edge on. */
function planeOf(ring: readonly Corner[]): Plane | null {
  // Newell's sums over all corners, so that no three of them in line spoil it.
  let nx = 0
  let ny = 0
  let nz = 0
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length]!
    nx += (p.y - q.y) * (p.near + q.near)
    ny += (p.near - q.near) * (p.x + q.x)
    nz += (p.x - q.x) * (p.y + q.y)
  })
  const first = ring[0]
  if (!first || Math.abs(nz) <= 1e-9 * (Math.abs(nx) + Math.abs(ny) + 1e-12)) return null
  const a = -nx / nz
  const b = -ny / nz
  return { a, b, c: first.near - a * first.x - b * first.y }
}
