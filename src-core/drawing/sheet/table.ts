/** A ruled table as a block: columns as wide as what they hold, one of them wrapped where the whole is too wide. */
import type { Point } from '../../geometry/types.ts'
import { PAPER_TOLERANCE } from '../../geometry/tolerance.ts'
import type { Block, Laid } from './flow.ts'
import { remembered } from '../text/remembered.ts'
import { LETTERING } from '../text/lettering.ts'
import type { Primitive } from '../model/model.ts'
import { box, line, text } from '../model/primitives.ts'
import { breakText, fitText, textWidth, wrapText } from '../text/textWidth.ts'

export interface Column {
  readonly title: string
  readonly align?: 'start' | 'end' | 'middle'
  /** Gives way where the table would be too wide: its text is wrapped.  */
  readonly wraps?: boolean
  /** Least width, mm: room to write in. */
  readonly least?: number
  /** An empty box to tick in each row, in place of text. */
  readonly ticks?: boolean
}

export interface TableInput {
  readonly title: string
  /** In small letters beside the title, or under it where it is too long. */
  readonly remark?: string
  readonly columns: readonly Column[]
  readonly rows: readonly (readonly string[])[]
  /** Rows printed bold. */
  readonly bold?: ReadonlySet<number>
  /** Lines after which a cell is cut; three where not given. */
  readonly mostLines?: number
  /** The remark is no wider than the table: there is room beside it for something else. */
  readonly narrow?: boolean
  /** May be broken between two regions of a sheet that follows. */
  readonly splits?: boolean
  /** In the smallest letters, for a sheet that would else run over. */
  readonly small?: boolean
}

const PAD = 1.3
/** From a row's line to the baseline below or above it. */
const FOOT = 1.0
const TITLE_ROOM = LETTERING.read + 2
const REMARK = 4.2
const BEFORE_REMARK = 3
/** A remark is set at least so wide, mm. */
const NARROW = 80
const CONTINUED = ', continued'
/** Least width of a wrapped column, in small letters and else. */
const WRAP_WIDTH = { small: 22, usual: 30 }
const wrapWidth = ({ small }: TableInput): number => (small ? WRAP_WIDTH.small : WRAP_WIDTH.usual)
/** A cell is cut after so many lines. */
const MOST_LINES = 3
/** Side of a box to tick. */
const TICK = 2.7

/** Letters of the cells, and from one line to the next. */
const letters = ({ small }: TableInput): number => (small ? LETTERING.note : LETTERING.read)
const leading = (input: TableInput): number => letters(input) + 1.1
const rowHeight = (input: TableInput, lines: number): number =>
  lines * leading(input) + (input.small ? 0.5 : 0.7)

export function tableBlock(input: TableInput): Block {
  const natural = input.columns.map((column, k) => naturalWidth(input, column, k))
  const rigid = natural.reduce(
    (sum, w, k) => sum + (input.columns[k]!.wraps ? Math.min(w, wrapWidth(input)) : w),
    0,
  )
  const setIn = remembered((width) => setTable(input, natural, width))
  const restAfter = remembered((count) => tableBlock(remaining(input, count)))
  return {
    width: rigid,
    splits: input.splits ?? false,
    fullWidth: sumOf(natural),
    lay: (width, room) => layTable(input, setIn(width), room, restAfter),
  }
}

function naturalWidth(input: TableInput, column: Column, k: number): number {
  const height = letters(input)
  const cells = input.rows.map((row, i) => textWidth(row[k] ?? '', height, input.bold?.has(i) ?? false))
  const widest = Math.max(column.ticks ? TICK : 0, textWidth(column.title, height, true), ...cells)
  return Math.max(column.least ?? 0, widest + 2 * PAD)
}

/** A table's columns, cells and rows in a width. */
interface SetTable {
  readonly widths: readonly number[]
  readonly cells: readonly (readonly (readonly string[])[])[]
  readonly heights: readonly number[]
  readonly remark: Remark
}

function setTable(input: TableInput, natural: readonly number[], width: number): SetTable {
  const widths = fitWidths(input, natural, width)
  const cells = input.rows.map((row, i) =>
    input.columns.map((column, k) =>
      cellLines(row[k] ?? '', widths[k]! - 2 * PAD, {
        height: letters(input),
        wraps: column.wraps ?? widths[k]! < natural[k]!,
        bold: input.bold?.has(i) ?? false,
        most: input.mostLines ?? MOST_LINES,
      }),
    ),
  )
  const heights = cells.map((row) => rowHeight(input, Math.max(1, ...row.map((c) => c.length))))
  return { widths, cells, heights, remark: placeRemark(input, sumOf(widths), width) }
}

/** Rows from one on, under a title that says so. */
const remaining = (input: TableInput, from: number): TableInput => ({
  ...input,
  title: input.title.endsWith(CONTINUED) ? input.title : input.title + CONTINUED,
  rows: input.rows.slice(from),
  bold: new Set([...(input.bold ?? [])].map((i) => i - from)),
})

function layTable(
  input: TableInput,
  { widths, cells, heights, remark }: SetTable,
  room: number,
  restAfter: (count: number) => Block,
): Laid | null {
  const above = TITLE_ROOM + remark.below.length * REMARK
  let used = above + rowHeight(input, 1)
  let count = 0
  while (count < heights.length && used + heights[count]! <= room) used += heights[count++]!
  if (used > room || (count === 0 && heights.length > 0)) return null
  const rest = count < heights.length ? restAfter(count) : null
  return {
    height: used,
    width: Math.max(sumOf(widths), titleWidth(input, remark)),
    draw: (at) => [
      ...drawTitle(input.title, remark, at),
      ...drawTable(input, widths, cells.slice(0, count), heights.slice(0, count), {
        x: at.x,
        y: at.y - above,
      }),
    ],
    rest,
  }
}

