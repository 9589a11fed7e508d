/** What stands at the foot of every sheet: the check line, whose word comes first, what stands for letters that lack. */
import type { Job, Setup } from '../../job/schema.ts'
import { checkLine } from './frame.ts'
import { LETTERING } from '../text/lettering.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { PRECEDENCE } from '../../words/cautions.ts'
import { text } from '../model/primitives.ts'
import type { SheetSize } from './sheetSizes.ts'
import { SUBSTITUTE, settable, wrapText } from '../text/textWidth.ts'
import { TITLE_WIDTH } from './titleFields.ts'
import type { DisplayUnits } from '../../units/format.ts'

const LEADING = 4.2

const isBeside = (sheet: SheetSize): boolean => sheet.right - sheet.left > 1.5 * TITLE_WIDTH
const left = (sheet: SheetSize): number => sheet.left + 6
const foot = (sheet: SheetSize, words: string): string[] => {
  const right = isBeside(sheet) ? sheet.right - TITLE_WIDTH : sheet.right
  return wrapText(words, LETTERING.note, right - left(sheet) - 4, true)
}

/** What stands for a letter that the typeface lacks, on each sheet that has one. */
export const LACKED = `${SUBSTITUTE} stands for a character that this sheet's typeface lacks: read it in the job.`

/** Whether a text of the sheets has letters that the typeface lacks. */
export function lacksLetters(job: Job, setup: Setup, file: string): boolean {
  const { lathe, plate, part, stock } = job
  const names = [
    [job.title, job.partNumber, job.documentNumber, job.revisions, job.notes, job.titleBlock, file],
    [lathe.name, plate, part.name, part.material, part.bores, stock, setup],
  ]
  const written = JSON.stringify(names)
  return !written.includes(SUBSTITUTE) && settable(written).includes(SUBSTITUTE)
}

const words = (sheet: SheetSize, lacks: boolean): string[] => [
  ...foot(sheet, PRECEDENCE),
  ...(lacks ? foot(sheet, LACKED) : []),
]

/** Room that it takes at the foot of a sheet, mm. */
export const footerHeight = (sheet: SheetSize, lacks: boolean): number =>
  8.5 + words(sheet, lacks).length * LEADING

/** Beside the title block on a lying sheet, above it on an upright one. @param title height of the block, mm. */
export function footer(
  sheet: SheetSize,
  title: number,
  lacks: boolean,
  units: DisplayUnits,
): PlainPrimitive[] {
  const x = left(sheet)
  const y = sheet.bottom + (isBeside(sheet) ? 3 : title + 3)
  const lines = words(sheet, lacks)
  return [
    ...checkLine({ x, y }, units, 'across'),
    ...lines.map((line, i) =>
      text({ x, y: y + 4.8 + (lines.length - 1 - i) * LEADING }, line, LETTERING.note, {
        bold: true,
        layer: 'caution',
      }),
    ),
  ]
}
