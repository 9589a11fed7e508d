// Finished sheets of the bundled examples as pictures, for README.md. Needs tsx registered.
import { readFile, writeFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { analyse } from '../src-core/analysis/analyse.ts'
import { setupSheet } from '../src-core/drawing/sheet/setupSheet.ts'
import { plateTemplate } from '../src-core/drawing/template/plateTemplate.ts'
import { parseJob } from '../src-core/job/parse.ts'
import { writePng } from '../src-main/png/writePng.ts'

/** Invented, and fixed so that the pictures change only with the drawing. */
const FIELDS = { date: '2026-03-01', by: 'A. Hand', owner: 'Millbrook Repair Shop', revision: 'B' }

async function example(name) {
  const read = parseJob(await readFile(resolve('examples', `${name}.evenswing`), 'utf8'))
  if (!read.ok) throw new Error(`${name}: ${read.faults[0].path} ${read.faults[0].message}`)
  return read.job
}

const sheetOf = (job, setup) => setupSheet(job, setup, analyse(job, setup), FIELDS)[0]

/** Writes the pictures into a folder and gives their paths. */
export async function sheetPictures(folder) {
  const link = await example('flat-link')
  const bracket = { ...(await example('bearing-bracket')), displayUnits: 'in' }
  const pictures = [
    { name: 'finished-link-a3', drawing: sheetOf(link, 'op10'), pixelsPerMm: 4.5 },
    { name: 'finished-bracket-ansi-b', drawing: sheetOf(bracket, 'op10'), pixelsPerMm: 4.5 },
    { name: 'finished-template-a4', drawing: plateTemplate(link, 'op10', 'A4')[0], pixelsPerMm: 4 },
  ]
  return Promise.all(
    pictures.map(async ({ name, drawing, pixelsPerMm }) => {
      const path = join(folder, `${name}.png`)
      await writeFile(path, writePng(drawing, pixelsPerMm))
      return path
    }),
  )
}
