/** Writes the job on the plate into a file: whole, one write after the other, and only what would open again. */
import type { Host } from '../../src-core/bridge/contract.ts'
import type { FileRef } from '../../src-core/bridge/reply.ts'
import type { JobFault } from '../../src-core/job/fault.ts'
import { jobFaults } from '../../src-core/job/faults.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { placeWords } from '../editor/faultPlace.ts'
import { faultNotice } from './ask.ts'
import type { JobStore } from './document.svelte.ts'
import type { Session } from './session.svelte.ts'

/** `changed`: the file is not as it was when it was read; the notice is left to whoever asked. */
export type Written = 'saved' | 'changed' | 'failed'

export class JobWriter {
  readonly #host: Host
  readonly #jobs: JobStore
  readonly #session: Session
  /** Goes to where a fault is. */
  onfault: (fault: JobFault) => void = () => undefined

  constructor(host: Host, jobs: JobStore, session: Session) {
    this.#host = host
    this.#jobs = jobs
    this.#session = session
  }

  /** Whether a file of it could be opened again; the notice says why not. */
  canWrite(): boolean {
    return this.#textOf(this.#jobs.job) !== null
  }

  /** `stamp` as `writeJob` takes it. */
  async write(ref: FileRef, stamp: string | null): Promise<Written> {
    const { job, opened } = this.#jobs
    const text = this.#textOf(job)
    if (text === null) return 'failed'
    const reply = await this.#host.writeJob(ref, text, stamp)
    if (reply.ok) {
      // Another job may have come onto the plate meanwhile: this file is not that one's.
      if (this.#jobs.opened === opened)
        this.#jobs.markSaved(job, { ref: reply.value.file, stamp: reply.value.stamp })
      this.#session.notice = { kind: 'done', text: `Saved as ${reply.value.file.name}` }
      return 'saved'
    }
    if (reply.fault.code === 'file.changed') return 'changed'
    this.#session.notice = faultNotice(this.#session, reply.fault)
    return 'failed'
  }

  /** Null, and said why, where the file could not be opened again. */
  #textOf(job: Job): string | null {
    const fault = jobFaults(job)[0]
    if (fault) {
      this.#session.notice = {
        kind: 'fault',
        text: `Not saved: ${placeWords(job, fault)} ${fault.message}. A file with it would not open again: mend it or undo it, then save.`,
        action: { label: 'Show it', run: () => this.onfault(fault) },
        holds: (now) => jobFaults(now).length > 0,
      }
      return null
    }
    try {
      return serialiseJob(job)
    } catch {
      this.#session.notice = {
        kind: 'fault',
        text: 'Not saved: something in the job is beyond what a file may hold, such as a text that is too long.',
      }
      return null
    }
  }
}
