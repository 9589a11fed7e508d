/** Everything computed from the document, again whenever it changes. */
import { analyseMounted } from '../../src-core/analysis/analyse.ts'
import type { Analysis } from '../../src-core/analysis/result.ts'
import { jobFaults } from '../../src-core/job/faults.ts'
import type { JobFault } from '../../src-core/job/fault.ts'
import type { Job, Setup } from '../../src-core/job/schema.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import { formatter } from '../../src-core/units/format.ts'
import type { JobStore } from './document.svelte.ts'
import { PacedAnalysis } from './pacedAnalysis.ts'
import type { Session } from './session.svelte.ts'

export class Results {
  readonly #jobs: JobStore
  readonly #session: Session

  constructor(jobs: JobStore, session: Session) {
    this.#jobs = jobs
    this.#session = session
  }

  /** The setup on show: the one chosen, or the first where that is gone. */
  readonly setup: Setup = $derived.by(() => {
    const { setups } = this.#jobs.job
    return setups.find((s) => s.id === this.#session.setupId) ?? setups[0]!
  })
  readonly mounted: Mounted | null = $derived.by(() =>
    attempt(() => mountSetup(this.#jobs.job, this.setup.id)),
  )
  #published = $state(0)
  readonly #paced = new PacedAnalysis(analyseMounted, () => this.#published++)
  /** While a long part, or one on a shelf, is dragged, that of a frame or more before. */
  readonly analysis: Analysis | null = $derived.by(() => {
    void this.#published
    return attempt(() => this.mounted && this.#paced.of(this.mounted, this.#jobs.inGesture))
  })
  readonly #faultsOf = $derived.by(() => (this.#jobs.inGesture ? null : this.#jobs.job))
  #lastFaults: { job: Job; faults: JobFault[] } | null = null
  /** Faults that a file of this job would be refused for; while something is dragged, those from before. */
  readonly faults: readonly JobFault[] = $derived.by(() => {
    const job = this.#faultsOf
    if (job && this.#lastFaults?.job !== job) this.#lastFaults = { job, faults: jobFaults(job) }
    return this.#lastFaults?.faults ?? []
  })
  /** Known by itself, so that what only words depend on is not worked out again with every change of the job. */
  readonly #units = $derived.by(() => this.#jobs.job.displayUnits)
  readonly format = $derived.by(() => formatter(this.#units))
}

/** A job whose names point nowhere cannot be mounted; its faults say so. */
function attempt<T>(compute: () => T): T | null {
  try {
    return compute()
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}
