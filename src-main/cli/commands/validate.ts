/** `validate JOB`: every fault of a job file, one a line. */
import { parseJob } from '../../../src-core/job/parse.ts'
import { flag, printJson, type Call } from '../command.ts'
import { EXIT, oneLine } from '../failure.ts'
import { faultLine, faultsLine, readText } from '../jobInput.ts'

export async function validate(call: Call): Promise<number> {
  const file = call.positionals[0]!
  const result = parseJob(await readText(call.io, file))
  const faults = result.ok ? [] : result.faults
  if (flag(call, 'json')) printJson(call.io, { valid: result.ok, faults })
  else if (result.ok) call.io.out(`${oneLine(file)}: no faults\n`)
  else for (const fault of faults) call.io.out(`${oneLine(faultLine(file, fault))}\n`)
  if (!result.ok) call.io.note(faultsLine(file, faults))
  return result.ok ? EXIT.done : EXIT.refused
}
