/**
 * The setup drawing of one setup: views, lists, notes and title block. On a large sheet (A3, B) everything stands on
 * one where it can; on a small one (A4, A), or where a list is long, what is left follows on further sheets.
 */
import type { Analysis } from '../../analysis/result.ts'
import type { Job, Setup } from '../../job/schema.ts'
import { checkSum } from '../../job/checkSum.ts'
import { findSetup, mountSetup } from '../../mounting/mount.ts'
import { compose } from './compose.ts'
import type { DimensionChoices } from '../views/choices.ts'
import { footer, lacksLetters } from './footer.ts'
import { frame } from './frame.ts'
import type { Drawing } from '../model/model.ts'
import { lastRevision } from './revisionList.ts'
import { SHEETS, type SheetName } from './sheetSizes.ts'
import { titleBlock } from './titleBlock.ts'
import { TITLE_WIDTH, cutFields, titleHeights, type Projection } from './titleFields.ts'

/** What is left out comes from the job's own `setup.sheet` and `titleBlock`, and where those are silent too it is chosen. */
export interface SheetOptions {
  /** Chosen: A3 for metric jobs, ANSI B for inch ones. */
  readonly sheet?: SheetName | 'auto'
  /** Sheet over model; chosen is the largest of ISO 5455 that fits, also in place of one at which the views do not. */
  readonly scale?: number | 'auto'
  /** Arrangement of the views (ISO 5456-2); first angle for metric jobs, third for inch ones. */
  readonly projection?: Projection
  /** As it is to stand in the title block; the core reads no clock. */
  readonly date?: string
  readonly revision?: string
  readonly by?: string
  readonly approved?: string
  readonly owner?: string
  /** Name of the job's file, for the title block. */
  readonly file?: string
  /** Dimensions that the user moved or hid, by the ids that `DimensionPrimitive` carries. */
  readonly dimensions?: DimensionChoices
}

/** The sheets of one setup, in order. Throws RangeError on an unknown setup and on a scale that is not positive. */
export function setupSheet(
  job: Job,
  setupId: string,
  analysis: Analysis,
  given: SheetOptions = {},
): Drawing[] {
  return setupSheets(job, [{ setup: setupId, analysis }], given)[0]!
}

/** The sheets of several setups, each setup's by itself but numbered through. Throws as `setupSheet` does. */
export function setupSheets(
  job: Job,
  of: readonly { readonly setup: string; readonly analysis: Analysis }[],
  given: SheetOptions = {},
): Drawing[][] {
  const drawn = of.map(({ setup, analysis }) => drawSetup(job, setup, analysis, given))
  const count = drawn.reduce((sum, pages) => sum + pages.length, 0)
  let number = 0
  return drawn.map((pages) => pages.map((finish) => finish(++number, count)))
}

/** A sheet but for its number and how many there are. */
type Unnumbered = (number: number, count: number) => Drawing

function drawSetup(job: Job, setupId: string, analysis: Analysis, given: SheetOptions): Unnumbered[] {
  const setup = findSetup(job, setupId)
  const { sheet, scale, projection, choices, fields } = chosenOptions(job, setup, given)
  const block = {
    ...{ job, setup, sheet, documentType: 'Setup drawing', ...fields },
    checkSum: checkSum(job, setup),
  }
  const title = titleHeights(block)
  const lacks = lacksLetters(job, setup, fields.file)
  const { plan, drawn, pages } = compose({
    job,
    setup,
    mounted: mountSetup(job, setupId),
    analysis,
    sheet,
    scale,
    projection,
    choices,
    title,
    lacks,
    cut: cutFields(block),
  })
  return pages.map((lists, i): Unnumbered => (number, count) => {
    const page = i + 1
    const primitives = [
      ...frame(sheet, TITLE_WIDTH),
      ...(i === 0 ? drawn.primitives : []),
      ...lists,
      ...titleBlock({
        ...block,
        scale: i === 0 ? plan.scale : null,
        projection: i === 0 ? projection : null,
        page,
        number,
        count,
      }),
    ]
    return {
      title: sheetTitle(job, setup),
      ...(fields.by && { author: fields.by }),
      width: sheet.width,
      height: sheet.height,
      ...(i === 0 && { model: drawn.model }),
      ...(i === 0 && drawn.unplaced.length > 0 && { unplaced: drawn.unplaced }),
      primitives: [
        ...primitives,
        ...footer(sheet, i === 0 ? title.first : title.again, lacks, job.displayUnits),
      ],
    }
  })
}

/** The size that a setup is drawn on. */
export function sizeOf({ displayUnits }: Job, { sheet }: Setup, given: SheetOptions): SheetName {
  const size = given.sheet ?? sheet?.size ?? 'auto'
  if (size !== 'auto') return size
  return displayUnits === 'in' ? 'ANSI-B' : 'A3'
}

function chosenOptions(job: Job, setup: Setup, given: SheetOptions) {
  const { sheet } = setup
  const { titleBlock, displayUnits } = job
  const inch = displayUnits === 'in'
  return {
    sheet: SHEETS[sizeOf(job, setup, given)],
    scale: given.scale ?? sheet?.scale ?? ('auto' as const),
    projection: given.projection ?? sheet?.projection ?? (inch ? ('third' as const) : ('first' as const)),
    choices: given.dimensions ?? sheet?.dimensions ?? {},
    fields: {
      date: given.date ?? '',
      revision: given.revision ?? lastRevision(job),
      by: given.by ?? titleBlock?.by ?? '',
      approved: given.approved ?? titleBlock?.approved ?? '',
      owner: given.owner ?? titleBlock?.owner ?? '',
      file: given.file ?? '',
    },
  }
}

const sheetTitle = (job: Job, setup: Setup): string =>
  `${job.partNumber || job.title || job.part.name} ${setup.id}, setup drawing`
