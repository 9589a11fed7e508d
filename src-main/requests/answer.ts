/** Answers one request; whatever happens, a `Reply` comes back and nothing is thrown. */
import type { HostVerb } from '../../src-core/bridge/contract.ts'
import type { Reply } from '../../src-core/bridge/reply.ts'
import { faultOf, HostError, messageOf } from '../services/hostError.ts'
import type { HostServices } from '../services/hostServices.ts'
import { isVerb, REQUESTS, type Request } from './registry.ts'

export const refuse = (code: string, message: string): Reply<never> => ({
  ok: false,
  fault: { code, message },
})

/** Checks the verb and its arguments, runs the service, and words what went wrong. `report` hears of defects. */
export async function answer(
  services: HostServices,
  verb: string,
  rawArgs: unknown,
  report: (error: unknown) => void,
): Promise<Reply<unknown>> {
  if (!isVerb(verb)) return refuse('request.refused', 'There is no such request')
  const request = REQUESTS[verb] as unknown as Request<HostVerb>
  const args = request.args.safeParse(rawArgs)
  if (!args.success) {
    const issue = args.error.issues[0]
    const place = issue && issue.path.length > 0 ? `argument ${issue.path.join('.')}` : 'the arguments'
    return refuse('request.refused', `${verb}: ${place}: ${issue?.message ?? 'not as they must be'}`)
  }
  return answerWith(verb, async (): Promise<unknown> => request.run(services, args.data), report)
}

/** Does some work for the window and words what went wrong; `what` names it. `report` hears of defects. */
export async function answerWith<T>(
  what: string,
  work: () => Promise<T>,
  report: (error: unknown) => void,
): Promise<Reply<T>> {
  try {
    return { ok: true, value: await work() }
  } catch (error) {
    if (error instanceof HostError) return { ok: false, fault: faultOf(error) }
    report(error)
    return refuse('request.failed', `${what}: ${messageOf(error)}`)
  }
}
