/** Asks the planner and keeps its answer together with the job that it belongs to. */
import { applyPlan } from '../../src-core/planner/apply.ts'
import type { Plan, PlanOptions, PlanReport } from '../../src-core/planner/report.ts'
import { clause } from '../../src-core/words/clause.ts'
import type { Job } from '../../src-core/job/schema.ts'
import type { PlannerReply, PlannerRequest } from '../workers/plannerMessages.ts'
import type { JobStore } from './document.svelte.ts'
import type { Results } from './results.svelte.ts'

/** As much of a worker as is needed; tests give their own. */
export interface PlannerPort {
  postMessage(request: PlannerRequest): void
  addEventListener(type: 'message', listener: (event: MessageEvent<PlannerReply>) => void): void
  addEventListener(type: 'error', listener: (event: ErrorEvent) => void): void
  terminate(): void
}

export type PlannerStatus = 'idle' | 'working' | 'done' | 'stopped' | 'failed'

export class Planner {
  readonly #jobs: JobStore
  readonly #results: Results
  readonly #start: () => PlannerPort
  #worker: PlannerPort | null = null
  #id = 0
  /** The job and setup that were asked about. */
  #basis: { job: Job; setupId: string } | null = $state.raw(null)
  /** The plan on the plate and the job it made. */
  #applied: { plan: Plan; job: Job } | null = $state.raw(null)
  status: PlannerStatus = $state('idle')
  fraction: number = $state(0)
  report: PlanReport | null = $state.raw(null)
  fault: string = $state('')

  constructor(jobs: JobStore, results: Results, start: () => PlannerPort) {
    this.#jobs = jobs
    this.#results = results
    this.#start = start
  }

  get basis() {
    return this.#basis
  }
  /** The plan that is on the plate as it was put there; null once anything else has changed. */
  get applied(): Plan | null {
    return this.#applied?.job === this.#jobs.job ? this.#applied.plan : null
  }
  /** False once job or setup are others than those asked about: the answers are then yesterday's. */
  get current(): boolean {
    const basis = this.#basis
    if (!basis || basis.setupId !== this.#results.setup.id) return false
    return basis.job === this.#jobs.job || this.applied !== null
  }

  ask(options: PlanOptions): void {
    this.#end()
    const id = ++this.#id
    const basis = { job: this.#jobs.job, setupId: this.#results.setup.id }
    this.#basis = basis
    this.#applied = null
    this.report = null
    this.fraction = 0
    this.fault = ''
    this.status = 'working'
    const worker = this.#start()
    this.#worker = worker
    worker.addEventListener('message', (event) => this.#take(event.data, id))
    worker.addEventListener('error', (event) =>
      this.#fail(id, event.message || 'the planner could not be started'),
    )
    worker.postMessage({ id, ...basis, options })
  }

  /** Ends the search; what was found until then stays. */
  stop(): void {
    if (this.status !== 'working') return
    this.#end()
    this.status = 'stopped'
  }

  /** One undo step; a plan put on before gives way to this one. */
  apply(plan: Plan): void {
    const basis = this.#basis
    if (!basis || !this.current) return
    if (this.applied) this.#jobs.undo()
    const n = (this.report?.plans.indexOf(plan) ?? 0) + 1
    this.#jobs.edit(`Put on plan ${n}`, (job) => applyPlan(job, basis.setupId, plan))
    this.#applied = { plan, job: this.#jobs.job }
  }

  #take(reply: PlannerReply, id: number): void {
    if (reply.id !== this.#id || id !== this.#id || this.status !== 'working') return
    switch (reply.kind) {
      case 'progress':
        this.fraction = reply.fraction
        return
      case 'interim':
        this.report = reply.report
        return
      case 'done':
        this.report = reply.report
        this.status = 'done'
        return this.#end()
      case 'failed':
        return this.#fail(id, reply.message)
    }
  }

  #fail(id: number, message: string): void {
    if (id !== this.#id) return
    this.#end()
    this.status = 'failed'
    this.fault = clause(message)
  }

  #end(): void {
    this.#worker?.terminate()
    this.#worker = null
  }
}
