/** What the title block says, row by row: the data fields of ISO 7200, and the check sum that the job is found by. */
import type { Job, Setup } from '../../job/schema.ts'
import { bounded } from '../text/bounded.ts'
import { LETTERING } from '../text/lettering.ts'
import { breakText, fitText, textWidth } from '../text/textWidth.ts'
import { scaleText, sizeText, type SheetSize } from './sheetSizes.ts'

export type Projection = 'first' | 'third'

export interface TitleInput {
  readonly job: Job
  readonly setup: Setup
  readonly documentType: string
  /** Sheet over model; null where the sheet has no view. */
  readonly scale: number | null
  readonly projection: Projection | null
  readonly sheet: SheetSize
  /** Of this setup, from 1. */
  readonly page: number
  /** Number of the sheet and of all sheets that are drawn together. */
  readonly number: number
  readonly count: number
  readonly date: string
  readonly revision: string
  readonly by: string
  readonly approved: string
  readonly owner: string
  /** Name of the job's file; empty where it is not saved. */
  readonly file: string
  /** Of lathe, plate, part and this setup. */
  readonly checkSum: string
}

/** What the height of the block hangs on. */
export type TitleWords = Omit<TitleInput, 'number' | 'count' | 'page' | 'scale' | 'projection'>

export interface TitleCell {
  readonly width: number
  readonly label: string
  readonly lines: readonly string[]
  /** Capital height. */
  readonly height: number
  readonly bold: boolean
}

export interface TitleRow {
  readonly height: number
  readonly cells: readonly TitleCell[]
}

/** ISO 7200 fits the block to the width of an upright A4 sheet's drawing space. */
export const TITLE_WIDTH = 180
/** Side of the square code, beside the second row and the third. */
export const CODE_SIDE = 20
const ROW = 10
const TITLE_ROW = 12.5
export const PAD = 1.3
/** From a cell's upper edge to the baseline of its label. */
export const LABEL = 1.1 + LETTERING.note
/** Lines of a value in the smallest letters, and from one to the next. */
const MOST_LINES = 6
export const LEADING = 3.6
/** From the last line's baseline to the cell's lower edge. */
export const FOOT = 0.8
/** Under a label, over the lines. */
const OVER = 0.9
/** In place of a number that no cell holds whole: half of it would be another number. */
const ELSEWHERE = 'see the notes'

interface Field {
  readonly width: number
  readonly label: string
  readonly value: string
  /** Never shown in part. */
  readonly whole?: boolean
  readonly bold?: boolean
}

const field = (width: number, label: string, value: string): Field => ({ width, label, value })
const number = (width: number, label: string, value: string): Field => ({ width, label, value, whole: true })

/** Of a cell whose row is shared out by what it says, mm. */
const LEAST = 40

/** One line in the smallest letters for each value where they all have room so; else the long ones share what the others leave. */
function shared(across: number, fields: readonly Field[]): Field[] {
  const wanted = fields.map(({ width, value }) => {
    const line = textWidth(value, LETTERING.note) + 2 * PAD
    return Math.max(width, Math.ceil(line * 10) / 10)
  })
  const spare = across - sum(wanted)
  if (spare >= 0) return fields.map((f, i) => ({ ...f, width: wanted[i]! + spare / fields.length }))
  const isShort = (w: number) => w <= across / fields.length
  const short = wanted.filter(isShort)
  const long = (across - sum(short)) / (fields.length - short.length)
  return fields.map((f, i) => ({ ...f, width: isShort(wanted[i]!) ? wanted[i]! : long }))
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0)

