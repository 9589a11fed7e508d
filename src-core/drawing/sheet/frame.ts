/**
 * Frame, trimming and centring marks and grid reference zones (ISO 5457, from memory), and the check line. Zones
 * are 50 mm long, counted from the centring marks, so those at the corners take up the difference.
 */
import type { Point } from '../../geometry/types.ts'
import { LETTERING } from '../text/lettering.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { box, line, text } from '../model/primitives.ts'
import { convert } from '../../units/convert.ts'
import type { DisplayUnits } from '../../units/format.ts'
import type { SheetSize } from './sheetSizes.ts'

/** Width of the grid reference border outside the frame, mm. */
const BORDER = 5
/** Length of a centring mark inside the frame, mm. */
export const CENTRING = 5
const ZONE = 50
const INCH = convert(1, 'in', 'mm')
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

interface CheckLine {
  /** mm on paper. */
  readonly length: number
  readonly words: string
  /** Between ticks, so many of which are one longer tick. */
  readonly tick: number
  readonly each: number
}

/** What a rule of either kind shows at a glance. */
export const CHECK_LINE: Readonly<Record<DisplayUnits, CheckLine>> = {
  mm: { length: 100, words: '100 mm', tick: 10, each: 5 },
  in: { length: 4 * INCH, words: '4 in', tick: INCH / 4, each: 4 },
}

/** If it does not measure what it says, the print was scaled. Its beginning at a point, across, or up with its ticks to the left. */
export function checkLine({ x, y }: Point, units: DisplayUnits, way: 'across' | 'up'): PlainPrimitive[] {
  const { length, words, tick, each } = CHECK_LINE[units]
  const at = (along: number, aside: number): Point =>
    way === 'across' ? { x: x + along, y: y + aside } : { x: x - aside, y: y + along }
  const ticks = Array.from({ length: Math.round(length / tick) + 1 }, (_, i) =>
    line('outline-thin', at(i * tick, 0), at(i * tick, i % each === 0 ? 2.4 : 1.4)),
  )
  const name =
    way === 'across'
      ? text(at(length + 2, 0), `${words}: check the print`, LETTERING.note)
      : text(at(length + 2, -1), words, LETTERING.note, { angle: 90 })
  return [line('outline-thin', at(0, 0), at(length, 0)), ...ticks, name]
}
