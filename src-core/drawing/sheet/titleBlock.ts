/** Title block with the data fields of ISO 7200 and the projection symbol of ISO 5456-2, at the lower right of the frame. */
import type { Job, Setup } from '../../job/schema.ts'
import { bounded } from '../text/bounded.ts'
import { LETTERING } from '../text/lettering.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { box, circle, line, polyline, text } from '../model/primitives.ts'
import { scaleText, type SheetSize } from './sheetSizes.ts'
import { breakText, fitText, textWidth } from '../text/textWidth.ts'

/** ISO 7200 fits the block to the width of an upright A4 sheet's drawing space. */
export const TITLE_WIDTH = 180
const ROW = 10
const TITLE_ROW = 12.5
export const TITLE_HEIGHT = TITLE_ROW + 4 * ROW
/** Of a sheet that follows: what tells it from others, the rest stands on the first. */
export const SHORT_TITLE_HEIGHT = TITLE_ROW + 2 * ROW

/** Height of the block on a sheet, the first being 1. */
export const titleHeight = (page: number): number => (page === 1 ? TITLE_HEIGHT : SHORT_TITLE_HEIGHT)
const PAD = 1.3

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
}

type Cell = readonly [width: number, label: string, value: string]

function cellRows(input: TitleInput): readonly (readonly Cell[])[] {
  const { job, setup, sheet } = input
  const number = job.setups.indexOf(setup) + 1
  const first: readonly (readonly Cell[])[] = [
    [
      [118, 'Lathe', job.lathe.name],
      [62, 'Plate', job.plate.name],
    ],
    [
      [42, 'Document', input.documentType],
      [46, 'Drawn by', input.by],
      [46, 'Approved by', input.approved],
      [46, 'Owner', input.owner],
    ],
  ]
  return [
    [
      [118, 'Title', job.title || job.part.name],
      [62, 'Part number', job.partNumber ?? ''],
    ],
    [
      [118, `Setup ${number} of ${job.setups.length}`, [setup.id, setup.title].filter(Boolean).join('  ')],
      [62, 'Material', job.part.material],
    ],
    ...(input.page === 1 ? first : []),
    [
      [32, 'Date', input.date],
      [20, 'Revision', input.revision],
      [20, 'Scale', input.scale === null ? '–' : scaleText(input.scale)],
      [20, 'Units', job.displayUnits === 'in' ? 'inch' : 'mm'],
      [36, 'Projection', input.projection === null ? '–' : ''],
      [24, 'Size', sheet.name.replace('ANSI-', 'ANSI ')],
      [28, 'Sheet', `${input.number} of ${input.count}`],
    ],
  ]
}

export function titleBlock(input: TitleInput): PlainPrimitive[] {
  const { sheet } = input
  const rows = cellRows(input)
  const whole = titleHeight(input.page)
  const x0 = sheet.right - TITLE_WIDTH
  const out: PlainPrimitive[] = [box('frame', x0, sheet.bottom, TITLE_WIDTH, whole, 'paper')]
  let y = sheet.bottom + whole
  rows.forEach((cells, i) => {
    const height = i === 0 ? TITLE_ROW : ROW
    y -= height
    if (i > 0)
      out.push(line('outline-thin', { x: x0, y: y + height }, { x: x0 + TITLE_WIDTH, y: y + height }))
    let x = x0
    for (const [width, label, value] of cells) {
      if (x > x0) out.push(line('outline-thin', { x, y }, { x, y: y + height }))
      out.push(text({ x: x + PAD, y: y + height - 1.1 - LETTERING.note }, label, LETTERING.note))
      if (value) out.push(...field(value, x + PAD, y, width - 2 * PAD, i === 0))
      if (label === 'Projection' && input.projection)
        out.push(...projectionSymbol(x + width - 11, y + 3.7, input.projection))
      x += width
    }
  })
  return out
}

/** Lines of a value in the smallest letters, and from one to the next. */
const MOST_LINES = 2
const LEADING = 3

/** A value in the largest letters that its cell takes on one line, else on two in the smallest. */
function field(value: string, x: number, y: number, width: number, bold: boolean): PlainPrimitive[] {
  const sizes = bold ? [LETTERING.head, LETTERING.read, LETTERING.note] : [LETTERING.read, LETTERING.note]
  const height = sizes.find((h) => textWidth(value, h, bold) <= width)
  if (height) return [text({ x, y: y + 1.5 }, value, height, { bold })]
  const lines = breakText(value, LETTERING.note, width, bold)
  const kept = lines.slice(0, MOST_LINES)
  if (lines.length > MOST_LINES)
    kept[MOST_LINES - 1] = fitText(`${kept[MOST_LINES - 1]!}…`, LETTERING.note, width, bold)
  return kept.map((l, i) =>
    text({ x, y: y + 0.8 + (kept.length - 1 - i) * LEADING }, l, LETTERING.note, { bold }),
  )
}

/** Letters of a value that are said in full; more is read in the job. */
const MOST_LETTERS = 400

/** Values that even two lines do not hold, with their labels: said in full among the notes. */
export function cutFields(input: Omit<TitleInput, 'number' | 'count'>): string[] {
  return cellRows({ ...input, number: 1, count: 1 }).flatMap((cells, i) =>
    cells.flatMap(([width, label, value]) =>
      breakText(value, LETTERING.note, width - 2 * PAD, i === 0).length > MOST_LINES
        ? [`${label} in full: ${bounded(value, MOST_LETTERS)}`]
        : [],
    ),
  )
}

/** The truncated cone's side view and its end view: the end view at the right in first angle, at the left in third. */
function projectionSymbol(x: number, y: number, projection: Projection): PlainPrimitive[] {
  const sense = projection === 'first' ? 1 : -1
  const cone = { x: x - sense * 5, y }
  const end = { x: x + sense * 6, y }
  return [
    polyline(
      'outline-thin',
      [
        { x: cone.x - 3, y: y - 1.2 },
        { x: cone.x - 3, y: y + 1.2 },
        { x: cone.x + 3, y: y + 2.4 },
        { x: cone.x + 3, y: y - 2.4 },
      ],
      true,
    ),
    circle('outline-thin', end, 2.4),
    circle('outline-thin', end, 1.2),
    line('centre', { x: cone.x - 4.5, y }, { x: cone.x + 4.5, y }),
    line('centre', { x: end.x - 3.6, y }, { x: end.x + 3.6, y }),
    line('centre', { x: end.x, y: y - 3.4 }, { x: end.x, y: y + 3.4 }),
  ]
}
