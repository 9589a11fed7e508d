/** An outline of straight and arc edges, point by point; arcs run on smoothly from the edge before. */
import { angleTowards, onCircle, toDegrees } from '../../../src-core/geometry/angles.ts'
import { TOLERANCE } from '../../../src-core/geometry/tolerance.ts'
import type { Point, Vertex } from '../../../src-core/geometry/types.ts'
import type { PointerInput } from '../port.ts'
import type { DrawPort, DrawTool } from './drawPort.ts'
import { REACH } from '../reach.ts'
import { bulgeOfRadius, headingAtEnd, tangentBulge } from './rings.ts'
import type { Typed } from './typedPoint.ts'

export class OutlineTool implements DrawTool {
  readonly name = 'outline'
  readonly cursor = 'crosshair'
  readonly said = ''
  readonly #port: DrawPort
  #vertices: Vertex[] = []
  #arc = false
  #pointer: Point = { x: 0, y: 0 }

  constructor(port: DrawPort) {
    this.#port = port
  }

  get prompt(): string {
    if (this.#vertices.length === 0) return 'First point: “0, 0”'
    const close = this.#vertices.length > 1 ? '; Enter closes it' : ''
    return `${this.#arc ? 'Arc to' : 'Straight to'} the next point, such as “by 2 at 30”; Space changes; Backspace takes one back${close}`
  }
  get last(): Point | null {
    const v = this.#vertices.at(-1)
    return v ? { x: v.x, y: v.y } : null
  }

  get arc(): boolean {
    return this.#arc
  }
  setArc(arc: boolean): void {
    this.#arc = arc
    this.#show('')
  }

  down(input: PointerInput): void {
    if (this.#wouldClose(input)) return this.#close()
    this.#take(this.#port.snap(input, this.last).point)
  }
  move(input: PointerInput): void {
    const snapped = this.#port.snap(input, this.last)
    this.#pointer = snapped.point
    this.#show(this.#wouldClose(input) ? 'closes it' : snapped.text)
  }
  up(): void {
    // Points are taken when pressed.
  }
  cancel(): void {
    this.#vertices = []
    this.#arc = false
    this.#port.preview(null)
  }
  typed(entry: Typed): string | null {
    if (entry.kind === 'refused') return entry.reason
    const last = this.last
    if (entry.kind === 'point') {
      if (entry.radius === undefined) this.#take(entry.point)
      else if (!last) return 'An arc starts at a point: give the first point without a radius.'
      else {
        const bulge = bulgeOfRadius(last, entry.point, entry.radius)
        if (bulge === null)
          return 'That radius does not reach: it must be at least half the distance to the point.'
        this.#take(entry.point, bulge)
      }
      return null
    }
    if (!last) return 'The first point needs two numbers, such as 0, 0.'
    const angle = angleTowards(last, this.#pointer)
    this.#take(onCircle(last, entry.value, angle))
    return null
  }
  key(name: string): boolean {
    switch (name) {
      case 'Enter':
        if (this.#vertices.length < 2) return false
        this.#close()
        return true
      case 'Backspace':
        if (this.#vertices.length === 0) return false
        this.#vertices.pop()
        this.#show('')
        return true
      case ' ':
        this.setArc(!this.#arc)
        return true
      case 'Escape':
        if (this.#vertices.length === 0) return false
        this.cancel()
        return true
      default:
        return false
    }
  }

  #wouldClose(input: PointerInput): boolean {
    const first = this.#vertices[0]
    if (!first || this.#vertices.length < 2) return false
    const p = this.#port.toPart(input.world)
    return Math.hypot(first.x - p.x, first.y - p.y) * input.pxPerMm <= REACH.close
  }
  #bulgeTo(to: Point): number {
    if (!this.#arc) return 0
    const n = this.#vertices.length
    const a = this.#vertices[n - 1]
    const before = this.#vertices[n - 2]
    if (!a) return 0
    if (!before) return 1
    return tangentBulge(a, to, headingAtEnd(before, a, before.bulge ?? 0))
  }
  #take(point: Point, given?: number): void {
    const last = this.#vertices.at(-1)
    if (last && Math.hypot(last.x - point.x, last.y - point.y) < TOLERANCE.coincident) return
    const bulge = given ?? this.#bulgeTo(point)
    if (last) this.#vertices[this.#vertices.length - 1] = { ...last, bulge }
    this.#vertices.push({ x: point.x, y: point.y, bulge: 0 })
    this.#pointer = point
    this.#show('')
  }
  #close(): void {
    const first = this.#vertices[0]!
    const last = this.#vertices.at(-1)!
    // A last point set on the first is the same point.
    const doubled =
      this.#vertices.length > 2 && Math.hypot(first.x - last.x, first.y - last.y) < TOLERANCE.coincident
    const ring = doubled
      ? this.#vertices.slice(0, -1)
      : this.#vertices.map((v, i, all) => (i === all.length - 1 ? { ...v, bulge: this.#bulgeTo(first) } : v))
    if (ring.length < 3 && !ring.some((v) => v.bulge)) return
    this.cancel()
    this.#port.finish(ring)
  }
  #show(caught: string): void {
    const last = this.#vertices.at(-1)
    const at = this.#pointer
    const { length } = this.#port
    const figures = last
      ? `${length(Math.hypot(at.x - last.x, at.y - last.y))}  ${toDegrees(angleTowards(last, at)).toFixed(1)}°`
      : `${length(at.x)}, ${length(at.y)}`
    const path = last ? [...this.#vertices.slice(0, -1), { ...last, bulge: this.#bulgeTo(at) }, at] : [at]
    this.#port.preview({
      path,
      closed: false,
      at,
      text: [caught, figures].filter((t) => t !== '').join('  '),
      snapped: caught !== '',
    })
  }
}
