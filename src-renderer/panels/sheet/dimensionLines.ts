/** The dimensions of a drawing as things to take hold of. Sheet mm, y up. */
import { hasLine } from '../../../src-core/drawing/dimensionNames.ts'
import type { Drawing } from '../../../src-core/drawing/model.ts'
import type { Point } from '../../../src-core/geometry/types.ts'

export interface HeldDimension {
  readonly id: string
  /** As printed. */
  readonly text: string
  /** Middle of its text. */
  readonly at: Point
  readonly line: { readonly a: Point; readonly b: Point } | null
  /** Points measured; the line stands off from the first. */
  readonly from: Point
  readonly to: Point
  /** Distance of the line from the first point, to the left along the measurement; null where it has no line to move. */
  readonly offset: number | null
}

/** In drawing order, each once. */
export function heldDimensions(drawing: Drawing): HeldDimension[] {
  return drawing.primitives.flatMap((p): HeldDimension[] => {
    if (p.kind === 'polar' && p.id !== undefined) {
      const printed = p.parts.find((part) => part.kind === 'text')
      const at = printed?.kind === 'text' ? printed.at : p.at
      const words = [p.radiusText, p.angleText].filter(Boolean).join(', ')
      return [{ id: p.id, text: words, at, line: null, from: p.centre, to: p.at, offset: null }]
    }
    if (p.kind !== 'dimension' || p.id === undefined) return []
    const { id, text, textAt: at, line, from, to } = p
    if (!hasLine(id)) return [{ id, text, at, line: null, from, to, offset: null }]
    const left = normalOf(line)
    const offset = (line.a.x - from.x) * left.x + (line.a.y - from.y) * left.y
    return [{ id, text, at, line, from, to, offset }]
  })
}

/** Unit vector to the left of a line, seen from a to b. */
export function normalOf({ a, b }: { readonly a: Point; readonly b: Point }): Point {
  const length = Math.hypot(b.x - a.x, b.y - a.y)
  return { x: -(b.y - a.y) / length, y: (b.x - a.x) / length }
}

/** Offset after a move of the hand, to half a millimetre of paper. */
export function movedOffset(held: HeldDimension, by: Point): number {
  const left = normalOf(held.line!)
  return Math.round(2 * (held.offset! + by.x * left.x + by.y * left.y)) / 2
}
