/**
 * Where the views and the lists stand on the first sheet, and the scale that fits: the largest of ISO 5455 at which
 * the views have room for their labels. Sheet mm.
 */
import type { Analysis } from '../../analysis/result.ts'
import type { Point } from '../../geometry/types.ts'
import type { Job } from '../../job/schema.ts'
import type { Mounted } from '../../mounting/types.ts'
import { captionsHeight } from './captions.ts'
import { NARROWEST, type Block, type Region } from './flow.ts'
import { footerHeight } from './footer.ts'
import { CENTRING } from './frame.ts'
import type { Bounds } from '../placing/inkMap.ts'
import { SCALES, type SheetSize } from './sheetSizes.ts'
import { sideRange } from '../views/sideLines.ts'
import { TITLE_WIDTH, type Projection } from './titleFields.ts'
import { bedIsShown, bedRadius, largestSwing } from '../views/view.ts'

/** Text keeps clear of the frame by this, so that centring marks do not meet it. */
export const INSET = CENTRING + 1
/** Labels around the front view, mm. */
const AROUND = { metric: 26, inch: 29 }
const ABOVE = 22
const BELOW = 14
/** Below the bed line. */
const UNDER_BED = 10
/** Beside and above the side view, for its dimensions. */
const SIDE = { metric: 13, inch: 18 }
/** Below this diameter on paper the labels crowd the plate, and the views get a sheet of their own. */
const CROWDED = 90
/** Below this, mm, room beside the views is given up for a larger scale. */
const VERY_SMALL = 55
const TIGHT = 0.75
/** Height that the hardware list may take under the views. */
const MOST_LIST = 130
const BETWEEN_COLUMNS = 6
/** Height above and below the views that lists under them leave to the labels, mm. */
const AIR = 12
const WIDE_COLUMN = 180

export interface SheetPlan {
  readonly scale: number
  /** Ground of each view, and where the axis (and plate face) stands in it. */
  readonly front: { readonly area: Bounds; readonly origin: Point }
  readonly side: { readonly area: Bounds; readonly origin: Point }
  /** Ground of all views and labels. */
  readonly area: Bounds
  /** Whether the verdict stands in a column beside the views, and not across the head. */
  readonly hasColumn: boolean
  /** Upper left corner of the captions under the views, and the width they have. */
  readonly captions: { readonly at: Point; readonly width: number }
  /** For blocks, on the first sheet. */
  readonly regions: readonly Region[]
}

export interface Extent {
  readonly reach: number
  /** Bed below the axis, mm; null where it is not drawn. */
  readonly bed: number | null
  readonly back: number
  readonly front: number
  readonly around: number
  readonly beside: number
}

/** Size of the views in model mm, and the room that labels take beside the front view in sheet mm. */
export function viewExtent(job: Job, mounted: Mounted, analysis: Analysis): Extent {
  const reach = largestSwing(analysis, job.plate.diameter)
  return {
    reach,
    bed: bedIsShown(job, analysis) ? bedRadius(job).radius : null,
    ...sideRange({ job, mounted }),
    around: job.displayUnits === 'in' ? AROUND.inch : AROUND.metric,
    beside: job.displayUnits === 'in' ? SIDE.inch : SIDE.metric,
  }
}

export interface PlanInput {
  readonly mounted: Mounted
  readonly sheet: SheetSize
  /** Height that the verdict takes across the head of a sheet without a column. */
  readonly head: number
  /** Height of the title block. */
  readonly title: number
  /** Whether the footer has to explain letters that the typeface lacks. */
  readonly lacks: boolean
  readonly extent: Extent
  readonly scale: number | 'auto'
  readonly projection: Projection
  /** The list that goes under the views where it can, and the block that everything else follows. */
  readonly hardware: Block
  readonly columnWidth: number
  /** Of tables beside the views, where they share the sheet. */
  readonly columns: number
  /** Whether height that views and list leave free goes to what follows them. */
  readonly fills: boolean
}

/** Throws RangeError on a scale that is not a positive number. */
export function planSheet(input: PlanInput): SheetPlan {
  const { sheet, scale } = input
  if (scale !== 'auto' && !(scale > 0 && Number.isFinite(scale))) throw new RangeError(`no scale ${scale}`)
  const layouts = sheet.large ? [...sharedLayouts(input), wholeLayout(input)] : [wholeLayout(input)]
  const fits = layouts.map((l) => fit(input, l))
  const k = layouts.findIndex((_, i) => isGood(input, fits[i]!))
  const best = k >= 0 ? k : fits.reduce((b, f, i) => (f.scale > fits[b]!.scale ? i : b), 0)
  const { scale: found, extent } = fits[best]!
  const chosen = { ...input, extent }
  return arrange(chosen, input.fills ? filled(chosen, layouts[best]!, found) : layouts[best]!, found)
}

