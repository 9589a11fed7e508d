/** The drawings on show beside the plate: what they are of, which one, and how they are saved. */
import { allSetupsTitle, jobSheets } from '../../src-core/drawing/sheet/jobSheets.ts'
import type { Drawing } from '../../src-core/drawing/model/model.ts'
import { setupSheet, sizeOf } from '../../src-core/drawing/sheet/setupSheet.ts'
import { stepCards } from '../../src-core/drawing/cards/stepCards.ts'
import { largerSheet, type LargerSheet } from '../../src-core/drawing/sheet/larger.ts'
import type { SheetName } from '../../src-core/drawing/sheet/sheetSizes.ts'
import { plateTemplate } from '../../src-core/drawing/template/plateTemplate.ts'
import { writeSvg } from '../../src-core/drawing/writers/writeSvg.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { chooseSheet, hideDimension, moveDimension, placeDimension } from '../editor/edits/sheet.ts'
import { sheetFonts } from '../bridge/fonts.ts'
import type { Files } from './files.svelte.ts'
import type { JobStore } from './document.svelte.ts'
import type { Results } from './results.svelte.ts'
import { today } from './today.ts'

export type SheetsOf = 'setup' | 'job' | 'template' | 'cards'
export type SheetFormat = 'pdf' | 'svg' | 'dxf' | 'png'

/** A drawing that took less than this, ms, is made anew at every change; a slower one when changes pause. */
const AT_ONCE = 12
const LONGEST_WAIT = 800

export class Sheets {
  readonly #jobs: JobStore
  readonly #results: Results
  readonly #files: Files
  shown: boolean = $state(false)
  /** Of the window's width. */
  share: number = $state(0.42)
  of: SheetsOf = $state('setup')
  /** Paper of the template; null: as the job's units have it. */
  paper: SheetName | null = $state(null)
  page: number = $state(0)
  drawings: readonly Drawing[] = $state.raw([])
  /** What the setup's sheet has no room for, and the one that has; null where there is room for all. */
  larger: LargerSheet | null = $state.raw(null)
  /** Why there is nothing to show. */
  fault: string = $state('')
  /** Sheets being printed; they are on the page only while the print dialog is. */
  printing: readonly Drawing[] = $state.raw([])
  #cost = 0

  constructor(jobs: JobStore, results: Results, files: Files) {
    this.#jobs = jobs
    this.#results = results
    this.#files = files
  }

  /** ms to wait for changes to pause before drawing again. */
  get wait(): number {
    return this.drawings.length === 0 || this.#cost < AT_ONCE ? 0 : Math.min(LONGEST_WAIT, 3 * this.#cost)
  }

  readonly templatePaper: SheetName = $derived.by(
    () => this.paper ?? (this.#jobs.job.displayUnits === 'in' ? 'ANSI-A' : 'A4'),
  )
  readonly drawing: Drawing | null = $derived.by(
    () => this.drawings[Math.min(this.page, this.drawings.length - 1)] ?? null,
  )

  /** Whether the setup's sheet has no room for something. */
  readonly isCrowded: boolean = $derived.by(
    () => this.of === 'setup' && this.drawings[0]?.unplaced !== undefined,
  )

  show(of: SheetsOf): void {
    this.of = of
    this.page = 0
    this.shown = true
  }

  /** Draws the job as it stands. */
  draw(): void {
    const begun = performance.now()
    try {
      this.drawings = this.#make()
      if (!this.#stands(this.larger)) this.larger = null
      this.fault = this.drawings.length > 0 ? '' : 'Nothing to draw until the job is sound.'
    } catch (error) {
      if (!(error instanceof RangeError)) throw error
      this.drawings = []
      this.larger = null
      this.fault = `Nothing to draw: ${error.message}`
    }
    this.#cost = performance.now() - begun
  }

  #make(): readonly Drawing[] {
    const { job } = this.#jobs
    const { setup, analysis, mounted } = this.#results
    if (this.of === 'template') return plateTemplate(job, setup.id, this.templatePaper, { date: today() })
    const options = { date: today(), file: this.#jobs.file?.ref.name ?? '' }
    if (this.of === 'job') return jobSheets(job, options)
    if (this.of === 'cards') return mounted && analysis ? stepCards(mounted, analysis) : []
    return analysis ? setupSheet(job, setup.id, analysis, options) : []
  }

  /** Whether what was worked out of an earlier drawing holds for this one. */
  #stands(larger: LargerSheet | null): boolean {
    const { job } = this.#jobs
    const missing = this.drawings[0]?.unplaced ?? []
    return (
      larger !== null &&
      this.of === 'setup' &&
      larger.from === sizeOf(job, this.#results.setup, {}) &&
      larger.missing.join() === missing.join()
    )
  }

  /** Works out the sheet that has room. It draws several, so ask when changes pause. */
  propose(): void {
    const { setup, analysis } = this.#results
    if (!this.isCrowded || !analysis || this.#stands(this.larger)) return
    this.larger = largerSheet(this.#jobs.job, setup.id, analysis, {}, this.drawings)
  }

  /** Takes a size for the setup on show. */
  useSize(size: SheetName): void {
    this.#jobs.edit('Sheet size', (job) => chooseSheet(job, this.#results.setup.id, 'size', size))
  }

  /** As PDF all sheets on show; in a format without pages the one that is looked at. */
  async save(format: SheetFormat): Promise<void> {
    const { drawings, drawing } = this
    if (!drawing) return
    const page = drawings.indexOf(drawing)
    const stem = this.#files.suggestedName('') + (this.of === 'job' ? '' : `-${this.#results.setup.id}`)
    const name = `${stem}${this.of === 'template' || this.of === 'cards' ? `-${this.of}` : ''}`
    const one = `${name}${page === 0 ? '' : `-sheet-${page + 1}`}.${format}`
    if (format === 'png') return this.#files.exportPicture(one, writeSvg(drawing))
    if (format === 'pdf') {
      const [{ writePdf }, fonts] = await Promise.all([
        import('../../src-core/drawing/writers/writePdf.ts'),
        sheetFonts(),
      ])
      const title = this.of === 'job' ? allSetupsTitle(this.#jobs.job) : undefined
      return this.#files.export(`${name}.pdf`, 'pdf', await writePdf(drawings, fonts, title))
    }
    const text =
      format === 'svg'
        ? writeSvg(drawing)
        : (await import('../../src-core/drawing/writers/writeDxf.ts')).writeDxf(drawing, {
            units: this.#jobs.job.displayUnits,
          })
    return this.#files.export(one, format, new TextEncoder().encode(text))
  }

  move(id: string, to: { offset: number } | { place: Point }): void {
    const { id: setup } = this.#results.setup
    this.#jobs.edit('Move a dimension', (job) =>
      'offset' in to ? moveDimension(job, setup, id, to.offset) : placeDimension(job, setup, id, to.place),
    )
  }

  /** Where the program puts it. */
  putBack(id: string): void {
    const { id: setup } = this.#results.setup
    this.#jobs.edit('Put a dimension back', (job) =>
      placeDimension(moveDimension(job, setup, id, undefined), setup, id, undefined),
    )
  }

  hide(id: string, hidden: boolean): void {
    const { id: setup } = this.#results.setup
    const label = hidden ? 'Hide a dimension' : 'Show a dimension'
    this.#jobs.edit(label, (job) => hideDimension(job, setup, id, hidden))
  }
}
