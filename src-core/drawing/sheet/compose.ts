/** The views and lists of a setup put onto as few sheets as they need. */
import type { Analysis } from '../../analysis/result.ts'
import type { Job, Setup } from '../../job/schema.ts'
import type { Mounted } from '../../mounting/types.ts'
import type { DimensionChoices } from '../views/choices.ts'
import { detailOf, type Detail } from '../views/detail.ts'
import { detailView, type DrawnDetail } from '../views/detailView.ts'
import { detailBlock } from './detailBlock.ts'
import { pictureBlock, shelfBlocks } from '../isometric/pictureBlock.ts'
import { drawViews, viewAsides, type DrawnViews } from '../views/drawViews.ts'
import { drawPages, flow, type Block, type Pages, type Region } from './flow.ts'
import { clampTable } from './clampList.ts'
import { cutTable } from './cutList.ts'
import { footerHeight } from './footer.ts'
import { frame } from './frame.ts'
import { INSET, planSheet, viewExtent, type SheetPlan } from './layout.ts'
import { hardwareTable, speedTable } from './lists.ts'
import type { Primitive } from '../model/model.ts'
import { headline, lead, noteBlock, type Headline, type Lead, type Notes } from './noteBlock.ts'
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
import { largerSheets, type SheetSize } from './sheetSizes.ts'
import { SIGN_OFF, madeOfTable, rollTestTable, stepsTable } from './setupLists.ts'
import { tableBlock, type TableInput } from './table.ts'
import { TITLE_WIDTH, type Projection } from './titleFields.ts'

/** Least width of the column of notes, mm. */
const COLUMN = 90
const GUTTER = 8

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

/** How the same things may be set. */
interface Setting {
  /** Lists in the height that the views leave free. */
  readonly fills: boolean
  /** Tables in small letters, and the picture no larger than it must be. */
  readonly hardware: boolean
  readonly speeds: boolean
  readonly picture: boolean
  /** Roll test and sign-off, which have to be written in. */
  readonly forms: boolean
  /** Of tables beside the views. */
  readonly columns: number
}

const USUAL: Setting = {
  ...{ fills: false, hardware: false, speeds: false, picture: false, forms: false },
  columns: 1,
}
const DENSEST: Setting = {
  ...{ fills: true, hardware: true, speeds: true, picture: true, forms: true },
  columns: 1,
}

/** The first is the usual one. */
function settingsOf({ columns }: SheetSize): Setting[] {
  const sizes = [
    USUAL,
    // On a sheet of one column the lists have what the views leave in any case.
    ...(columns > 1 ? [{ ...USUAL, fills: true }] : []),
    { ...USUAL, hardware: true },
    { ...USUAL, picture: true },
    { ...USUAL, hardware: true, picture: true },
    { ...USUAL, hardware: true, speeds: true },
    { ...USUAL, hardware: true, speeds: true, picture: true },
    { ...DENSEST, forms: false },
    DENSEST,
  ]
  // Beside the views of A3 and B there is room for one.
  const most = Math.max(1, columns - 1)
  return sizes.flatMap((s) => Array.from({ length: most }, (_, i) => ({ ...s, columns: i + 1 })))
}

/**
 * As set usually; in another way where that costs the views no scale and brings verdict, hardware and speeds onto the
 * first sheet, or saves a sheet.
 */
export function compose(input: ComposeInput): Composed {
  const { sheet } = input
  const fixed = fixedBlocks(input)
  const [usual, ...others] = settingsOf(sheet).map((setting) => () => layOut(input, fixed, setting))
  let laid = usual!()
  const { scale } = laid.plan
  for (const other of others) {
    if (laid.placed.length === 1) break
    const next = other()
    if (next.plan.scale >= scale && isBetter(next, laid, sheet)) laid = next
  }
  const { plan } = laid
  const { first, again } = fixed
  const detail = laid.detail && { of: laid.detail, drawn: fixed.detail(laid.detail) }
  const drawn = drawViews({ ...input, plan, detail, border: frame(sheet, TITLE_WIDTH) })
  // Set once, but where the notes have to say what the views left out.
  const placed = drawn.unplaced.length > 0 ? flowed(input, fixed, laid, drawn.unplaced) : laid.placed
  const pages = drawPages(placed)
  const top = { x: sheet.left + INSET, y: sheet.top - INSET }
  const headOf = (i: number) => (i > 0 ? again.draw(top) : plan.hasColumn ? [] : first.draw(top))
  return { plan, drawn, pages: pages.map((page, i) => [...headOf(i), ...page]) }
}

const isBetter = (a: LaidOut, b: LaidOut, { large }: SheetSize): boolean =>
  large && a.fits !== b.fits ? a.fits : a.placed.length < b.placed.length

interface LaidOut {
  readonly plan: SheetPlan
  /** All but what is not known before the views are drawn. */
  readonly blocks: readonly Block[]
  /** Whether verdict, stops, hardware and speeds stand on the first sheet. */
  readonly fits: boolean
  /** All of it with the notes, sheet by sheet. */
  readonly placed: Pages
  readonly detail: Detail | null
}

/** What stands on the sheets in one way alone. */
interface Fixed {
  readonly words: Headline
  /** Verdict across the head of the first sheet, and of one that follows. */
  readonly first: Lead
  readonly again: Lead
  readonly against: readonly Block[]
  readonly hardware: (small: boolean) => Block
  readonly speeds: (small: boolean) => Block
  readonly picture: { readonly usual: Block; readonly small: Block }
  readonly shelves: readonly Block[]
  /** What one sets up by, and what is said of it but for the notes. */
  readonly tables: readonly Block[]
  readonly forms: (small: boolean) => readonly Block[]
  readonly texts: readonly Block[]
  /** Drawn once at each scale. */
  readonly detail: (of: Detail) => DrawnDetail
}

