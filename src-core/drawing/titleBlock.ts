/** Title block with the data fields of ISO 7200, first-angle symbol of ISO 5456-2, at the lower right of the frame. */
import type { Job, Setup } from '../job/schema.ts'
import type { Primitive } from './model.ts'
import { box, circle, line, polyline, text } from './primitives.ts'
import { scaleText, type SheetSize } from './sheetSizes.ts'
import { fitText } from './textWidth.ts'

export const TITLE_WIDTH = 180
export const TITLE_HEIGHT = 37

export interface TitleInput {
  readonly job: Job
  readonly setup: Setup
  readonly scale: number | null
  readonly sheet: SheetSize
  readonly page: number
  readonly pages: number
  readonly date: string
  readonly revision: string
  readonly by: string
}

interface Cell {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
  readonly label: string
  readonly value: string
  readonly big?: boolean
}

export function titleBlock(input: TitleInput): Primitive[] {
  const { job, setup, sheet } = input
  const x0 = sheet.right - TITLE_WIDTH
  const y0 = sheet.bottom
  const number = job.setups.indexOf(setup) + 1
  const cells: Cell[] = [
    { x: 0, y: 24, width: 108, height: 13, label: 'Title', value: job.title || job.part.name, big: true },
    { x: 108, y: 24, width: 72, height: 13, label: 'Part number', value: job.partNumber || '–', big: true },
    {
      x: 0,
      y: 12,
      width: 78,
      height: 12,
      label: `Setup ${number} of ${job.setups.length}`,
      value: `${setup.id}  ${setup.title}`,
    },
    {
      x: 78,
      y: 12,
      width: 62,
      height: 12,
      label: 'Lathe, plate',
      value: `${job.lathe.name}, ${job.plate.name}`,
    },
    { x: 140, y: 12, width: 40, height: 12, label: 'Material', value: job.part.material },
    { x: 0, y: 0, width: 34, height: 12, label: 'Document', value: 'Setup drawing' },
    { x: 34, y: 0, width: 26, height: 12, label: 'Drawn by', value: input.by || '–' },
    { x: 60, y: 0, width: 27, height: 12, label: 'Date', value: input.date || '–' },
    { x: 87, y: 0, width: 14, height: 12, label: 'Rev.', value: input.revision || '–' },
    {
      x: 101,
      y: 0,
      width: 18,
      height: 12,
      label: 'Scale',
      value: input.scale === null ? '–' : scaleText(input.scale),
    },
    { x: 119, y: 0, width: 16, height: 12, label: 'Units', value: job.displayUnits === 'in' ? 'inch' : 'mm' },
    { x: 135, y: 0, width: 22, height: 12, label: 'Projection', value: '' },
    {
      x: 157,
      y: 0,
      width: 23,
      height: 12,
      label: 'Sheet',
      value: `${input.page} / ${input.pages}  ${sheet.name}`,
    },
  ]
  return [
    box('frame', x0, y0, TITLE_WIDTH, TITLE_HEIGHT, 'paper'),
    ...cells.flatMap((c) => cell(c, x0, y0)),
    ...projectionSymbol(x0 + 138, y0 + 4.4),
  ]
}

function cell(c: Cell, x0: number, y0: number): Primitive[] {
  const x = x0 + c.x
  const y = y0 + c.y
  const height = c.big ? 4 : 2.8
  return [
    box('frame', x, y, c.width, c.height),
    text({ x: x + 1.2, y: y + c.height - 3.2 }, c.label, 1.8),
    text(
      { x: x + 1.2, y: y + (c.big ? 2.6 : 2.4) },
      fitText(c.value, height, c.width - 2.4, c.big ?? false),
      height,
      { bold: c.big ?? false },
    ),
  ]
}

/** First angle: the truncated cone's side view at the left, its end view at the right. */
function projectionSymbol(x: number, y: number): Primitive[] {
  const cone = [
    { x, y: y - 1.2 },
    { x, y: y + 1.2 },
    { x: x + 6, y: y + 2.4 },
    { x: x + 6, y: y - 2.4 },
  ]
  const centre = { x: x + 12, y }
  return [
    polyline('outline-thin', cone, true),
    circle('outline-thin', centre, 2.4),
    circle('outline-thin', centre, 1.2),
    line('centre', { x: x - 1.5, y }, { x: x + 16, y }),
    line('centre', { x: centre.x, y: y - 3.4 }, { x: centre.x, y: y + 3.4 }),
  ]
}
