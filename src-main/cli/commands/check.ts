/** `check JOB`: the balance sheet of a setup. */
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Analysis } from '../../../src-core/analysis/result.ts'
import { balanceSheet } from '../balanceSheet.ts'
import { flag, printJson, textValue, type Call } from '../command.ts'
import { EXIT } from '../failure.ts'
import { readJob, setupOf } from '../jobInput.ts'

export async function check(call: Call): Promise<number> {
  const file = call.positionals[0]!
  const job = await readJob(call.io, file)
  const setup = setupOf(job, file, textValue(call, 'setup'))
  const analysis = analyse(job, setup.id)
  if (flag(call, 'json')) printJson(call.io, analysis)
  else call.io.out(balanceSheet(job, setup, analysis))
  return exitFor(analysis)
}

/** 1 where the verdict is stop or not judged. */
export const exitFor = (analysis: Analysis): number =>
  analysis.verdict.state === 'stop' || analysis.verdict.state === 'not-judged' ? EXIT.stopFindings : EXIT.done
