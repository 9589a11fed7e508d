/** The document and its history. Held raw and replaced whole, so no proxy reaches the core, a worker or the host. */
import type { FileRef } from '../../src-core/bridge/reply.ts'
import type { Job } from '../../src-core/job/schema.ts'
import type { DisplayUnits } from '../../src-core/units/format.ts'
import * as steps from './history.ts'

/** Where the job was read from or written to last. */
export interface JobFile {
  readonly ref: FileRef
  readonly stamp: string
}

export class JobStore {
  #history: steps.History<Job> = $state.raw() as steps.History<Job>
  #saved: Job | null = $state.raw(null)
  #file: JobFile | null = $state.raw(null)
  /** What the file that the job was dropped from was called; it cannot be saved to. */
  givenName: string | null = null
  /** Another object for each job that comes onto the plate. */
  #opened: object = {}
  #units: DisplayUnits | null = null
  readonly #asShown = { mm: new WeakMap<Job, Job>(), in: new WeakMap<Job, Job>() }

  /** A job that stands as it is on disk, or as an example: nothing is lost by closing it. */
  constructor(job: Job) {
    this.#history = steps.startHistory(job)
    this.#saved = job
  }

  get job(): Job {
    return this.#history.present
  }
  get file(): JobFile | null {
    return this.#file
  }
  /** The same for as long as the same job is on the plate, however it is changed. */
  get opened(): object {
    return this.#opened
  }
  get isDirty(): boolean {
    return this.#history.present !== this.#saved
  }
  get inGesture(): boolean {
    return this.#history.gesture !== null
  }
  /** What undo would take back; null where there is nothing. */
  get undoLabel(): string | null {
    return this.#history.gesture?.label ?? this.#history.past.at(-1)?.label ?? null
  }
  get redoLabel(): string | null {
    return this.#history.gesture ? null : (this.#history.future[0]?.label ?? null)
  }

  /** Another job altogether; its history starts here. `unsaved`: it exists nowhere yet. */
  load(given: Job, file: JobFile | null, unsaved = false): void {
    const job = this.#shown(given)
    this.#history = steps.startHistory(job)
    this.#opened = {}
    this.givenName = null
    this.#file = file
    this.#saved = unsaved ? null : job
  }
  /** `job` is what was written: the document may have moved on meanwhile. */
  markSaved(job: Job, file: JobFile): void {
    this.#file = file
    this.#saved = this.#shown(job)
  }

  /**
   * The window's units, in which every job is shown from now on. They are nobody's edit: the job is as much or as little
   * changed as before, and undo does not take them back.
   */
  showIn(units: DisplayUnits): void {
    if (this.#units === units) return
    this.#units = units
    this.#history = steps.mapped(this.#history, (job) => this.#shown(job))
    if (this.#saved) this.#saved = this.#shown(this.#saved)
  }
  /** One and the same object for a job each time it is asked for, so that what is saved stays what is shown. */
  #shown(job: Job): Job {
    const units = this.#units
    if (!units || job.displayUnits === units) return job
    const kept = this.#asShown[units].get(job)
    if (kept) return kept
    const shown = { ...job, displayUnits: units }
    this.#asShown[units].set(job, shown)
    return shown
  }

  begin(label: string): void {
    this.#history = steps.begin(this.#history, label)
  }
  replace(job: Job): void {
    this.#history = steps.replace(this.#history, this.#shown(job))
  }
  commit(): void {
    this.#history = steps.commit(this.#history)
  }
  cancel(): void {
    this.#history = steps.cancel(this.#history)
  }
  /** One whole step. */
  edit(label: string, change: (job: Job) => Job): void {
    this.begin(label)
    this.replace(change(this.job))
    this.commit()
  }
  undo(): void {
    this.#history = steps.undo(this.#history)
  }
  redo(): void {
    this.#history = steps.redo(this.#history)
  }
}
