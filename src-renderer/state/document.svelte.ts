/** The document and its history. Held raw and replaced whole, so no proxy reaches the core, a worker or the host. */
import type { FileRef } from '../../src-core/bridge/reply.ts'
import type { Job } from '../../src-core/job/schema.ts'
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
  load(job: Job, file: JobFile | null, unsaved = false): void {
    this.#history = steps.startHistory(job)
    this.#opened = {}
    this.givenName = null
    this.#file = file
    this.#saved = unsaved ? null : job
  }
  /** `job` is what was written: the document may have moved on meanwhile. */
  markSaved(job: Job, file: JobFile): void {
    this.#file = file
    this.#saved = job
  }

  begin(label: string): void {
    this.#history = steps.begin(this.#history, label)
  }
  replace(job: Job): void {
    this.#history = steps.replace(this.#history, job)
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
