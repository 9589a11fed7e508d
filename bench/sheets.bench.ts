// Drawings that take longer than one setup's sheet: a whole job as PDF, a plate full of pieces, a paper template.
import { analyse } from '../src-core/analysis/analyse.ts'
import { jobSheets } from '../src-core/drawing/sheet/jobSheets.ts'
import { setupSheet } from '../src-core/drawing/sheet/setupSheet.ts'
import { plateTemplate } from '../src-core/drawing/template/plateTemplate.ts'
import { writeDxf } from '../src-core/drawing/writers/writeDxf.ts'
import { writePdf } from '../src-core/drawing/writers/writePdf.ts'
import { loadFonts } from '../src-main/services/fonts.ts'
import { crowded } from '../tests/helpers/crowded.ts'
import { exampleJob } from './core.ts'
import { median, type BenchRow } from './timing.ts'

export async function sheetBench(): Promise<BenchRow[]> {
  const fonts = await loadFonts()
  const job = exampleJob('flat-link')
  const full = crowded(job, 100, 20, 14)
  const busy = crowded(job, 30, 20, 14)
  const busyAnalysis = analyse(busy, 'op10')
  const fullAnalysis = analyse(full, 'op10')
  const [sheet] = setupSheet(job, 'op10', analyse(job, 'op10'))
  const layout = await median(() => setupSheet(job, 'op10', analyse(job, 'op10')), 5)
  const crowd = await median(() => setupSheet(full, 'op10', fullAnalysis), 3, 1)
  return [
    {
      name: `a job of ${job.setups.length} setups analysed, drawn and written as one PDF`,
      ms: await median(() => writePdf(jobSheets(job), fonts), 5),
    },
    {
      name: 'setup sheet of a hundred pieces laid out',
      ms: crowd,
      ratio: `${(crowd / layout).toFixed(1)} times one of ${job.setups[0]!.hardware.length}`,
    },
    {
      name: 'a crowded A3, thirty pieces, drawn and written as PDF (0.4 s wanted)',
      ms: await median(() => writePdf(setupSheet(busy, 'op10', busyAnalysis, { sheet: 'A3' }), fonts), 5),
    },
    { name: 'paper template on A4 laid out', ms: await median(() => plateTemplate(job, 'op10'), 5) },
    { name: 'setup sheet written as DXF', ms: await median(() => writeDxf(sheet!), 5) },
  ]
}