/** The scale asked for, or a plate that its labels do not crowd. */
const isGood = ({ mounted, scale }: PlanInput, { scale: found }: Fit): boolean =>
  scale === 'auto' ? mounted.job.plate.diameter * found >= CROWDED : found >= scale

interface Fit {
  readonly scale: number
  readonly extent: Extent
}

/** The largest scale that fits; with less room beside the views where the plate would come out very small. */
function fit({ extent, mounted, scale }: PlanInput, layout: Layout): Fit {
  const loose = fittingScale(extent, layout, scale)
  const tight = { ...extent, around: extent.around * TIGHT, beside: extent.beside * TIGHT }
  const tightScale = fittingScale(tight, layout, scale)
  const squeeze = tightScale > loose && (scale !== 'auto' || mounted.job.plate.diameter * loose < VERY_SMALL)
  return squeeze ? { scale: tightScale, extent: tight } : { scale: loose, extent }
}

/** One asked for that does not fit gives way to the largest that does. */
function fittingScale(extent: Extent, { area, captions }: Layout, wanted: number | 'auto'): number {
  const fits = (s: number) =>
    widthAt(extent, s) <= area.x1 - area.x0 && heightAt(extent, s, captions) <= area.y1 - area.y0
  if (wanted !== 'auto' && fits(wanted)) return wanted
  const most = wanted === 'auto' ? Infinity : wanted
  return SCALES.find((s) => s <= most && fits(s)) ?? SCALES[SCALES.length - 1]!
}

const captionsWidth = (area: Bounds): number => area.x1 - area.x0 - 8

interface Layout {
  readonly area: Bounds
  readonly regions: readonly Region[]
  readonly hasColumn: boolean
  /** Height of view titles and legend. */
  readonly captions: number
  /** Of the list under the views, where they share the sheet with a column. */
  readonly list: number
  /** Whether blocks may follow under the views. */
  readonly under: boolean
}

/** With the hardware list under the views where it fits whole, and without it. */
function sharedLayouts(input: PlanInput): Layout[] {
  const { sheet, hardware } = input
  const list = hardware.lay(listWidth(sheet), MOST_LIST)
  const whole = list && list.rest === null ? [list.height] : []
  return [...whole, 0].map((height) => sharedLayout(input, height))
}

/** With the views' free height, but for some air, given to the lists under them. */
function filled(input: PlanInput, layout: Layout, scale: number): Layout {
  const { area, captions, list, hasColumn } = layout
  const free = area.y1 - area.y0 - heightAt(input.extent, scale, captions) - AIR
  return hasColumn && free > 0 ? sharedLayout(input, list, free) : layout
}

const listWidth = (sheet: SheetSize): number => sheet.right - TITLE_WIDTH - 4 - sheet.left - INSET

/** Views at the upper left, columns of notes at the right over the title block, room for a list under the views and for more below it. */
function sharedLayout(
  { mounted, sheet, title, columnWidth, columns, hardware, lacks }: PlanInput,
  listHeight: number,
  more = 0,
): Layout {
  const left = sheet.left + INSET
  const band = Math.max(title + 2, footerHeight(sheet, lacks) + listHeight + 3) + more
  // The verdict's at the right, as narrow as it can be; those for the wide tables beside it.
  const columnX = sheet.right - INSET - columnWidth
  const wide = Array.from(
    { length: columns - 1 },
    (_, i) => columnX - (columns - 1 - i) * (WIDE_COLUMN + BETWEEN_COLUMNS),
  )
  const columnTop = sheet.top - INSET
  const column = (x: number, width: number): Region => ({
    x,
    y: columnTop,
    width,
    // Over the title block, or over the list that reaches as far as the block.
    height: columnTop - sheet.bottom - (x < left + listWidth(sheet) ? Math.max(band, title + 4) : title + 4),
  })
  const area = {
    x0: sheet.left + 2,
    y0: sheet.bottom + band,
    x1: (wide[0] ?? columnX) - 3,
    y1: sheet.top - 2,
  }
  return {
    area,
    captions: captionsHeight(mounted, captionsWidth(area)),
    list: listHeight,
    regions: [
      column(columnX, columnWidth),
      ...wide.map((x) => column(x, WIDE_COLUMN)),
      ...besideList(
        {
          x: left,
          y: sheet.bottom + band - 3,
          width: listWidth(sheet),
          height: band - 3 - footerHeight(sheet, lacks),
        },
        listHeight > 0 && more === 0 ? (hardware.fullWidth ?? Infinity) : Infinity,
      ),
    ],
    hasColumn: true,
    under: false,
  }
}