function fixedBlocks(input: ComposeInput): Fixed {
  const { job, setup, analysis, sheet } = input
  const words = headlineWords(job, setup, analysis)
  const across = sheet.right - sheet.left - 2 * INSET
  const details = new Map<number, DrawnDetail>()
  const forms = [rollTestTable(input.mounted, analysis), SIGN_OFF].map(inLetters)
  return {
    words,
    first: lead(words, across, true),
    again: lead(words, across, false),
    against: verdictNotes(setup, analysis).map(noteBlock),
    hardware: inLetters(hardwareTable(job, input.mounted)),
    speeds: inLetters(speedTable(job, setup, analysis)),
    picture: { usual: pictureBlock(input.mounted), small: pictureBlock(input.mounted, true) },
    shelves: shelfBlocks(input.mounted),
    tables: setupTables(input).map(tableBlock),
    forms: (small) => forms.map((form) => form(small)),
    texts: texts(input).map(noteBlock),
    detail: (of) => {
      const known = details.get(of.scale) ?? detailView(input, of)
      details.set(of.scale, known)
      return known
    },
  }
}

/** A table in usual and in small letters. */
function inLetters(table: TableInput): (small: boolean) => Block {
  const [usual, smaller] = [tableBlock(table), tableBlock({ ...table, small: true })]
  return (small) => (small ? smaller : usual)
}

function layOut(input: ComposeInput, fixed: Fixed, setting: Setting): LaidOut {
  const { job, mounted, analysis, sheet, scale, projection } = input
  const speeds = fixed.speeds(setting.speeds)
  const hardware = fixed.hardware(setting.hardware)
  const plan = planSheet({
    mounted,
    sheet,
    head: fixed.first.height,
    title: input.title.first,
    lacks: input.lacks,
    extent: viewExtent(job, mounted, analysis),
    scale,
    projection,
    hardware,
    columnWidth: Math.max(COLUMN, speeds.width),
    columns: setting.columns,
    fills: setting.fills,
  })
  const leading = [
    ...(plan.hasColumn ? [headline(fixed.words)] : []),
    ...fixed.against,
    ...(mounted.pieces.length > 0 ? [hardware] : []),
    speeds,
  ]
  const detail = detailOf(mounted, plan.scale)
  const blocks = [
    ...leading,
    ...(detail ? [detailBlock(detail, () => fixed.detail(detail))] : []),
    fixed.picture[setting.picture ? 'small' : 'usual'],
    ...fixed.shelves,
    ...fixed.tables,
    ...fixed.forms(setting.forms),
    ...fixed.texts,
  ]
  const laid = { plan, blocks, detail }
  const fits = setOn(leading, input, fixed, plan).length === 1
  return { ...laid, fits, placed: flowed(input, fixed, laid, []) }
}

/** Blocks and notes on as many sheets as they take. */
const flowed = (
  input: ComposeInput,
  fixed: Fixed,
  { plan, blocks }: Pick<LaidOut, 'plan' | 'blocks'>,
  unplaced: readonly string[],
): Pages => setOn([...blocks, ...notesOf(input, plan, unplaced)], input, fixed, plan)

const setOn = (blocks: readonly Block[], input: ComposeInput, { again }: Fixed, plan: SheetPlan): Pages =>
  flow(blocks, plan.regions, () => furtherRegions(input, again.height))

/** What one sets up by. */
function setupTables({ mounted, analysis }: ComposeInput): TableInput[] {
  const tables = [
    placingTable(mounted),
    boreTable(mounted),
    clampTable(mounted),
    madeOfTable(mounted),
    cutTable(mounted, analysis),
    stepsTable(mounted, analysis),
    revisionTable(mounted.job),
  ]
  return tables.filter((t) => t !== null)
}

function texts({ job, setup, mounted, analysis }: ComposeInput): Notes[] {
  return [
    balanceNotes(job, mounted, analysis),
    ...passNotes(job, setup),
    checklist(analysis),
    ...findingNotes(job, setup, analysis),
    assumptionNotes(job),
  ]
}

/** What has to be said of the views themselves, and the job's own words. */
function notesOf(input: ComposeInput, plan: SheetPlan, unplaced: readonly string[]): Block[] {
  const own = (input.job.notes ?? '').split(/\n+/).filter((l) => l.trim() !== '')
  const cure = largerSheets(input.sheet.name).length > 0 ? ' A larger sheet may have it.' : ''
  const missing = unplaced.length > 0 ? [`No room in the views for: ${unplaced.join(', ')}.${cure}`] : []
  const lines = [...own, ...viewAsides({ ...input, plan }), ...missing, ...input.cut]
  return lines.length > 0 ? [noteBlock({ title: 'Notes', lines, splits: true })] : []
}

/** Sheets after the first, under the verdict: one column on an upright sheet, more on a lying one. */
function furtherRegions({ sheet, title, lacks }: ComposeInput, head: number): Region[] {
  const { left, right, top, bottom, columns } = sheet
  const y = top - INSET - head
  const across = right - left - 2 * INSET
  const above = y - bottom - title.again - 2
  const foot = footerHeight(sheet, lacks)
  if (columns === 1) return [{ x: left + INSET, y, width: across, height: above - foot }]
  const width = (across - (columns - 1) * GUTTER) / columns
  return Array.from({ length: columns }, (_, i) => {
    const x = left + INSET + i * (width + GUTTER)
    const overTitle = x + width > right - TITLE_WIDTH
    return { x, y, width, height: overTitle ? above : y - bottom - foot - 3 }
  })
}
