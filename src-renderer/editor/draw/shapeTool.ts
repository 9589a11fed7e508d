/** Rectangle, circle, slot and measure: a few points make a shape. By clicks, by a drag for the first two, or typed. */
import { angleTowards, toDegrees } from '../../../src-core/geometry/angles.ts'
import { ROUNDING } from '../../../src-core/geometry/tolerance.ts'
import type { Point, Vertex } from '../../../src-core/geometry/types.ts'
import { hasDragged, type PointerInput } from '../port.ts'
import type { DrawPort, DrawTool, DrawToolName } from './drawPort.ts'
import { REACH } from '../reach.ts'
import { circle, obround, rectangle } from './rings.ts'
import type { Typed } from './typedPoint.ts'

type ShapeName = Exclude<DrawToolName, 'edit' | 'outline' | 'photograph'>

interface ShapeKind {
  readonly prompts: readonly string[]
  /** The shape of so many points; null while it has no area. */
  readonly ring: (points: readonly Point[]) => Vertex[] | null
  /** What a bare number means as the next point, if anything. */
  readonly value: (points: readonly Point[], value: number, pointer: Point) => Point | null
  readonly figures: (points: readonly Point[], length: (mm: number) => string) => string
}

const distance = (a: Point, b: Point) => Math.hypot(b.x - a.x, b.y - a.y)
const toward = (a: Point, b: Point, by: number): Point => {
  const d = distance(a, b)
  return d < ROUNDING.length
    ? { x: a.x + by, y: a.y }
    : { x: a.x + ((b.x - a.x) / d) * by, y: a.y + ((b.y - a.y) / d) * by }
}
/** Distance of p from the line through a and b. */
function across(a: Point, b: Point, p: Point): number {
  const d = distance(a, b)
  return d < ROUNDING.length
    ? distance(a, p)
    : Math.abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / d
}
/** A point beside the line a–b at a distance, on the pointer's side. */
function beside(a: Point, b: Point, by: number): Point {
  const d = distance(a, b)
  if (d < ROUNDING.length) return { x: a.x, y: a.y + by }
  return { x: b.x - ((b.y - a.y) / d) * by, y: b.y + ((b.x - a.x) / d) * by }
}

const SHAPES: Readonly<Record<ShapeName, ShapeKind>> = {
  rectangle: {
    prompts: ['One corner', 'Opposite corner, or length and width: “by 4, 2”'],
    ring: ([a, b]) => (a && b ? rectangle(a, b) : null),
    value: () => null,
    figures: ([a, b], length) =>
      a && b ? `${length(Math.abs(b.x - a.x))} × ${length(Math.abs(b.y - a.y))}` : '',
  },
  circle: {
    prompts: ['Centre', 'A point on it, or the diameter: “2”'],
    ring: ([a, b]) => (a && b ? circle(a, distance(a, b)) : null),
    value: ([a], value, pointer) => (a ? toward(a, pointer, value / 2) : null),
    figures: ([a, b], length) => (a && b ? `⌀ ${length(2 * distance(a, b))}` : ''),
  },
  slot: {
    prompts: [
      'Centre of one end',
      'Centre of the other end, or the distance: “4”',
      'Side, or the width: “1”',
    ],
    ring: ([a, b, c]) => (a && b && c ? obround(a, b, 2 * across(a, b, c)) : null),
    value: ([a, b], value, pointer) =>
      a && b ? beside(a, b, value / 2) : a ? toward(a, pointer, value) : null,
    figures: ([a, b, c], length) =>
      a && b && c ? `width ${length(2 * across(a, b, c))}` : a && b ? length(distance(a, b)) : '',
  },
  measure: {
    prompts: ['Measure from', 'Measure to'],
    ring: () => null,
    value: ([a], value, pointer) => (a ? toward(a, pointer, value) : null),
    figures: ([a, b], length) =>
      a && b
        ? `${length(distance(a, b))}  (x ${length(b.x - a.x)}, y ${length(b.y - a.y)}, ${toDegrees(angleTowards(a, b)).toFixed(1)}°)`
        : '',
  },
}

export class ShapeTool implements DrawTool {
  readonly name: ShapeName
  readonly cursor = 'crosshair'
  /** The distance measured last: it stays while the pointer goes on. */
  said = ''
  readonly #port: DrawPort
  readonly #shape: ShapeKind
  #points: Point[] = []
  #pointer: Point = { x: 0, y: 0 }
  #pressed: PointerInput | null = null

  constructor(name: ShapeName, port: DrawPort) {
    this.name = name
    this.#port = port
    this.#shape = SHAPES[name]
  }

  get prompt(): string {
    return this.#shape.prompts[this.#points.length] ?? ''
  }
  get last(): Point | null {
    return this.#points.at(-1) ?? null
  }

  /** Directions from the last point matter only where a line runs from it. */
  get #from(): Point | null {
    const line = this.name === 'measure' || (this.name === 'slot' && this.#points.length === 1)
    return line ? this.last : null
  }

  down(input: PointerInput): void {
    this.#pressed = input
    this.#take(this.#port.snap(input, this.#from).point)
  }
  move(input: PointerInput): void {
    const snapped = this.#port.snap(input, this.#from)
    this.#pointer = snapped.point
    this.#show(snapped.text)
  }
  /** A press that was dragged gives its second point where it is let go. */
  up(input: PointerInput): void {
    const pressed = this.#pressed
    this.#pressed = null
    if (!pressed || this.#points.length !== 1) return
    if (!hasDragged(pressed, input, REACH.unsteady)) return
    this.#take(this.#port.snap(input, this.#from).point)
  }
  cancel(): void {
    this.#points = []
    this.#pressed = null
    this.#port.preview(null)
  }
  key(name: string): boolean {
    if (this.#points.length === 0) return false
    if (name === 'Backspace') {
      this.#points = this.#points.slice(0, -1)
      this.#show('')
      return true
    }
    if (name !== 'Escape') return false
    this.cancel()
    return true
  }
  typed(entry: Typed): string | null {
    if (entry.kind === 'refused') return entry.reason
    const point =
      entry.kind === 'point' ? entry.point : this.#shape.value(this.#points, entry.value, this.#pointer)
    if (!point) return `A point is wanted here: ${this.prompt.toLowerCase()}.`
    this.#take(point)
    return null
  }

  #take(point: Point): void {
    const points = [...this.#points, point]
    if (points.length < this.#shape.prompts.length) {
      this.#points = points
      this.#pointer = point
      return this.#show('')
    }
    if (this.name === 'measure') {
      this.#points = []
      this.said = this.#figures(points)
      this.#port.preview({
        path: points,
        closed: false,
        at: point,
        text: this.#figures(points),
        snapped: true,
      })
      return
    }
    const ring = this.#shape.ring(points)
    if (!ring) return
    this.cancel()
    this.#port.finish(ring)
  }
  #figures(points: readonly Point[]): string {
    return this.#shape.figures(points, (mm) => this.#port.length(mm))
  }
  #show(caught: string): void {
    const points = [...this.#points, this.#pointer]
    const ring = this.#shape.ring(points)
    const at = this.#pointer
    const place = `${this.#port.length(at.x)}, ${this.#port.length(at.y)}`
    const text = [caught, this.#figures(points) || place].filter((t) => t !== '').join('  ')
    this.#port.preview({ path: ring ?? points, closed: ring !== null, at, text, snapped: caught !== '' })
  }
}
