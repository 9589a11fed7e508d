/** The counterweight planner off the window's thread: one and two stations first, then all that was asked for. */
import { planCounterweights } from '../../src-core/planner/plan.ts'
import type { PlannerReply, PlannerRequest } from './plannerMessages.ts'

const post = (reply: PlannerReply) => postMessage(reply)

addEventListener('message', (event: MessageEvent<PlannerRequest>) => {
  const { id, job, setupId, options } = event.data
  let last = 0
  const hooks = {
    onProgress(fraction: number, note: string) {
      // Progress is for people: a hundred steps are plenty.
      if (fraction - last < 0.01 && fraction < 1) return
      last = fraction
      post({ kind: 'progress', id, fraction, note })
    },
  }
  try {
    const quick = {
      ...options,
      stations: Math.min(2, options.stations ?? 3) as 1 | 2,
      moveHardware: false,
      turnPart: false,
    }
    if ((options.stations ?? 3) > 2 || options.turnPart || options.moveHardware !== false)
      post({ kind: 'interim', id, report: planCounterweights(job, setupId, quick) })
    post({ kind: 'done', id, report: planCounterweights(job, setupId, options, hooks) })
  } catch (error) {
    post({ kind: 'failed', id, message: error instanceof Error ? error.message : String(error) })
  }
})
