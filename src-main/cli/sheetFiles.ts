/** Setup drawings written as files. */
import type { Analysis } from '../../src-core/analysis/result.ts'
import type { Drawing } from '../../src-core/drawing/model.ts'
import { setupSheet } from '../../src-core/drawing/setupSheet.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { suggestedName } from '../services/fileNames.ts'
import { loadFonts } from '../services/fonts.ts'
import { writeInto } from './outputs.ts'
import type { SheetFormat } from './sheetFormats.ts'

/** Writes a setup's sheets in each format into a folder made before; gives the paths. `date` as on the sheet. */
export async function writeSheets(
  folder: string,
  job: Job,
  analysis: Analysis,
  formats: readonly SheetFormat[],
  date: string,
): Promise<string[]> {
  const drawings = setupSheet(job, analysis.setup, analysis, { date })
  const stem = `${job.partNumber || job.title || job.part.name || 'job'}-${analysis.setup}`.replace(
    /\s+/g,
    '-',
  )
  const paths: string[] = []
  for (const format of formats) {
    for (const { suffix, bytes } of await encode(format, drawings))
      paths.push(await writeInto(folder, suggestedName(`${stem}${suffix}.${format}`, format), bytes))
  }
  return paths
}

interface Encoded {
  readonly suffix: string
  readonly bytes: Uint8Array
}

/** One file for all sheets where the format has pages, else one each. */
async function encode(format: SheetFormat, drawings: readonly Drawing[]): Promise<Encoded[]> {
  const each = async (write: (drawing: Drawing) => Promise<Uint8Array> | Uint8Array) =>
    Promise.all(
      drawings.map(async (d, i) => ({ suffix: i === 0 ? '' : `-sheet-${i + 1}`, bytes: await write(d) })),
    )
  const utf8 = (text: string) => new TextEncoder().encode(text)
  switch (format) {
    case 'svg': {
      const { writeSvg } = await import('../../src-core/drawing/writeSvg.ts')
      return each((d) => utf8(writeSvg(d)))
    }
    case 'pdf': {
      const { writePdf } = await import('../../src-core/drawing/writePdf.ts')
      return [{ suffix: '', bytes: await writePdf(drawings, await loadFonts()) }]
    }
    case 'dxf': {
      const { writeDxf } = await import('../../src-core/drawing/writeDxf.ts')
      return each((d) => utf8(writeDxf(d)))
    }
    case 'png': {
      const { writePng } = await import('../png/writePng.ts')
      return each(writePng)
    }
  }
}
