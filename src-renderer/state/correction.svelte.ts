/** The planner, asked to correct what was measured. */
import type { Analysis } from '../../src-core/analysis/result.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { correctionSearch, plansFrom, type Judged, type TrimPlan } from '../../src-core/trim/report.ts'
import { clause } from '../../src-core/words/clause.ts'
import type { PlannerPort } from './planner.svelte.ts'

export class Correction {
  readonly #start: () => PlannerPort
  #worker: PlannerPort | null = null
  #id = 0
  working: boolean = $state(false)
  /** The job and the measurement that the plans are for. */
  basis: { readonly job: Job; readonly judged: Judged } | null = $state.raw(null)
  plans: readonly TrimPlan[] = $state.raw([])
  words: readonly string[] = $state.raw([])

  constructor(start: () => PlannerPort) {
    this.#start = start
  }

  ask(job: Job, analysis: Analysis, judged: Judged, takeOff: boolean): void {
    this.clear()
    const search = correctionSearch(job, analysis, judged, { takeOff })
    if (!search) return
    this.basis = { job, judged }
    this.working = true
    const id = ++this.#id
    const worker = this.#start()
    this.#worker = worker
    worker.addEventListener('message', ({ data }) => {
      if (data.id !== this.#id || data.kind === 'progress' || data.kind === 'interim') return
      if (data.kind === 'failed') this.words = [`The planner failed: ${clause(data.message)}.`]
      else {
        const { plans, plan_remarks } = plansFrom(job, judged, data.report)
        this.plans = plans
        this.words = plan_remarks
      }
      this.#end()
    })
    worker.addEventListener('error', (event) => {
      this.words = [`The planner could not be started: ${clause(event.message || 'no reason given')}.`]
      this.#end()
    })
    worker.postMessage({ id, job: search.job, setupId: analysis.setup, options: search.options })
  }

  clear(): void {
    this.#end()
    this.#id++
    this.basis = null
    this.plans = []
    this.words = []
  }

  #end(): void {
    this.#worker?.terminate()
    this.#worker = null
    this.working = false
  }
}
