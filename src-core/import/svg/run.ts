/** Draws one run of edges in user units and keeps it mapped: lines, Béziers and elliptic arcs. */
import { FULL_TURN, turning } from '../../geometry/angles.ts'
import type { Point, Vertex } from '../../geometry/types.ts'
import { applyTo, applyToVector, type Affine } from '../../geometry/affine.ts'
import { ellipticArc } from '../chain.ts'
import { fitArcs, type Fit } from '../fitArcs.ts'

export class Run {
  readonly vertices: Vertex[]
  readonly start: Point
  /** Where the pen is, in user units. */
  pen: Point
  private readonly m: Affine
  private readonly fit: Fit

  constructor(start: Point, m: Affine, fit: Fit) {
    this.start = start
    this.pen = start
    this.m = m
    this.fit = fit
    this.vertices = [applyTo(m, start)]
  }

  private append(vertices: readonly Vertex[], to: Point): void {
    this.vertices.pop()
    for (const v of vertices) this.vertices.push(v)
    this.pen = to
  }

  lineTo(to: Point): void {
    this.fit.budget.vertex(this.fit.place)
    this.vertices.push(applyTo(this.m, to))
    this.pen = to
  }

  cubicTo(c1: Point, c2: Point, to: Point): void {
    const [p, q, r, s] = [this.pen, c1, c2, to].map((point) => applyTo(this.m, point)) as [
      Point,
      Point,
      Point,
      Point,
    ]
    const at = (t: number): Point => {
      const u = 1 - t
      const [a, b, c, d] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t] as const
      return { x: a * p.x + b * q.x + c * r.x + d * s.x, y: a * p.y + b * q.y + c * r.y + d * s.y }
    }
    this.append(fitArcs(at, [0, 0.5, 1], this.fit), to)
  }

  quadraticTo(c: Point, to: Point): void {
    const third = (a: Point): Point => ({ x: (a.x + 2 * c.x) / 3, y: (a.y + 2 * c.y) / 3 })
    this.cubicTo(third(this.pen), third(to), to)
  }

  /** By the conversion from end points to centre of SVG 1.1, appendix F.6. */
  arcTo(rx: number, ry: number, degrees: number, large: boolean, sweep: boolean, to: Point): void {
    const from = this.pen
    if (from.x === to.x && from.y === to.y) return
    if (rx === 0 || ry === 0) return this.lineTo(to)
    const { c, s } = turning(degrees)
    const hx = (from.x - to.x) / 2
    const hy = (from.y - to.y) / 2
    const x = c * hx + s * hy
    const y = c * hy - s * hx
    const grow = Math.max(1, Math.hypot(x / rx, y / ry))
    const a = Math.abs(rx) * grow
    const b = Math.abs(ry) * grow
    const rest = Math.max(0, 1 / ((x / a) ** 2 + (y / b) ** 2) - 1)
    const k = (large === sweep ? -1 : 1) * Math.sqrt(rest)
    const cx = (k * a * y) / b
    const cy = (-k * b * x) / a
    const start = Math.atan2((y - cy) / b, (x - cx) / a)
    let angle = Math.atan2((-y - cy) / b, (-x - cx) / a) - start
    if (sweep && angle <= 0) angle += FULL_TURN
    if (!sweep && angle >= 0) angle -= FULL_TURN
    const centre = { x: c * cx - s * cy + (from.x + to.x) / 2, y: s * cx + c * cy + (from.y + to.y) / 2 }
    const arc = {
      centre: applyTo(this.m, centre),
      u: applyToVector(this.m, { x: a * c, y: a * s }),
      v: applyToVector(this.m, { x: -b * s, y: b * c }),
      start,
      sweep: angle,
    }
    const vertices = ellipticArc(arc, this.fit)
    // The ends are where the path says, not where rounding puts them.
    vertices[0] = { ...vertices[0]!, ...applyTo(this.m, from) }
    vertices[vertices.length - 1] = applyTo(this.m, to)
    this.append(vertices, to)
  }
}
