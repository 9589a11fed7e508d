/**
 * The setup drawing of one setup: views, lists, notes and title block. On a large sheet (A3, B) everything stands on
 * one; on a small one (A4, A), or where a list is long, lists and notes follow on further sheets. Sheet mm.
 */
import type { Analysis } from '../analysis/result.ts'
import { findSetup, mountSetup } from '../mounting/mount.ts'
import type { Job, Setup } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { checkLine, frame } from './frame.ts'
import { frontView, openCentre, quarteredDisc } from './frontView.ts'
import { HARDWARE_COLUMNS, SPEED_COLUMNS, hardwareRows, speedRows } from './lists.ts'
import type { Drawing, Primitive } from './model.ts'
import { noteColumn } from './noteColumn.ts'
import { noteBlocks } from './notes.ts'
import { Placer } from './placer.ts'
import { arrowhead, text } from './primitives.ts'
import { SCALES, SHEETS, type SheetName, type SheetSize } from './sheetSizes.ts'
import { sideRange, sideView } from './sideView.ts'
import { ROW_HEIGHT, table, tableHeight, tableWidth } from './table.ts'
import { TITLE_HEIGHT, TITLE_WIDTH, titleBlock } from './titleBlock.ts'
import { bedIsShown, bedRadius, largestSwing } from './view.ts'

export interface SheetOptions {
  /** 'auto': A3 for metric jobs, ANSI B for inch ones. */
  readonly sheet?: SheetName | 'auto'
  /** Sheet over model; 'auto' takes the largest of ISO 5455 that fits. */
  readonly scale?: number | 'auto'
  /** As it is to stand in the title block; the core reads no clock. */
  readonly date?: string
  readonly revision?: string
  readonly by?: string
}

interface Area {
  readonly x0: number
  readonly y0: number
  readonly x1: number
  readonly y1: number
}

const NOTE_WIDTH = 98
const LIST_BAND = 80
/** Room for slot names, balloons and labels around the front view, mm. */
const AROUND = 27
const ABOVE = 20
/** Below the bed line: its label and the legend. */
const BELOW = 13
const BETWEEN = 22

/** The sheets of one setup, in order. Throws RangeError on an unknown setup. */
export function setupSheet(
  job: Job,
  setupId: string,
  analysis: Analysis,
  options: SheetOptions = {},
): Drawing[] {
  const setup = findSetup(job, setupId)
  const mounted = mountSetup(job, setupId)
  const wanted = options.sheet ?? 'auto'
  const sheet = SHEETS[wanted === 'auto' ? (job.displayUnits === 'in' ? 'ANSI-B' : 'A3') : wanted]
  const area = viewArea(sheet)
  const scale =
    options.scale === undefined || options.scale === 'auto'
      ? fittingScale(job, mounted, analysis, area)
      : options.scale
  const first: Primitive[] = [...frame(sheet), ...views(job, mounted, analysis, area, scale)]
  const hardware = hardwareRows(job, mounted)
  const rest: Primitive[][] = []
  const fits = Math.floor((LIST_BAND - 14) / ROW_HEIGHT) - 1
  if (sheet.large) {
    first.push(
      ...lists(
        job,
        analysis,
        { x: sheet.left + 4, y: sheet.bottom + LIST_BAND - 2 },
        hardware.slice(0, fits),
      ),
    )
    const notes = noteColumn(
      noteBlocks(job, setup, analysis),
      { x: sheet.right - NOTE_WIDTH, y: sheet.top - 5 },
      NOTE_WIDTH - 4,
    )
    first.push(...notes.primitives)
    if (hardware.length > fits) rest.push(...hardwarePages(sheet, hardware.slice(fits)))
  } else {
    const pageRows = Math.floor((sheet.top - sheet.bottom - 14) / ROW_HEIGHT) - 2
    rest.push([
      ...frame(sheet),
      ...noteColumn(noteBlocks(job, setup, analysis), { x: sheet.left + 5, y: sheet.top - 5 }, 118)
        .primitives,
      ...speedList(job, analysis, { x: sheet.left + 132, y: sheet.top - 5 }),
    ])
    for (let i = 0; i < hardware.length; i += pageRows)
      rest.push(...hardwarePages(sheet, hardware.slice(i, i + pageRows)))
  }
  const pages = [first, ...rest]
  return pages.map((primitives, i): Drawing => {
    const marks = i === 0 ? checkLine(sheet.left + 4, sheet.bottom + 3) : []
    const block = titleBlock({
      job,
      setup,
      sheet,
      scale: i === 0 ? scale : null,
      page: i + 1,
      pages: pages.length,
      date: options.date ?? '',
      revision: options.revision ?? '',
      by: options.by ?? '',
    })
    const title = `${job.partNumber || job.title || job.part.name} ${setup.id}, setup drawing`
    return {
      title,
      width: sheet.width,
      height: sheet.height,
      primitives: [...primitives, ...marks, ...block],
    }
  })
}