/** A region, parted where notes have room beside a list of that width. */
function besideList(region: Region, width: number): Region[] {
  const left = region.width - width - BETWEEN_COLUMNS
  if (left < NARROWEST) return [region]
  return [
    { ...region, width },
    { ...region, x: region.x + width + BETWEEN_COLUMNS, width: left },
  ]
}

/** Views over the whole sheet above the title block; blocks in what is left under them and beside the block. */
function wholeLayout({ mounted, sheet, title, head, lacks }: PlanInput): Layout {
  const bottom = sheet.bottom + title + (sheet.large ? 2 : footerHeight(sheet, lacks))
  const beside: Region[] = sheet.large
    ? [
        {
          x: sheet.left + INSET,
          y: sheet.bottom + title - 1,
          width: sheet.right - TITLE_WIDTH - 4 - sheet.left - INSET,
          height: title - 1 - footerHeight(sheet, lacks),
        },
      ]
    : []
  const area = { x0: sheet.left + 2, y0: bottom, x1: sheet.right - 2, y1: sheet.top - 2 - head }
  return {
    area,
    captions: captionsHeight(mounted, captionsWidth(area)),
    list: 0,
    regions: beside,
    hasColumn: false,
    under: !sheet.large,
  }
}

const widthAt = ({ reach, back, front, around, beside }: Extent, s: number): number =>
  2 * (reach * s + around) + (front - back) * s + 2 * beside
/** From the axis down to the captions, sheet mm. */
const depthAt = ({ reach, bed }: Extent, s: number): number =>
  Math.max(reach * s + BELOW, bed === null ? 0 : bed * s + UNDER_BED)
const heightAt = (extent: Extent, s: number, captions: number): number =>
  extent.reach * s + ABOVE + depthAt(extent, s) + captions

/** Spreads what room is left over the views; on a small sheet it goes to the blocks under them. */
function arrange({ sheet, extent, projection }: PlanInput, layout: Layout, scale: number): SheetPlan {
  const { area, captions } = layout
  const { reach, back, front, around, beside } = extent
  const needed = heightAt(extent, scale, captions)
  const bottom = layout.under ? Math.max(area.y0, area.y1 - needed - 4) : area.y0
  const spareY = Math.max(0, area.y1 - bottom - needed)
  const spareX = Math.max(0, area.x1 - area.x0 - widthAt(extent, scale))
  const frontWidth = 2 * (reach * scale + around) + (spareX * 2) / 3
  const sideWidth = (front - back) * scale + 2 * beside + spareX / 3
  const axisY = bottom + captions + depthAt(extent, scale) + spareY / 2
  const low = bottom + captions
  const frontFirst = projection === 'first'
  const frontX0 = frontFirst ? area.x0 : area.x0 + sideWidth
  const sideX0 = frontFirst ? area.x0 + frontWidth : area.x0
  const face = sideX0 + beside + spareX / 6 - back * scale
  const under: Region[] = layout.under
    ? [
        {
          x: sheet.left + INSET,
          y: bottom - 3,
          width: sheet.right - sheet.left - 2 * INSET,
          height: bottom - 3 - area.y0,
        },
      ]
    : []
  return {
    scale,
    front: {
      area: { x0: frontX0, y0: low, x1: Math.min(area.x1, frontX0 + frontWidth), y1: area.y1 },
      origin: { x: frontX0 + frontWidth / 2, y: axisY },
    },
    side: {
      area: { x0: sideX0, y0: low, x1: Math.min(area.x1, sideX0 + sideWidth), y1: area.y1 },
      origin: { x: face, y: axisY },
    },
    area: { ...area, y0: low },
    hasColumn: layout.hasColumn,
    captions: { at: { x: area.x0 + 4, y: low - 1.5 }, width: captionsWidth(area) },
    regions: [...layout.regions, ...under],
  }
}
