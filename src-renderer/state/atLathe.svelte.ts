/** Standing at the machine: which step is on, what is done, read and measured; found again after leaving or a crash. */
import type { Host } from '../../src-core/bridge/contract.ts'
import type { Picture, Run } from '../../src-core/job/schema.ts'
import { replan, planPasses, type PassPlan } from '../../src-core/passes/borePasses.ts'
import { boreWorks, type BoreWork } from '../../src-core/passes/boreTask.ts'
import { applyPlan } from '../../src-core/planner/apply.ts'
import { stepsOf } from '../../src-core/steps/steps.ts'
import type { Step } from '../../src-core/steps/step.ts'
import { entryLike, newEntry, readingsOf, type TrimEntry } from '../../src-core/trim/entry.ts'
import { parseReadings } from '../../src-core/trim/readings.ts'
import { judgeReadings, type JudgedResult, type TrimPlan } from '../../src-core/trim/report.ts'
import { trimmedWords } from '../../src-core/trim/words.ts'
import { addRun, latestRuns } from '../editor/edits/runs.ts'
import { ask } from './ask.ts'
import { Correction } from './correction.svelte.ts'
import type { Files } from './files.svelte.ts'
import type { JobStore } from './document.svelte.ts'
import { markOf, newProgress, parseProgress, progressKey, type LatheProgress } from './latheProgress.ts'
import type { PlannerPort } from './planner.svelte.ts'
import type { Results } from './results.svelte.ts'
import type { Session } from './session.svelte.ts'
import type { SettingsStore } from './settings.svelte.ts'
import { today } from './today.ts'
import { Turns } from './turns.ts'

interface Around {
  readonly jobs: JobStore
  readonly session: Session
  readonly results: Results
  readonly files: Files
  readonly settings: SettingsStore
}

export class AtLathe {
  readonly #host: Host
  readonly #around: Around
  readonly #turns = new Turns()
  #key: string | null = null
  /** What the next write takes: of several changes in a row only the last is written. */
  #unwritten: string | null = null
  shown: boolean = $state(false)
  /** Null until what was kept has been looked for. */
  progress: LatheProgress | null = $state(null)
  /** The set-up is another than the one that was left. */
  changed: boolean = $state(false)
  photograph: Picture | null = $state.raw(null)
  readonly correction: Correction

  constructor(host: Host, around: Around, planner: () => PlannerPort) {
    this.#host = host
    this.#around = around
    this.correction = new Correction(planner)
  }

