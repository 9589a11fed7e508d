/** Note blocks set one below the other in a column, sheet mm. */
import type { Point } from '../geometry/types.ts'
import type { Primitive } from './model.ts'
import type { NoteBlock } from './notes.ts'
import { box, text } from './primitives.ts'
import { wrapText } from './textWidth.ts'

const HEIGHT = 2.5
const LEADING = 4.1
const TITLE = 3.2
const INDENT = 4.4

/** Draws blocks from the upper left corner down; `end` is the y below the last. */
export function noteColumn(
  blocks: readonly NoteBlock[],
  at: Point,
  width: number,
): { primitives: Primitive[]; end: number } {
  const out: Primitive[] = []
  let y = at.y
  for (const block of blocks) {
    y -= TITLE
    out.push(
      text({ x: at.x, y }, block.title, TITLE, { bold: true, layer: block.caution ? 'caution' : 'text' }),
    )
    y -= 1.4
    for (const content of block.lines) {
      const inner = block.ticks ? width - INDENT : width
      wrapText(content, HEIGHT, inner).forEach((part, i) => {
        y -= LEADING
        if (block.ticks && i === 0) out.push(box('outline-thin', at.x, y - 0.1, 2.7, 2.7))
        out.push(text({ x: at.x + (block.ticks ? INDENT : 0), y }, part, HEIGHT))
      })
      y -= block.ticks ? 0.7 : 0.5
    }
    y -= 3.4
  }
  return { primitives: out, end: y }
}
