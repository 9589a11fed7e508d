/** What stands at the foot of every sheet: the check line, and whose word comes first. */
import { checkLine } from './frame.ts'
import { LETTERING } from '../text/lettering.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { PRECEDENCE } from '../../words/cautions.ts'
import { text } from '../model/primitives.ts'
import type { SheetSize } from './sheetSizes.ts'
import { wrapText } from '../text/textWidth.ts'
import { TITLE_HEIGHT, TITLE_WIDTH } from './titleBlock.ts'

const LEADING = 4.2

const isBeside = (sheet: SheetSize): boolean => sheet.right - sheet.left > 1.5 * TITLE_WIDTH
const left = (sheet: SheetSize): number => sheet.left + 6
const precedence = (sheet: SheetSize): string[] => {
  const right = isBeside(sheet) ? sheet.right - TITLE_WIDTH : sheet.right
  return wrapText(PRECEDENCE, LETTERING.note, right - left(sheet) - 4, true)
}

/** Room that it takes at the foot of a sheet, mm. */
export const footerHeight = (sheet: SheetSize): number => 8.5 + precedence(sheet).length * LEADING

/** Beside the title block on a lying sheet, above it on an upright one. */
export function footer(sheet: SheetSize): PlainPrimitive[] {
  const x = left(sheet)
  const y = sheet.bottom + (isBeside(sheet) ? 3 : TITLE_HEIGHT + 3)
  const lines = precedence(sheet)
  return [
    ...checkLine(x, y),
    ...lines.map((line, i) =>
      text({ x, y: y + 4.8 + (lines.length - 1 - i) * LEADING }, line, LETTERING.note, {
        bold: true,
        layer: 'caution',
      }),
    ),
  ]
}
