/** Segments and points sorted into the square cells of a grid, so that only neighbours are compared. */
export interface Cells {
  /** Items of cell c: items[starts[c]] up to items[starts[c + 1]]. */
  readonly starts: Int32Array
  readonly items: Int32Array
}

export class Grid {
  readonly columns: number
  readonly rows: number
  private readonly size: number

  /** @param width,height of the area from (0, 0); `cells`: about how many cells it gets. */
  constructor(width: number, height: number, cells: number) {
    this.size = Math.max(1, Math.sqrt((width * height) / cells), Math.max(width, height) / cells)
    this.columns = Math.floor(width / this.size) + 1
    this.rows = Math.floor(height / this.size) + 1
  }

  private column(x: number): number {
    return Math.max(0, Math.min(this.columns - 1, Math.floor(x / this.size)))
  }

  private row(y: number): number {
    return Math.max(0, Math.min(this.rows - 1, Math.floor(y / this.size)))
  }

  /** Calls `visit` with every cell within `slack` of the segment, row by row. */
  alongSegment(
    ax: number,
    ay: number,
    bx: number,
    by: number,
    slack: number,
    visit: (cell: number) => void,
  ): void {
    const r0 = this.row(Math.min(ay, by) - slack)
    const r1 = this.row(Math.max(ay, by) + slack)
    const perRow = (bx - ax) / (by - ay)
    for (let r = r0; r <= r1; r++) {
      let x0 = Math.min(ax, bx)
      let x1 = Math.max(ax, bx)
      if (r0 !== r1 && ay !== by) {
        // The piece of the segment within this row, a little widened.
        const y0 = r * this.size - slack
        const y1 = (r + 1) * this.size + slack
        const p = ax + perRow * (clamp(y0, ay, by) - ay)
        const q = ax + perRow * (clamp(y1, ay, by) - ay)
        x0 = Math.max(x0, Math.min(p, q))
        x1 = Math.min(x1, Math.max(p, q))
      }
      const c1 = this.column(x1 + slack)
      for (let c = this.column(x0 - slack); c <= c1; c++) visit(r * this.columns + c)
    }
  }

  /** Sorts `count` items into cells; `cover` calls back with the cells of an item. Null beyond `most` entries. */
  sort(
    count: number,
    most: number,
    cover: (item: number, visit: (cell: number) => void) => void,
  ): Cells | null {
    const starts = new Int32Array(this.columns * this.rows + 1)
    let total = 0
    for (let i = 0; i < count; i++) {
      cover(i, (cell) => {
        starts[cell + 1] = starts[cell + 1]! + 1
        total++
      })
      if (total > most) return null
    }
    for (let c = 1; c < starts.length; c++) starts[c] = starts[c]! + starts[c - 1]!
    const fill = starts.slice()
    const items = new Int32Array(total)
    for (let i = 0; i < count; i++) {
      cover(i, (cell) => {
        items[fill[cell]!] = i
        fill[cell] = fill[cell]! + 1
      })
    }
    return { starts, items }
  }
}

function clamp(y: number, a: number, b: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), y))
}
