/** `plan JOB`: counterweights from the shop's stock; `--apply N` writes a job with plan N bolted on. */
import { applyPlan } from '../../../src-core/planner/apply.ts'
import { planCounterweights } from '../../../src-core/planner/plan.ts'
import { flag, printJson, textValue, type Call } from '../command.ts'
import { EXIT, Failure } from '../failure.ts'
import { readJob, setupOf } from '../jobInput.ts'
import { writeJob } from '../outputs.ts'
import { planSheet } from '../planSheet.ts'

export async function plan(call: Call): Promise<number> {
  const file = call.positionals[0]!
  const wanted = applyOf(call)
  const job = await readJob(call.io, file)
  const setup = setupOf(job, file, textValue(call, 'setup'))
  const report = planCounterweights(job, setup.id)
  if (flag(call, 'json')) printJson(call.io, report)
  else call.io.out(planSheet(job, setup, report))
  if (!wanted) return EXIT.done
  const chosen = report.plans[wanted.number - 1]
  if (!chosen)
    throw new Failure(
      `plan: --apply ${wanted.number}: there ${report.plans.length === 1 ? 'is 1 plan' : `are ${report.plans.length} plans`}`,
    )
  await writeJob(call.io, wanted.out, applyPlan(job, setup.id, chosen))
  if (!flag(call, 'json')) call.io.out(`\nPlan ${wanted.number} is in ${wanted.out}\n`)
  return EXIT.done
}

function applyOf(call: Call): { number: number; out: string } | null {
  const apply = textValue(call, 'apply')
  const out = textValue(call, 'out')
  if (apply === undefined) {
    if (out !== undefined) throw new Failure('plan: --out goes with --apply N')
    return null
  }
  if (!/^[1-9]\d{0,5}$/.test(apply))
    throw new Failure(`plan: --apply: "${apply}" is not a whole number from 1`)
  if (out === undefined) throw new Failure('plan: --apply N needs --out JOB2')
  return { number: Number(apply), out }
}
