/** Setup drawings and templates written as files. */
import { allSetupsTitle } from '../../src-core/drawing/sheet/jobSheets.ts'
import type { Drawing } from '../../src-core/drawing/model/model.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { suggestedName } from '../services/fileNames.ts'
import { loadFonts } from '../services/fonts.ts'
import { writeInto } from './outputs.ts'
import type { SheetFormat } from './sheetFormats.ts'

/** Drawings that belong together, and what their files' names end in. */
export interface SheetSet {
  readonly suffix: string
  readonly drawings: readonly Drawing[]
}

export interface SheetOutput {
  /** Made before. */
  readonly folder: string
  readonly job: Job
  readonly formats: readonly SheetFormat[]
  readonly sets: readonly SheetSet[]
  /** What the name of the one PDF ends in; that of the first set where not given. */
  readonly together?: string
}

/** Writes the sets in each format, as PDF all in one; gives the paths. */
export async function writeSheets(output: SheetOutput): Promise<string[]> {
  const { folder, job, formats } = output
  const stem = (job.partNumber || job.title || job.part.name || 'job').replace(/\s+/g, '-')
  const paths: string[] = []
  for (const format of formats) {
    for (const { suffix, bytes } of await encode(format, output))
      paths.push(await writeInto(folder, suggestedName(`${stem}${suffix}.${format}`, format), bytes))
  }
  return paths
}

interface Encoded {
  readonly suffix: string
  readonly bytes: Uint8Array
}

/** One file for all sheets where the format has pages, else one each. */
async function encode(format: SheetFormat, { sets, job, together }: SheetOutput): Promise<Encoded[]> {
  const each = async (write: (drawing: Drawing) => Promise<Uint8Array> | Uint8Array) =>
    Promise.all(
      sets.flatMap(({ suffix, drawings }) =>
        drawings.map(async (d, i) => ({
          suffix: i === 0 ? suffix : `${suffix}-sheet-${i + 1}`,
          bytes: await write(d),
        })),
      ),
    )
  const utf8 = (text: string) => new TextEncoder().encode(text)
  switch (format) {
    case 'svg': {
      const { writeSvg } = await import('../../src-core/drawing/writers/writeSvg.ts')
      return each((d) => utf8(writeSvg(d)))
    }
    case 'pdf': {
      const { writePdf } = await import('../../src-core/drawing/writers/writePdf.ts')
      const bytes = await writePdf(
        sets.flatMap((s) => s.drawings),
        await loadFonts(),
        sets.length > 1 ? allSetupsTitle(job) : undefined,
      )
      return [{ suffix: together ?? sets[0]!.suffix, bytes }]
    }
    case 'dxf': {
      const { writeDxf } = await import('../../src-core/drawing/writers/writeDxf.ts')
      return each((d) => utf8(writeDxf(d, { units: job.displayUnits })))
    }
    case 'png': {
      const { writePng } = await import('../png/writePng.ts')
      return each((d) => writePng(d))
    }
  }
}
