/** A ruled table in sheet mm: column widths, a heading row, rows of text. */
import type { Point } from '../geometry/types.ts'
import type { Primitive } from './model.ts'
import { box, line, text } from './primitives.ts'
import { fitText } from './textWidth.ts'

export interface Column {
  readonly title: string
  readonly width: number
  readonly align?: 'start' | 'end' | 'middle'
}

export interface TableInput {
  readonly title: string
  /** Upper left corner. */
  readonly at: Point
  readonly columns: readonly Column[]
  readonly rows: readonly (readonly string[])[]
  /** Rows printed bold. */
  readonly bold?: ReadonlySet<number>
}

export const ROW_HEIGHT = 4.7
export const TABLE_TEXT = 2.5
const PAD = 1.2
const TITLE = 3.5

export const tableHeight = (rows: number): number => TITLE + 2.5 + (rows + 1) * ROW_HEIGHT
export const tableWidth = (columns: readonly Column[]): number => columns.reduce((s, c) => s + c.width, 0)

export function table({ title, at, columns, rows, bold }: TableInput): Primitive[] {
  const out: Primitive[] = [text({ x: at.x, y: at.y - TITLE }, title, TITLE, { bold: true })]
  const top = at.y - TITLE - 2.5
  const width = tableWidth(columns)
  const height = (rows.length + 1) * ROW_HEIGHT
  out.push(box('frame', at.x, top - ROW_HEIGHT, width, ROW_HEIGHT, 'tint'))
  out.push(box('frame', at.x, top - height, width, height))
  const put = (content: string, x: number, y: number, column: Column, heavy: boolean) => {
    const shown = fitText(content, TABLE_TEXT, column.width - 2 * PAD, heavy)
    const anchor = column.align ?? 'start'
    const at = anchor === 'start' ? x + PAD : anchor === 'end' ? x + column.width - PAD : x + column.width / 2
    out.push(text({ x: at, y }, shown, TABLE_TEXT, { anchor, bold: heavy }))
  }
  let x = at.x
  columns.forEach((column, k) => {
    if (k > 0) out.push(line('hatch', { x, y: top }, { x, y: top - height }))
    put(column.title, x, top - ROW_HEIGHT + 1.1, column, true)
    rows.forEach((row, i) =>
      put(row[k] ?? '', x, top - (i + 2) * ROW_HEIGHT + 1.1, column, bold?.has(i) ?? false),
    )
    x += column.width
  })
  for (let i = 1; i < rows.length; i++) {
    const y = top - (i + 1) * ROW_HEIGHT
    out.push(line('hatch', { x: at.x, y }, { x: at.x + width, y }))
  }
  return out
}
