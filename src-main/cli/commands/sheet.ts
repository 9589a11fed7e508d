/** `sheet JOB --out DIR`: the setup drawing as files. */
import { relative } from 'node:path'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { flag, printJson, textValue, type Call } from '../command.ts'
import { EXIT, Failure, printable } from '../failure.ts'
import { readJob, setupOf } from '../jobInput.ts'
import { makeFolder } from '../outputs.ts'
import { writeSheets } from '../sheetFiles.ts'
import { SHEET_FORMATS, SHEET_FORMATS_DEFAULT, type SheetFormat } from '../sheetFormats.ts'
import { today } from '../today.ts'
import { exitFor } from './check.ts'

export async function sheet(call: Call): Promise<number> {
  const file = call.positionals[0]!
  const out = textValue(call, 'out')
  if (out === undefined) throw new Failure('sheet: --out DIR is missing')
  const formats = formatsOf(call)
  const job = await readJob(call.io, file)
  const setup = setupOf(job, file, textValue(call, 'setup'))
  const analysis = analyse(job, setup.id)
  const folder = await makeFolder(call.io, out)
  const paths = await writeSheets(folder, job, analysis, formats, today())
  const stops = analysis.findings.filter((f) => f.severity === 'stop')
  if (flag(call, 'json')) printJson(call.io, { setup: setup.id, files: paths, findings: stops })
  else for (const path of paths) call.io.out(`${printable(relative(call.io.cwd, path) || path)}\n`)
  const code = exitFor(analysis)
  if (code !== EXIT.done)
    call.io.note(
      `the sheet is written, but ${stops.length} ${stops.length === 1 ? 'finding says' : 'findings say'} stop: ${stops[0]!.message}`,
    )
  return code
}

function formatsOf(call: Call): SheetFormat[] {
  const given = call.values['format']
  if (given === undefined) return [...SHEET_FORMATS_DEFAULT]
  const words = [given].flat().flatMap((v) => String(v).split(','))
  return [...new Set(words.map((word) => formatOf(word.trim().toLowerCase())))]
}

function formatOf(word: string): SheetFormat {
  const found = SHEET_FORMATS.find((f) => f === word)
  if (!found)
    throw new Failure(`sheet: --format: there is no format "${word}"; there are ${SHEET_FORMATS.join(', ')}`)
  return found
}