const sumOf = (widths: readonly number[]): number => widths.reduce((a, b) => a + b, 0)

/** The widest wrapping columns give up what the others need; where that is not enough, the widest of all come down to one width. */
function fitWidths(input: TableInput, natural: readonly number[], width: number): number[] {
  if (sumOf(natural) <= width) return [...natural]
  const wraps = natural.filter((_, k) => input.columns[k]!.wraps)
  const level = levelOf(wraps, width - (sumOf(natural) - sumOf(wraps)))
  const wrapped = natural.map((w, k) =>
    input.columns[k]!.wraps ? Math.min(w, Math.max(wrapWidth(input), level)) : w,
  )
  if (sumOf(wrapped) <= width + PAPER_TOLERANCE.fit) return wrapped
  const most = levelOf(wrapped, width)
  return wrapped.map((w) => Math.min(w, most))
}

/** The width to which the widest of columns come down so that all of them together are `width`. */
function levelOf(widths: readonly number[], width: number): number {
  const rising = [...widths].sort((a, b) => a - b)
  let room = width
  for (const [i, w] of rising.entries()) {
    const share = room / (rising.length - i)
    if (w >= share) return share
    room -= w
  }
  return Infinity
}

interface CellStyle {
  readonly height: number
  readonly wraps: boolean
  readonly bold: boolean
  readonly most: number
}

function cellLines(content: string, width: number, { height, wraps, bold, most }: CellStyle): string[] {
  const all = wraps ? breakText(content, height, width, bold) : [content]
  const kept = all.slice(0, most)
  if (all.length > most) kept[most - 1] = `${kept[most - 1]} …`
  return kept.map((l) => fitText(l, height, width, bold))
}

interface Remark {
  /** Beside the title; may be empty. */
  readonly beside: string
  /** Lines under it. */
  readonly below: readonly string[]
}

/** Beside the title of a table that is as wide, and no wider than a narrow one, to leave room beside it. */
function placeRemark({ title, remark, narrow }: TableInput, own: number, room: number): Remark {
  const width = narrow ? own : Math.min(room, Math.max(own, NARROW))
  if (!remark) return { beside: '', below: [] }
  const beside = width - textWidth(title, LETTERING.read, true) - BEFORE_REMARK
  if (textWidth(remark, LETTERING.note) <= beside) return { beside: remark, below: [] }
  return { beside: '', below: wrapText(remark, LETTERING.note, width) }
}

/** Of the title and what stands beside or under it. */
function titleWidth({ title }: TableInput, { beside, below }: Remark): number {
  const own = textWidth(title, LETTERING.read, true)
  const first = beside ? own + BEFORE_REMARK + textWidth(beside, LETTERING.note) : own
  return Math.max(first, ...below.map((l) => textWidth(l, LETTERING.note)))
}

function drawTitle(title: string, { beside, below }: Remark, at: Point): Primitive[] {
  const y = at.y - LETTERING.read
  const x = at.x + textWidth(title, LETTERING.read, true) + BEFORE_REMARK
  return [
    text({ x: at.x, y }, title, LETTERING.read, { bold: true }),
    ...(beside ? [text({ x, y }, beside, LETTERING.note)] : []),
    ...below.map((content, i) => text({ x: at.x, y: y - (i + 1) * REMARK }, content, LETTERING.note)),
  ]
}

/** `at`: upper left corner of the ruled part. */
function drawTable(
  input: TableInput,
  widths: readonly number[],
  cells: readonly (readonly (readonly string[])[])[],
  heights: readonly number[],
  at: Point,
): Primitive[] {
  const { columns, bold } = input
  const step = leading(input)
  const width = sumOf(widths)
  const top = at.y
  const head = rowHeight(input, 1)
  const height = head + heights.reduce((a, b) => a + b, 0)
  const out: Primitive[] = []
  out.push(box('outline-thin', at.x, top - head, width, head, 'tint'))
  let x = at.x
  columns.forEach((column, k) => {
    const put = (content: string, y: number, heavy: boolean) => {
      if (content === '') return
      const anchor = column.align ?? 'start'
      const place = { start: x + PAD, end: x + widths[k]! - PAD, middle: x + widths[k]! / 2 }[anchor]
      out.push(text({ x: place, y }, content, letters(input), { anchor, bold: heavy }))
    }
    put(fitText(column.title, letters(input), widths[k]! - PAD, true), top - head + FOOT, true)
    let y = top - head
    cells.forEach((row, i) => {
      if (column.ticks) out.push(box('outline-thin', x + PAD, y - step + FOOT - 0.8, TICK, TICK))
      row[k]!.forEach((content, l) => put(content, y - (l + 1) * step + FOOT - 0.6, bold?.has(i) ?? false))
      y -= heights[i]!
    })
    x += widths[k]!
    if (k + 1 < columns.length) out.push(line('hatch', { x, y: top }, { x, y: top - height }))
  })
  let y = top - head
  for (const h of heights.slice(0, -1)) {
    y -= h
    out.push(line('hatch', { x: at.x, y }, { x: at.x + width, y }))
  }
  out.push(box('frame', at.x, top - height, width, height))
  return out
}
