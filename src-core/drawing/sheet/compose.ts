/** The views and lists of a setup put onto as few sheets as they need. */
import type { Analysis } from '../../analysis/result.ts'
import type { Job, Setup } from '../../job/schema.ts'
import type { Mounted } from '../../mounting/types.ts'
import type { DimensionChoices } from '../views/choices.ts'
import { pictureBlock } from '../isometric/pictureBlock.ts'
import { drawViews, type DrawnViews } from '../views/drawViews.ts'
import { flow, type Block, type Region } from './flow.ts'
import { footerHeight } from './footer.ts'
import { frame } from './frame.ts'
import { INSET, planSheet, viewExtent, type SheetPlan } from './layout.ts'
import { hardwareTable, speedTable } from './lists.ts'
import type { Primitive } from '../model/model.ts'
import { headline, lead, noteBlock, type Lead } from './noteBlock.ts'
import {
  assumptionNotes,
  balanceNotes,
  checklist,
  findingNotes,
  headlineWords,
  verdictNotes,
} from './notes.ts'
import { passNotes } from './passNotes.ts'
import { boreTable, placingTable } from './placingList.ts'
import { revisionTable } from './revisionList.ts'
import type { SheetSize } from './sheetSizes.ts'
import { SIGN_OFF, clampTable, cutTable, madeOfTable, rollTestTable, stepsTable } from './setupLists.ts'
import { tableBlock } from './table.ts'
import { TITLE_WIDTH, type Projection } from './titleFields.ts'

/** Least width of the column of notes, mm. */
const COLUMN = 90

export interface ComposeInput {
  readonly job: Job
  readonly setup: Setup
  readonly mounted: Mounted
  readonly analysis: Analysis
  readonly sheet: SheetSize
  readonly scale: number | 'auto'
  readonly projection: Projection
  readonly choices: DimensionChoices
  /** Heights of the title block, on the first sheet and on one that follows. */
  readonly title: { readonly first: number; readonly again: number }
  /** Whether texts of the sheets have letters that the typeface lacks. */
  readonly lacks: boolean
  /** What the title block could not hold. */
  readonly cut: readonly string[]
}

export interface Composed {
  readonly plan: SheetPlan
  readonly drawn: DrawnViews
  /** Lists and notes, sheet by sheet. */
  readonly pages: readonly (readonly Primitive[])[]
}

/** Which tables are in small letters. */
interface Small {
  readonly hardware: boolean
  readonly speeds: boolean
}

const USUAL: Small = { hardware: false, speeds: false }
const SMALLER: readonly Small[] = [
  { hardware: true, speeds: false },
  { hardware: true, speeds: true },
]

/** With tables in small letters where that brings them onto the first sheet and costs the views no scale. */
export function compose(input: ComposeInput): Composed {
  const { sheet } = input
  const usual = layOut(input, USUAL)
  const smaller = usual.fits || !sheet.large ? [] : SMALLER.map((small) => layOut(input, small))
  const laid = smaller.find((l) => l.fits && l.plan.scale >= usual.plan.scale) ?? usual
  const { plan, first, again } = laid
  const drawn = drawViews({ ...input, plan, border: frame(sheet, TITLE_WIDTH) })
  const blocks = [...laid.blocks, ...setupBlocks(input), tableBlock(SIGN_OFF), ...textBlocks(input, drawn)]
  const pages = flow(blocks, plan.regions, () => furtherRegions(input, again.height))
  const top = { x: sheet.left + INSET, y: sheet.top - INSET }
  const headOf = (i: number) => (i > 0 ? again.draw(top) : plan.hasColumn ? [] : first.draw(top))
  return { plan, drawn, pages: pages.map((page, i) => [...headOf(i), ...page]) }
}

interface LaidOut {
  readonly plan: SheetPlan
  /** Verdict, stops, hardware, speeds. */
  readonly blocks: readonly Block[]
  /** Whether these stand on the first sheet. */
  readonly fits: boolean
  /** Verdict across the head of the first sheet, and of one that follows. */
  readonly first: Lead
  readonly again: Lead
}

function layOut(input: ComposeInput, small: Small): LaidOut {
  const { job, setup, mounted, analysis, sheet, scale, projection } = input
  const speeds = tableBlock({ ...speedTable(job, setup, analysis), small: small.speeds })
  const hardware = tableBlock({ ...hardwareTable(job, mounted), small: small.hardware })
  const words = headlineWords(job, setup, analysis)
  const across = sheet.right - sheet.left - 2 * INSET
  const first = lead(words, across, true)
  const again = lead(words, across, false)
  const plan = planSheet({
    mounted,
    sheet,
    head: first.height,
    title: input.title.first,
    lacks: input.lacks,
    extent: viewExtent(job, mounted, analysis),
    scale,
    projection,
    hardware,
    columnWidth: Math.max(COLUMN, speeds.width),
  })
  const blocks = [
    ...(plan.hasColumn ? [headline(words)] : []),
    ...verdictNotes(setup, analysis).map(noteBlock),
    ...(mounted.pieces.length > 0 ? [hardware] : []),
    speeds,
  ]
  const fits = flow(blocks, plan.regions, () => furtherRegions(input, again.height)).length === 1
  return { plan, blocks, fits, first, again }
}

/** What one sets up by. */
function setupBlocks({ mounted, analysis }: ComposeInput): Block[] {
  const tables = [
    placingTable(mounted),
    boreTable(mounted),
    clampTable(mounted),
    madeOfTable(mounted),
    cutTable(mounted, analysis),
    stepsTable(mounted, analysis),
    rollTestTable(mounted, analysis),
    revisionTable(mounted.job),
  ]
  return [pictureBlock(mounted), ...tables.flatMap((t) => (t ? [tableBlock(t)] : []))]
}

function textBlocks(input: ComposeInput, { asides, unplaced }: DrawnViews): Block[] {
  const { job, setup, mounted, analysis } = input
  const own = (job.notes ?? '').split(/\n+/).filter((l) => l.trim() !== '')
  const missing = unplaced.length > 0 ? [`No room in the views for: ${unplaced.join(', ')}.`] : []
  const notes = [...own, ...asides, ...missing, ...input.cut]
  return [
    balanceNotes(job, mounted, analysis),
    ...passNotes(job, setup),
    checklist(analysis),
    ...findingNotes(job, setup, analysis),
    assumptionNotes(job),
    ...(notes.length > 0 ? [{ title: 'Notes', lines: notes }] : []),
  ].map(noteBlock)
}

/** Sheets after the first, under the verdict: one column on an upright sheet, two on a lying one. */
function furtherRegions({ sheet, title, lacks }: ComposeInput, head: number): Region[] {
  const x = sheet.left + INSET
  const y = sheet.top - INSET - head
  const width = sheet.right - sheet.left - 2 * INSET
  const above = y - sheet.bottom - title.again - 2
  if (!sheet.large) return [{ x, y, width, height: above - footerHeight(sheet, lacks) }]
  const column = (width - 8) / 2
  return [
    { x, y, width: column, height: y - sheet.bottom - footerHeight(sheet, lacks) - 3 },
    { x: x + column + 8, y, width: column, height: above },
  ]
}
