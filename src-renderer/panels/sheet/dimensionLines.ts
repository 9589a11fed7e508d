/** The dimensions of a drawing as things to take hold of. Sheet mm, y up. */
import { hasLine } from '../../../src-core/drawing/views/dimensionNames.ts'
import type { Drawing } from '../../../src-core/drawing/model/model.ts'
import type { Point } from '../../../src-core/geometry/types.ts'

interface Held {
  readonly id: string
  /** As printed. */
  readonly text: string
  /** Middle of its text, or of its balloon. */
  readonly at: Point
}

/** Moves across its line. */
export interface HeldLine extends Held {
  readonly kind: 'line'
  readonly line: { readonly a: Point; readonly b: Point }
  /** Points measured; the line stands off from the first. */
  readonly from: Point
  readonly to: Point
  /** Distance of the line from the first point, to the left along the measurement. */
  readonly offset: number
}

/** Text or balloon on a leader: moves any way. */
export interface HeldText extends Held {
  readonly kind: 'text'
  /** Middle of what is measured. */
  readonly middle: Point
}

export type HeldDimension = HeldLine | HeldText

/** In drawing order, each once. */
export function heldDimensions(drawing: Drawing): HeldDimension[] {
  return drawing.primitives.flatMap((p): HeldDimension[] => {
    if (p.kind === 'polar' && p.id !== undefined) {
      const text = [p.radiusText, p.angleText].filter(Boolean).join(', ')
      return [{ kind: 'text', id: p.id, text, at: p.balloon, middle: p.at }]
    }
    if (p.kind !== 'dimension' || p.id === undefined) return []
    const { id, text, textAt, height, line, from, to } = p
    if (!hasLine(id)) {
      const middle = { x: (line.a.x + line.b.x) / 2, y: (line.a.y + line.b.y) / 2 }
      return [{ kind: 'text', id, text, at: { x: textAt.x, y: textAt.y + height / 2 }, middle }]
    }
    const left = normalOf(line)
    const offset = (line.a.x - from.x) * left.x + (line.a.y - from.y) * left.y
    return [{ kind: 'line', id, text, at: textAt, line, from, to, offset }]
  })
}

/** Unit vector to the left of a line, seen from a to b. */
function normalOf({ a, b }: HeldLine['line']): Point {
  const length = Math.hypot(b.x - a.x, b.y - a.y)
  return { x: -(b.y - a.y) / length, y: (b.x - a.x) / length }
}

const half = (mm: number): number => Math.round(2 * mm) / 2

/** What the job keeps of a dimension that the hand moved by so much: to half a millimetre of paper. */
export function moved(held: HeldDimension, by: Point): { offset: number } | { place: Point } {
  if (held.kind === 'text') {
    const { at, middle } = held
    return { place: { x: half(at.x + by.x - middle.x), y: half(at.y + by.y - middle.y) } }
  }
  const left = normalOf(held.line)
  return { offset: half(held.offset + by.x * left.x + by.y * left.y) }
}

/** Where the dimension will stand, as a line to show meanwhile. */
export function ghost(held: HeldDimension, by: Point): Point[] {
  if (held.kind === 'text') return [held.middle, { x: held.at.x + by.x, y: held.at.y + by.y }]
  const left = normalOf(held.line)
  const along = by.x * left.x + by.y * left.y
  const shifted = [held.line.a, held.line.b].map((p) => ({
    x: p.x + left.x * along,
    y: p.y + left.y * along,
  }))
  return [held.from, ...shifted, held.to]
}
