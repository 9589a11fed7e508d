/** `demo`: the bundled example from job file to sheet. */
import { basename, join } from 'node:path'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { DEFAULT_EXAMPLE } from '../../services/examples.ts'
import { JOB_ENDING } from '../../../src-core/job/fileEnding.ts'
import { balanceSheet } from '../balanceSheet.ts'
import { flag, printJson, textValue, type Call } from '../command.ts'
import { EXIT, printable } from '../failure.ts'
import { readJob, setupOf } from '../jobInput.ts'
import { makeFolder } from '../outputs.ts'
import { writeSheets } from '../sheetFiles.ts'
import { today } from '../today.ts'

export async function demo(call: Call): Promise<number> {
  const io = { ...call.io, cwd: call.io.root }
  const file = join('examples', `${DEFAULT_EXAMPLE}${JOB_ENDING}`)
  const job = await readJob(io, file)
  const setup = setupOf(job, file, textValue(call, 'setup'))
  const analysis = analyse(job, setup.id)
  const folder = await makeFolder(io, join('out', 'demo'))
  const drawings = setupSheet(job, setup.id, analysis, { date: today(), file: basename(file) })
  const sets = [{ suffix: `-${setup.id}`, drawings }]
  const paths = await writeSheets({ folder, job, formats: ['svg', 'pdf'], sets })
  if (flag(call, 'json')) {
    printJson(io, { ...analysis, files: paths })
    return EXIT.done
  }
  io.out(balanceSheet(job, setup, analysis))
  io.out(`\nJob:     ${printable(join(io.root, file))}\n`)
  for (const path of paths) io.out(`Drawing: ${printable(path)}\n`)
  return EXIT.done
}