/** Where the views may stand: left of the notes and above the lists, or the whole of a small sheet above its block. */
function viewArea(sheet: SheetSize): Area {
  if (sheet.large)
    return {
      x0: sheet.left + 2,
      y0: sheet.bottom + LIST_BAND + 2,
      x1: sheet.right - NOTE_WIDTH - 4,
      y1: sheet.top - 2,
    }
  return { x0: sheet.left + 2, y0: sheet.bottom + TITLE_HEIGHT + 6, x1: sheet.right - 2, y1: sheet.top - 2 }
}

/** Size of the views in model mm: what the front view needs each way from the axis, and the side view along z. */
function modelSize(
  job: Job,
  mounted: Mounted,
  analysis: Analysis,
): { reach: number; below: number; depth: number } {
  const reach = largestSwing(analysis, job.plate.diameter)
  const { back, front } = sideRange({ job, mounted })
  return {
    reach,
    below: bedIsShown(job, analysis) ? Math.max(reach, bedRadius(job).radius) : reach,
    depth: front - back,
  }
}

function fittingScale(job: Job, mounted: Mounted, analysis: Analysis, area: Area): number {
  const { reach, below, depth } = modelSize(job, mounted, analysis)
  const fits = (s: number) =>
    2 * reach * s + 2 * AROUND + BETWEEN + depth * s <= area.x1 - area.x0 &&
    (reach + below) * s + ABOVE + BELOW <= area.y1 - area.y0
  return SCALES.find(fits) ?? SCALES[SCALES.length - 1]!
}

function views(job: Job, mounted: Mounted, analysis: Analysis, area: Area, scale: number): Primitive[] {
  const { reach, below, depth } = modelSize(job, mounted, analysis)
  const spareX = Math.max(0, area.x1 - area.x0 - (2 * reach * scale + 2 * AROUND + BETWEEN + depth * scale))
  const spareY = Math.max(0, area.y1 - area.y0 - ((reach + below) * scale + ABOVE + BELOW))
  const axisY = area.y0 + BELOW + below * scale + spareY / 2
  const frontX = area.x0 + AROUND + reach * scale + spareX / 3
  const placer = new Placer(area)
  const sideX = area.x1 - BETWEEN - depth * scale + job.plate.thickness * scale - spareX / 4
  // The side view keeps its own ground; labels of the front view stay left of it.
  const split = sideX - job.plate.thickness * scale - 6
  placer.block({ x0: split, y0: area.y0, x1: area.x1, y1: area.y1 })
  const front = frontView({ job, mounted, analysis, scale, origin: { x: frontX, y: axisY }, placer })
  const sidePlacer = new Placer({ ...area, x0: split })
  const side = sideView({ job, mounted, analysis, scale, origin: { x: sideX, y: axisY }, placer: sidePlacer })
  return [...front, ...side, ...legend({ x: area.x0 + 3, y: area.y0 + 2 })]
}

/** What the marks in the front view mean. */
function legend(at: { x: number; y: number }): Primitive[] {
  return [
    ...quarteredDisc({ x: at.x + 1, y: at.y + 1.2 }, 1.6),
    text({ x: at.x + 4, y: at.y }, 'centre of mass as set up', 2.5),
    ...openCentre({ x: at.x + 53, y: at.y + 1.2 }, 1.6),
    text({ x: at.x + 56, y: at.y }, 'before counterweights', 2.5),
    arrowhead('mark', { x: at.x + 103, y: at.y + 1.2 }, Math.PI, 3),
    text({ x: at.x + 108, y: at.y }, 'index slot', 2.5),
    text({ x: at.x + 134, y: at.y }, 'seen from the tailstock; side view from the operator', 2.5),
  ]
}

function lists(job: Job, analysis: Analysis, at: { x: number; y: number }, rows: string[][]): Primitive[] {
  const gap = 3
  return [
    ...table({ title: 'Hardware', at, columns: HARDWARE_COLUMNS, rows }),
    text({ x: at.x + 27, y: at.y - 3.3 }, '* angle counter-clockwise from the index slot', 2.5),
    ...speedList(job, analysis, { x: at.x + tableWidth(HARDWARE_COLUMNS) + gap, y: at.y }),
  ]
}

function speedList(job: Job, analysis: Analysis, at: { x: number; y: number }): Primitive[] {
  const { rows, bold } = speedRows(job, analysis)
  return table({ title: 'Spindle speeds, * chosen', at, columns: SPEED_COLUMNS, rows, bold })
}

function hardwarePages(sheet: SheetSize, rows: string[][]): Primitive[][] {
  const at = { x: sheet.left + 5, y: sheet.top - 5 }
  const room = Math.floor((sheet.top - sheet.bottom - TITLE_HEIGHT - 14) / ROW_HEIGHT) - 2
  const pages: Primitive[][] = []
  for (let i = 0; i < rows.length; i += room)
    pages.push([
      ...frame(sheet),
      ...table({ title: 'Hardware', at, columns: HARDWARE_COLUMNS, rows: rows.slice(i, i + room) }),
    ])
  return pages
}
