/** A raster of what is already drawn, for telling free ground from taken ground. Sheet mm. */
import type { Point } from '../../geometry/types.ts'
import { flattenRing } from '../../geometry/flatten.ts'
import { circleRing } from '../../geometry/edges.ts'
import { PAPER_TOLERANCE } from '../../geometry/tolerance.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { subPaths } from '../model/subPaths.ts'
import { quadCorners, type Quad } from './quad.ts'

/** mm. Half a millimetre is the clear space that a thin line needs to stay a line of its own. */
const CELL = 0.5

/** Sine of a turn that moves no text by a cell. */
const LEVEL = 1e-9
const LINE = 1
const BODY = 2

export interface Bounds {
  readonly x0: number
  readonly y0: number
  readonly x1: number
  readonly y1: number
}

export class InkMap {
  readonly bounds: Bounds
  private readonly columns: number
  private readonly rows: number
  private readonly cells: Uint8Array
  private sums: Int32Array | null = null

  constructor(bounds: Bounds) {
    this.bounds = bounds
    this.columns = Math.max(1, Math.ceil((bounds.x1 - bounds.x0) / CELL))
    this.rows = Math.max(1, Math.ceil((bounds.y1 - bounds.y0) / CELL))
    this.cells = new Uint8Array(this.columns * this.rows)
  }

  /** Marks the lines of what is drawn; text is left to whoever places it. */
  addLines(primitives: readonly PlainPrimitive[]): void {
    this.sums = null
    for (const p of primitives) {
      if (p.kind === 'text') continue
      const runs = p.kind === 'circle' ? [circleRun(p.centre, p.radius)] : subPaths(p.steps).map(flatRun)
      for (const run of runs) {
        for (let i = 0; i + 1 < run.length; i++) this.line(run[i]!, run[i + 1]!)
      }
    }
  }

  /** Marks the ground within closed outlines (even-odd) as one that takes no labels. */
  addBody(outlines: readonly (readonly Point[])[]): void {
    this.sums = null
    for (let row = 0; row < this.rows; row++) {
      const y = this.bounds.y0 + (row + 0.5) * CELL
      const xs = crossingsAt(outlines, y)
      for (let i = 0; i + 1 < xs.length; i += 2) {
        const from = Math.max(0, Math.floor((xs[i]! - this.bounds.x0) / CELL))
        const to = Math.min(this.columns - 1, Math.floor((xs[i + 1]! - this.bounds.x0) / CELL))
        for (let c = from; c <= to; c++) this.cells[row * this.columns + c]! |= BODY
      }
    }
  }

  isWithin(p: Point): boolean {
    return this.at(p.x, p.y) >= 0
  }

  /** Whether a quad lies within the bounds. */
  holds(q: Quad): boolean {
    return quadCorners(q).every((p) => this.isWithin(p))
  }

  /** Whether a quad lies within the bounds and on no ink. */
  isFree(q: Quad, gap: number): boolean {
    const w = q.width / 2 + gap
    const h = q.height / 2 + gap
    if (Math.abs(q.along.y) < LEVEL) return this.isFreeBox(q.centre, w, h)
    if (Math.abs(q.along.x) < LEVEL) return this.isFreeBox(q.centre, h, w)
    const across = Math.max(1, Math.ceil((2 * w) / CELL))
    const up = Math.max(1, Math.ceil((2 * h) / CELL))
    for (let i = 0; i <= across; i++) {
      for (let j = 0; j <= up; j++) {
        const u = -w + (2 * w * i) / across
        const v = -h + (2 * h * j) / up
        const x = q.centre.x + u * q.along.x - v * q.along.y
        const y = q.centre.y + u * q.along.y + v * q.along.x
        if (this.at(x, y) !== 0) return false
      }
    }
    return true
  }

  /** The same for a level box of half sizes w and h, by the count of inked cells in it. */
  private isFreeBox({ x, y }: Point, w: number, h: number): boolean {
    const c0 = this.column(x - w)
    const c1 = this.column(x + w)
    const r0 = this.row(y - h)
    const r1 = this.row(y + h)
    if (c0 < 0 || r0 < 0 || c1 >= this.columns || r1 >= this.rows) return false
    const sums = (this.sums ??= this.sumUp())
    const wide = this.columns + 1
    const at = (row: number, column: number): number => sums[row * wide + column]!
    return at(r1 + 1, c1 + 1) - at(r0, c1 + 1) - at(r1 + 1, c0) + at(r0, c0) === 0
  }

