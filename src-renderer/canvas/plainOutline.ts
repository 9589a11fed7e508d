/** What of a long outline the screen can show: part of a pixel is left out. */
import { makeEdge, type Edge } from '../../src-core/geometry/edges.ts'
import type { Point, Ring } from '../../src-core/geometry/types.ts'
import { REACH } from '../editor/reach.ts'

type Run = Pick<Edge, 'b' | 'arc'>

/**
 * Edges of an outline, each from where the one before ended, at most 0.4 pixels off.
 *
 * @param scale pixels a millimetre
 */
export function plainOutline(ring: Ring, closed: boolean, scale: number): Run[] {
  const flat = REACH.paintedArc / scale
  const runs: Run[] = []
  const line = new Line(REACH.paintedVertex / scale, ring[0]!)
  const count = closed ? ring.length : ring.length - 1
  let last: Point = ring[0]!
  const to = (b: Point, arc: Run['arc']) => {
    runs.push({ b, arc })
    last = b
    line.begin(b)
  }
  for (let i = 0; i < count; i++) {
    const a = ring[i]!
    const b = ring[i + 1 === ring.length ? 0 : i + 1]!
    const bulge = a.bulge ?? 0
    const isArc = bulge !== 0 && Math.abs(bulge) * Math.hypot(b.x - a.x, b.y - a.y) > 2 * flat
    if (a !== last && (isArc || !line.reaches(b))) to(a, null)
    if (isArc) to(b, makeEdge(a, b, bulge).arc)
    else line.pass(b)
  }
  const end = ring[count === ring.length ? 0 : count]!
  if (end !== last || runs.length === 0) to(end, null)
  return runs
}

/**
 * The lines from a point that pass all vertices since within a distance: a wedge of directions, narrowed by each vertex
 * (after J. Sklansky and V. Gonzalez, Pattern Recognition 12, 1980).
 */
class Line {
  private readonly near: number
  private from: Point
  private far = 0
  private lowX = 0
  private lowY = 0
  private highX = 0
  private highY = 0

  constructor(near: number, from: Point) {
    this.near = near
    this.from = from
  }

  begin(from: Point): void {
    this.from = from
    this.far = 0
  }

  /** Whether a line straight to `p` passes them; one that turns back does not. */
  reaches(p: Point): boolean {
    if (this.far === 0) return true
    const x = p.x - this.from.x
    const y = p.y - this.from.y
    if (Math.hypot(x, y) < this.far) return false
    return this.lowX * y - this.lowY * x >= 0 && x * this.highY - y * this.highX >= 0
  }

  pass(p: Point): void {
    const x = p.x - this.from.x
    const y = p.y - this.from.y
    const distance = Math.hypot(x, y)
    if (distance <= this.near) return
    const sin = this.near / distance
    const cos = Math.sqrt(1 - sin * sin)
    const lowX = x * cos + y * sin
    const lowY = y * cos - x * sin
    const highX = x * cos - y * sin
    const highY = y * cos + x * sin
    if (this.far === 0 || this.lowX * lowY - this.lowY * lowX > 0) {
      this.lowX = lowX
      this.lowY = lowY
    }
    if (this.far === 0 || highX * this.highY - highY * this.highX > 0) {
      this.highX = highX
      this.highY = highY
    }
    this.far = Math.max(this.far, distance)
  }
}
