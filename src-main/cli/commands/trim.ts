/** `trim JOB --readings FILE`: what was read at the machine, beside what was computed, and how to correct it. */
import { parseReadings } from '../../../src-core/trim/readings.ts'
import { trimReport } from '../../../src-core/trim/report.ts'
import { flag, printJson, textValue, type Call } from '../command.ts'
import { EXIT, Failure } from '../failure.ts'
import { faultsLine, readJob, readText, setupOf } from '../jobInput.ts'
import { trimSheet } from '../trimSheet.ts'

export async function trim(call: Call): Promise<number> {
  const file = call.positionals[0]!
  const from = textValue(call, 'readings')
  if (from === undefined) throw new Failure('trim: --readings FILE is missing')
  const job = await readJob(call.io, file)
  const setup = setupOf(job, file, textValue(call, 'setup'))
  const parsed = parseReadings(await readText(call.io, from))
  if (!parsed.ok) throw new Failure(faultsLine(from, parsed.faults))
  const result = trimReport(job, setup.id, parsed.readings, { takeOff: flag(call, 'take-off') })
  if (!result.ok) throw new Failure(faultsLine(from, result.faults))
  if (flag(call, 'json')) printJson(call.io, result.report)
  else call.io.out(trimSheet(job, setup, result.report))
  return EXIT.done
}
