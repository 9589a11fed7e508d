/**
 * Frame, trimming and centring marks and grid reference zones (ISO 5457, from memory), and the 100 mm check line. Zones
 * are 50 mm long, counted from the centring marks, so those at the corners take up the difference.
 */
import type { Point } from '../../geometry/types.ts'
import { LETTERING } from '../text/lettering.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { box, line, text } from '../model/primitives.ts'
import type { SheetSize } from './sheetSizes.ts'

/** Width of the grid reference border outside the frame, mm. */
const BORDER = 5
/** Length of a centring mark inside the frame, mm. */
export const CENTRING = 5
const ZONE = 50
/** A trimming mark is two filled rectangles along the edges of the cut sheet, lying over one another at its corner. */
const TRIM = { long: 10, wide: 5 }
/** I and O are left out. */
const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ'

/** `titleWidth`: at the lower right, where no centring mark may run into the title block. */
export function frame(sheet: SheetSize, titleWidth: number): PlainPrimitive[] {
  const { left, right, bottom, top } = sheet
  return [
    box('outline-thin', left - BORDER, bottom - BORDER, right - left + 2 * BORDER, top - bottom + 2 * BORDER),
    box('border', left, bottom, right - left, top - bottom),
    ...trimmingMarks(sheet),
    ...centringMarks(sheet, titleWidth),
    ...zones(sheet, 'across'),
    ...zones(sheet, 'up'),
  ]
}

function trimmingMarks({ width, height }: SheetSize): PlainPrimitive[] {
  const { long, wide } = TRIM
  return [0, width].flatMap((x) =>
    [0, height].flatMap((y) => {
      const inward = (along: number, up: number) =>
        box('border', x === 0 ? 0 : x - along, y === 0 ? 0 : y - up, along, up, 'solid')
      return [inward(long, wide), inward(wide, long)]
    }),
  )
}

/** From the grid reference border to 5 mm within the frame, on the axes of the trimmed sheet. */
function centringMarks(
  { width, height, left, right, bottom, top }: SheetSize,
  titleWidth: number,
): PlainPrimitive[] {
  const cx = width / 2
  const cy = height / 2
  const mark = (x0: number, y0: number, x1: number, y1: number) =>
    line('border', { x: x0, y: y0 }, { x: x1, y: y1 })
  return [
    mark(cx, bottom - BORDER, cx, bottom + (cx > right - titleWidth ? 0 : CENTRING)),
    mark(cx, top + BORDER, cx, top - CENTRING),
    mark(left - BORDER, cy, left + CENTRING, cy),
    mark(right + BORDER, cy, right - CENTRING, cy),
  ]
}

function zones(sheet: SheetSize, way: 'across' | 'up'): PlainPrimitive[] {
  const across = way === 'across'
  const [low, high] = across ? [sheet.left, sheet.right] : [sheet.bottom, sheet.top]
  const middle = (across ? sheet.width : sheet.height) / 2
  const inner: number[] = []
  for (let k = 0; middle + k * ZONE < high - ZONE / 4; k++) inner.push(middle + k * ZONE)
  for (let k = 1; middle - k * ZONE > low + ZONE / 4; k++) inner.unshift(middle - k * ZONE)
  const edges = [low, ...inner, high]
  const sides = across
    ? [sheet.bottom - BORDER / 2, sheet.top + BORDER / 2]
    : [sheet.left - BORDER / 2, sheet.right + BORDER / 2]
  const place = (along: number, side: number): Point =>
    across ? { x: along, y: side } : { x: side, y: along }
  const out: PlainPrimitive[] = []
  for (const side of sides) {
    for (const edge of inner)
      out.push(line('outline-thin', place(edge, side - BORDER / 2), place(edge, side + BORDER / 2)))
    for (let i = 0; i + 1 < edges.length; i++) {
      const at = place((edges[i]! + edges[i + 1]!) / 2, side)
      // Numbers run from the left, letters from the top.
      const name = across ? String(i + 1) : LETTERS.charAt(edges.length - 2 - i)
      out.push(text({ x: at.x, y: at.y - LETTERING.note / 2 }, name, LETTERING.note, { anchor: 'middle' }))
    }
  }
  return out
}

/** A line 100 mm long on paper: if it does not measure so, the print was scaled. Lower left end at (x, y). */
export function checkLine(x: number, y: number): PlainPrimitive[] {
  const out: PlainPrimitive[] = [line('outline-thin', { x, y }, { x: x + 100, y })]
  for (let i = 0; i <= 10; i++)
    out.push(line('outline-thin', { x: x + i * 10, y }, { x: x + i * 10, y: y + (i % 5 === 0 ? 2.4 : 1.4) }))
  out.push(text({ x: x + 102, y }, '100 mm: check the print', LETTERING.note))
  return out
}