  /** Inked cells below and left of each corner of the raster. */
  private sumUp(): Int32Array {
    const wide = this.columns + 1
    const sums = new Int32Array(wide * (this.rows + 1))
    for (let row = 0; row < this.rows; row++) {
      let inRow = 0
      for (let column = 0; column < this.columns; column++) {
        if (this.cells[row * this.columns + column] !== 0) inRow++
        sums[(row + 1) * wide + column + 1] = sums[row * wide + column + 1]! + inRow
      }
    }
    return sums
  }

  private column(x: number): number {
    return Math.floor((x - this.bounds.x0) / CELL)
  }

  private row(y: number): number {
    return Math.floor((y - this.bounds.y0) / CELL)
  }

  /** How many lines a segment runs over (runs of inked cells), and mm of it over bodies. */
  along(a: Point, b: Point): { lines: number; body: number } {
    const steps = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / CELL))
    let lines = 0
    let body = 0
    let wasLine = false
    for (let i = 0; i <= steps; i++) {
      const t = i / steps
      const cell = this.at(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t)
      const isLine = cell >= 0 && (cell & LINE) !== 0
      if (isLine && !wasLine) lines++
      // A line drawn along another counts for its length.
      else if (isLine) lines += 0.2
      if (cell >= 0 && (cell & BODY) !== 0) body += CELL
      wasLine = isLine
    }
    return { lines, body }
  }

  /** What a cell holds; -1 outside. */
  private at(x: number, y: number): number {
    const column = this.column(x)
    const row = this.row(y)
    if (column < 0 || row < 0 || column >= this.columns || row >= this.rows) return -1
    return this.cells[row * this.columns + column]!
  }

  private line(a: Point, b: Point): void {
    const clipped = clipToBounds(a, b, this.bounds)
    if (!clipped) return
    const [p, q] = clipped
    const steps = Math.max(1, Math.ceil(Math.hypot(q.x - p.x, q.y - p.y) / (CELL / 2)))
    for (let i = 0; i <= steps; i++) {
      const t = i / steps
      const column = Math.floor((p.x + (q.x - p.x) * t - this.bounds.x0) / CELL)
      const row = Math.floor((p.y + (q.y - p.y) * t - this.bounds.y0) / CELL)
      if (column >= 0 && row >= 0 && column < this.columns && row < this.rows)
        this.cells[row * this.columns + column]! |= LINE
    }
  }
}

function circleRun(centre: Point, radius: number): Point[] {
  if (!(radius > 0)) return [centre]
  const ring = flattenRing(circleRing(centre, 2 * radius), PAPER_TOLERANCE.inkChord)
  return [...ring, ring[0]!]
}

function flatRun({ vertices, closed }: ReturnType<typeof subPaths>[number]): Point[] {
  const ring = flattenRing(closed ? vertices : openRing(vertices), PAPER_TOLERANCE.inkChord)
  return closed ? [...ring, ring[0]!] : ring
}

/** An open run as a ring whose closing edge is straight; flattening leaves the run's own points first. */
const openRing = (vertices: ReturnType<typeof subPaths>[number]['vertices']) =>
  vertices.map((v, i) => (i === vertices.length - 1 ? { x: v.x, y: v.y } : v))

function crossingsAt(outlines: readonly (readonly Point[])[], y: number): number[] {
  const xs: number[] = []
  for (const outline of outlines) {
    for (let i = 0; i < outline.length; i++) {
      const a = outline[i]!
      const b = outline[(i + 1) % outline.length]!
      if (a.y <= y === b.y <= y) continue
      xs.push(a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x))
    }
  }
  return xs.sort((p, q) => p - q)
}

function clipToBounds(a: Point, b: Point, box: Bounds): [Point, Point] | null {
  let t0 = 0
  let t1 = 1
  const dx = b.x - a.x
  const dy = b.y - a.y
  for (const [from, step, low, high] of [
    [a.x, dx, box.x0, box.x1],
    [a.y, dy, box.y0, box.y1],
  ] as const) {
    if (step === 0) {
      if (from < low || from > high) return null
      continue
    }
    const [near, far] = step > 0 ? [low, high] : [high, low]
    t0 = Math.max(t0, (near - from) / step)
    t1 = Math.min(t1, (far - from) / step)
  }
  if (t0 > t1) return null
  return [
    { x: a.x + dx * t0, y: a.y + dy * t0 },
    { x: a.x + dx * t1, y: a.y + dy * t1 },
  ]
}