  readonly steps: readonly Step[] = $derived.by(() => {
    const { mounted, analysis } = this.#around.results
    return this.shown && mounted && analysis ? stepsOf(mounted, analysis) : []
  })
  readonly index: number = $derived(
    Math.max(
      0,
      this.steps.findIndex((s) => s.id === this.progress?.step),
    ),
  )
  readonly step: Step | null = $derived(this.steps[this.index] ?? null)
  readonly readings = $derived.by(() => (this.progress ? readingsOf(this.progress.entry) : null))
  /** The readings judged; null while there are too few. */
  readonly judged: JudgedResult | null = $derived.by(() => {
    const { readings } = this
    const { analysis } = this.#around.results
    if (!readings || !analysis) return null
    return readings.ok ? judgeReadings(this.#around.jobs.job, analysis, readings.readings) : readings
  })
  /** The bore that the step's cut brings to size. */
  readonly work: BoreWork | null = $derived.by(() => {
    const { jobs, results } = this.#around
    const cut = this.step?.cut
    if (!cut) return null
    return boreWorks(jobs.job, results.setup).find((w) => w.cut.id === cut) ?? null
  })
  /** The last run of this setup that is in the job: what one starts from. */
  readonly last: Run | null = $derived.by(() => {
    const { jobs, results } = this.#around
    return this.shown ? (latestRuns(jobs.job, results.setup.id)[0] ?? null) : null
  })
  readonly measured = $derived(this.progress?.sizes.filter((s) => s.cut === this.step?.cut) ?? [])
  readonly passes: PassPlan | null = $derived.by(() => {
    if (!this.work?.ok) return null
    const last = this.measured.at(-1)
    return last ? replan(this.work.task, last) : planPasses(this.work.task)
  })

  async enter(): Promise<void> {
    const { jobs, session, results, settings } = this.#around
    const { setup } = results
    const key = progressKey(jobs.job, setup, jobs.file?.ref ?? null)
    // After what was written last, of another setup too.
    const kept = parseProgress(await this.#turns.take(() => ask(session, this.#host.readProgress(key))))
    this.#key = key
    const entry = firstEntry(latestRuns(jobs.job, setup.id)[0], setup.speed)
    this.progress = kept ?? newProgress(setup, settings.values.person, entry)
    this.changed = kept !== null && kept.of !== markOf(setup)
    this.photograph = null
    this.correction.clear()
    this.shown = true
  }

  /** Keeps all as it is; call after each change. */
  keep(): void {
    const key = this.#key
    const { progress } = this
    if (key === null || progress === null) return
    this.#unwritten = JSON.stringify(progress)
    void this.#turns.take(async () => {
      const text = this.#unwritten
      this.#unwritten = null
      if (text !== null) await ask(this.#around.session, this.#host.keepProgress(key, text))
    })
  }

  /** Notes what was read, or how it is measured; a correction from the readings before goes. */
  note(change: () => void): void {
    change()
    this.correction.clear()
    this.keep()
  }

  go(by: number): void {
    this.goTo(this.steps[Math.min(this.steps.length - 1, Math.max(0, this.index + by))])
  }
  goTo(step: Step | undefined): void {
    if (!step || !this.progress) return
    this.progress.step = step.id
    this.keep()
  }
  /** Ticks the step off and goes on; a step that is barred is not. */
  tick(): void {
    const { step, progress } = this
    if (!step || !progress || step.barred !== null) return
    if (!progress.done.includes(step.id)) progress.done.push(step.id)
    this.go(1)
  }

  /** Notes a measured size after the pass that is next. */
  measure(size: number): void {
    const { passes, progress, measured, step } = this
    if (!progress || !step?.cut || passes?.state !== 'cut') return
    const [pass, after] = passes.passes
    const finishing = pass!.kind === 'finish' && after !== undefined
    progress.sizes.push({ cut: step.cut, pass: measured.length + 1, size, depth: pass!.depth, finishing })
    this.keep()
  }
  unmeasure(): void {
    const { progress, measured } = this
    const last = measured.at(-1)
    if (!progress || !last) return
    progress.sizes = progress.sizes.filter((s) => s !== last)
    this.keep()
  }

  /** Keeps the readings as they stand with the run, and begins a new page for the next. */
  take(): void {
    const { readings, progress } = this
    if (!readings?.ok || !progress) return
    progress.taken.push(JSON.stringify(readings.readings))
    progress.entry = { ...newEntry(progress.entry.rpm), method: progress.entry.method }
    this.keep()
  }

  /** Puts a correction on the plate as an edit, and goes to bolting it on. */
  putOn(plan: TrimPlan): void {
    const { jobs, results } = this.#around
    const before = results.setup.hardware.map((h) => h.id)
    jobs.edit('Correct what was measured', (job) => applyPlan(job, results.setup.id, plan))
    this.take()
    this.correction.clear()
    if (this.progress) {
      this.progress.of = markOf(results.setup)
      this.progress.expected = {
        amount: plan.residual_g_mm,
        angle: plan.residual_angle_deg,
        upper: plan.upper95_g_mm,
      }
    }
    this.goTo(this.steps.find((s) => s.kind === 'weight' && s.lit.some((id) => !before.includes(id))))
  }

  /** Away from the machine for now: the same step is found again. */
  leave(): void {
    this.keep()
    this.correction.clear()
    this.shown = false
  }

  /** The run goes into the job with one save, and what was kept of it is dropped. */
  async finish(state: 'done' | 'left'): Promise<void> {
    const { jobs, session, results, files } = this.#around
    const { progress } = this
    if (!progress) return
    const { by, remarks, done } = progress
    // The page of readings that is open counts too.
    const open = this.readings?.ok ? [JSON.stringify(this.readings.readings)] : []
    const sizes = progress.sizes.map(({ cut, pass, size }) => ({ cut, pass, size }))
    const run = {
      date: today(),
      setup: results.setup.id,
      by,
      speed: results.setup.speed,
      trimmed: trimmedWords(jobs.job, [...progress.taken, ...open]),
      remarks,
      state,
      done: [...done],
      readings: [...progress.taken, ...open],
      sizes,
      ...(this.photograph ? { photograph: this.photograph } : {}),
    }
    jobs.edit(`Record the run of ${run.date}`, (job) => addRun(job, run))
    this.shown = false
    const key = this.#key
    this.progress = null
    if (key !== null) await this.#turns.take(() => ask(session, this.#host.dropProgress(key)))
    await files.save()
  }
}

/** A page to note readings on: as they were taken in the last run, where there are any. */
function firstEntry(last: Run | undefined, rpm: number | null): TrimEntry {
  const text = last?.readings?.at(-1)
  const parsed = text === undefined ? null : parseReadings(text)
  return parsed?.ok ? entryLike(parsed.readings, rpm) : newEntry(rpm)
}