/** Of the first sheet; a sheet that follows has what tells it from others. */
function fieldRows(input: TitleInput): readonly (readonly Field[])[] {
  const { job, setup, sheet } = input
  const nth = job.setups.indexOf(setup) + 1
  const title = [
    { ...field(112, 'Title', job.title || job.part.name), bold: true },
    { ...number(68, 'Part number', job.partNumber ?? ''), bold: true },
  ]
  const setupName = [setup.id, setup.title].filter(Boolean).join('  ')
  const what = [
    field(92, `Setup ${nth} of ${job.setups.length}`, setupName),
    field(68, 'Material', job.part.material),
  ]
  const units = job.displayUnits === 'in' ? 'inch' : 'mm'
  const size = sizeText(sheet.name)
  const count = `${input.number} of ${input.count}`
  if (input.page > 1) {
    const foot = [
      number(38, 'Document number', job.documentNumber ?? ''),
      number(18, 'Revision', input.revision),
      field(25, 'Date', input.date),
      number(41, 'Check sum', input.checkSum),
      field(18, 'Size', size),
      field(20, 'Sheet', count),
    ]
    return [title, what, foot]
  }
  return [
    title,
    what,
    shared(160, [
      field(LEAST, 'Lathe', job.lathe.name),
      field(LEAST, 'Plate', job.plate.name),
      number(LEAST, 'File', input.file),
    ]),
    [
      field(30, 'Document', input.documentType),
      number(42, 'Document number', job.documentNumber ?? ''),
      field(36, 'Drawn by', input.by),
      field(36, 'Approved by', input.approved),
      field(36, 'Owner', input.owner),
    ],
    [
      field(25, 'Date', input.date),
      number(18, 'Revision', input.revision),
      number(41, 'Check sum', input.checkSum),
      field(17, 'Scale', input.scale === null ? '–' : scaleText(input.scale)),
      field(14, 'Units', units),
      field(27, 'Projection', input.projection === null ? '–' : ''),
      field(18, 'Size', size),
      field(20, 'Sheet', count),
    ],
  ]
}

/** The rows with their lines and heights; a row is as high as its fullest cell wants. */
export function titleRows(input: TitleInput): TitleRow[] {
  return fieldRows(input).map((fields, i) => {
    const cells = fields.map(cellOf)
    const wanted = cells.map(({ lines }) =>
      lines.length > 1 ? LABEL + OVER + LETTERING.note + (lines.length - 1) * LEADING + FOOT : 0,
    )
    return { cells, height: Math.max(i === 0 ? TITLE_ROW : ROW, ...wanted) }
  })
}

/** Height of the block on the first sheet, and on one that follows. */
export const titleHeights = (words: TitleWords): { readonly first: number; readonly again: number } => ({
  first: heightOf({ ...words, ...ANY, page: 1 }),
  again: heightOf({ ...words, ...ANY, page: 2 }),
})

/** None of these takes a second line. */
const ANY = { number: 1, count: 1, scale: 1, projection: null } as const

const heightOf = (input: TitleInput): number => sum(titleRows(input).map((r) => r.height))

/** A value in the largest letters that its cell takes on one line, else on as many as it needs in the smallest. */
function cellOf({ width, label, value, whole = false, bold = false }: Field): TitleCell {
  const room = width - 2 * PAD
  const sizes = bold ? [LETTERING.head, LETTERING.read, LETTERING.note] : [LETTERING.read, LETTERING.note]
  const height = sizes.find((h) => textWidth(value, h, bold) <= room) ?? LETTERING.note
  return {
    width,
    label,
    height,
    bold,
    lines: value === '' ? [] : linesOf(value, { room, height, bold, whole }),
  }
}

interface Lines {
  readonly room: number
  readonly height: number
  readonly bold: boolean
  readonly whole: boolean
}

function linesOf(value: string, { room, height, bold, whole }: Lines): string[] {
  const lines = breakText(value, height, room, bold)
  if (lines.length <= MOST_LINES) return lines
  if (whole) return [ELSEWHERE]
  const kept = lines.slice(0, MOST_LINES)
  kept[MOST_LINES - 1] = fitText(`${kept[MOST_LINES - 1]!}…`, height, room, bold)
  return kept
}

/** Letters of a value that are said in full; more is read in the job. */
const MOST_LETTERS = 400

/** Values that no cell holds, with their labels: said in full among the notes. */
export const cutFields = (words: TitleWords): string[] =>
  fieldRows({ ...words, ...ANY, page: 1 }).flatMap((fields) =>
    fields.flatMap(({ width, label, value, bold }) =>
      breakText(value, LETTERING.note, width - 2 * PAD, bold).length > MOST_LINES
        ? [`${label} in full: ${bounded(value, MOST_LETTERS)}`]
        : [],
    ),
  )
