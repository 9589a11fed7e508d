import type { Workers } from '../../src-renderer/state/app.svelte.ts'
import type { PlannerPort } from '../../src-renderer/state/planner.svelte.ts'
import type { PlannerReply, PlannerRequest } from '../../src-renderer/workers/plannerMessages.ts'

const none = (): never => {
  throw new Error('no worker in this test')
}
export const noWorkers: Workers = { planner: none, importer: none, pictures: none }

/** A worker that answers when it is told to. */
export class FakeWorker {
  asked: PlannerRequest | null = null
  alive = true
  #message: (event: MessageEvent<PlannerReply>) => void = () => undefined
  readonly port: PlannerPort = {
    postMessage: (request: PlannerRequest) => {
      // What a worker cannot take must not be sent: a proxy would throw here.
      this.asked = structuredClone(request)
    },
    addEventListener: (type: 'message' | 'error', listener: (event: never) => void) => {
      if (type === 'message') this.#message = listener as (event: MessageEvent<PlannerReply>) => void
    },
    terminate: () => {
      this.alive = false
    },
  }
  reply(reply: PlannerReply): void {
    this.#message({ data: reply } as MessageEvent<PlannerReply>)
  }
}
