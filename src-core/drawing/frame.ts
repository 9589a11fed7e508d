/** Frame with centring marks and grid zones (ISO 5457), and a 100 mm check line. */
import type { Primitive } from './model.ts'
import { box, line, text } from './primitives.ts'
import type { SheetSize } from './sheetSizes.ts'

const ZONE_TEXT = 2.5
const LETTERS = 'ABCDEFGH'

export function frame(sheet: SheetSize): Primitive[] {
  const { left, right, bottom, top } = sheet
  const cx = sheet.width / 2
  const cy = sheet.height / 2
  const out: Primitive[] = [box('frame', left, bottom, right - left, top - bottom)]
  for (const [a, b] of [
    [
      { x: cx, y: 4 },
      { x: cx, y: bottom + 5 },
    ],
    [
      { x: cx, y: sheet.height - 4 },
      { x: cx, y: top - 5 },
    ],
    [
      { x: 4, y: cy },
      { x: left + 5, y: cy },
    ],
    [
      { x: sheet.width - 4, y: cy },
      { x: right - 5, y: cy },
    ],
  ] as const)
    out.push(line('frame', a, b))
  const columns = sheet.large ? 8 : 6
  const rows = sheet.large ? 6 : 4
  for (let i = 0; i < columns; i++) {
    const x = left + ((i + 0.5) * (right - left)) / columns
    for (const y of [bottom - 3.8, top + 1.3])
      out.push(text({ x, y }, String(i + 1), ZONE_TEXT, { anchor: 'middle' }))
    if (i > 0) {
      const edge = left + (i * (right - left)) / columns
      for (const [y0, y1] of [
        [bottom - 5, bottom],
        [top, top + 5],
      ] as const)
        out.push(line('hatch', { x: edge, y: y0 }, { x: edge, y: y1 }))
    }
  }
  for (let i = 0; i < rows; i++) {
    const y = top - ((i + 0.5) * (top - bottom)) / rows
    for (const x of [left - 3, right + 3])
      out.push(text({ x, y: y - ZONE_TEXT / 2 }, LETTERS.charAt(i), ZONE_TEXT, { anchor: 'middle' }))
    if (i > 0) {
      const edge = top - (i * (top - bottom)) / rows
      for (const [x0, x1] of [
        [left - 5, left],
        [right, right + 5],
      ] as const)
        out.push(line('hatch', { x: x0, y: edge }, { x: x1, y: edge }))
    }
  }
  return out
}

/** A line 100 mm long on paper: if it does not measure so, the print was scaled. Lower left end at (x, y). */
export function checkLine(x: number, y: number): Primitive[] {
  const out: Primitive[] = [line('outline-thin', { x, y }, { x: x + 100, y })]
  for (let i = 0; i <= 10; i++)
    out.push(line('outline-thin', { x: x + i * 10, y }, { x: x + i * 10, y: y + (i % 5 === 0 ? 2.4 : 1.4) }))
  out.push(text({ x: x + 102, y: y - 0.4 }, '100 mm on paper: check the print', 2.5))
  return out
}
