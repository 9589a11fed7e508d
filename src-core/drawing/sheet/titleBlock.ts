/** Title block with the data fields of ISO 7200 and the projection symbol of ISO 5456-2, at the lower right of the frame. */
import { LETTERING } from '../text/lettering.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { box, circle, line, polyline, text } from '../model/primitives.ts'
import { squareCode } from './squareCode.ts'
import {
  CODE_SIDE,
  FOOT,
  LABEL,
  LEADING,
  PAD,
  TITLE_WIDTH,
  titleRows,
  type Projection,
  type TitleCell,
  type TitleInput,
} from './titleFields.ts'

export function titleBlock(input: TitleInput): PlainPrimitive[] {
  const { sheet } = input
  const rows = titleRows(input)
  const whole = rows.reduce((sum, r) => sum + r.height, 0)
  const x0 = sheet.right - TITLE_WIDTH
  const out: PlainPrimitive[] = [box('frame', x0, sheet.bottom, TITLE_WIDTH, whole, 'paper')]
  let y = sheet.bottom + whole
  rows.forEach(({ cells, height }, i) => {
    y -= height
    const width = cells.reduce((sum, c) => sum + c.width, 0)
    if (i > 0) {
      // The square code stands beside two rows, with no line through it.
      const across = i === 2 ? width : TITLE_WIDTH
      out.push(line('outline-thin', { x: x0, y: y + height }, { x: x0 + across, y: y + height }))
    }
    let x = x0
    for (const cell of cells) {
      if (x > x0) out.push(line('outline-thin', { x, y }, { x, y: y + height }))
      out.push(text({ x: x + PAD, y: y + height - LABEL }, cell.label, LETTERING.note))
      out.push(...valueOf(cell, x + PAD, y))
      if (cell.label === 'Projection' && input.projection)
        out.push(...projectionSymbol(x + cell.width / 2, y + 3.1, input.projection))
      x += cell.width
    }
    if (i === 2) {
      const [, second] = rows
      const code = x0 + TITLE_WIDTH - CODE_SIDE
      out.push(line('outline-thin', { x: code, y }, { x: code, y: y + height + second!.height }))
      const low = y + (height + second!.height - CODE_SIDE) / 2
      out.push(squareCode(scanned(input.checkSum), { x: code, y: low }, CODE_SIDE))
    }
  })
  return out
}

/** Without its hyphen, which a scanner that types gets wrong on a keyboard of another country. */
const scanned = (checkSum: string): string => checkSum.replace('-', '')

/** One line stands higher than the last of several. */
const valueOf = ({ lines, height, bold }: TitleCell, x: number, y: number): PlainPrimitive[] =>
  lines.map((words, i) =>
    text({ x, y: y + (lines.length > 1 ? FOOT + (lines.length - 1 - i) * LEADING : 1.5) }, words, height, {
      bold,
    }),
  )

/** The truncated cone's side view and its end view: the end view at the right in first angle, at the left in third. */
function projectionSymbol(x: number, y: number, projection: Projection): PlainPrimitive[] {
  const sense = projection === 'first' ? 1 : -1
  const cone = { x: x - sense * 4.5, y }
  const end = { x: x + sense * 5.2, y }
  return [
    polyline(
      'outline-thin',
      [
        { x: cone.x - 2.6, y: y - 1.1 },
        { x: cone.x - 2.6, y: y + 1.1 },
        { x: cone.x + 2.6, y: y + 2.1 },
        { x: cone.x + 2.6, y: y - 2.1 },
      ],
      true,
    ),
    circle('outline-thin', end, 2.1),
    circle('outline-thin', end, 1.1),
    line('centre', { x: cone.x - 4, y }, { x: cone.x + 4, y }),
    line('centre', { x: end.x - 2.8, y }, { x: end.x + 2.8, y }),
    line('centre', { x: end.x, y: y - 2.8 }, { x: end.x, y: y + 2.8 }),
  ]
}
