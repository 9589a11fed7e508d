/** Saving the job on the plate, and what to do where someone else has written to its file meanwhile. */
import type { Host } from '../../src-core/bridge/contract.ts'
import type { FileRef } from '../../src-core/bridge/reply.ts'
import { faultWords, type JobFault } from '../../src-core/job/fault.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { ask } from './ask.ts'
import { nameOf } from './bookWords.ts'
import type { JobFile, JobStore } from './document.svelte.ts'
import { JobWriter } from './jobWriter.ts'
import type { Session } from './session.svelte.ts'
import { JOB_ENDING } from '../../src-core/job/fileEnding.ts'
import { suggestedName } from './suggestedName.ts'
import { Turns } from './turns.ts'

export class Saving {
  readonly #host: Host
  readonly #jobs: JobStore
  readonly #session: Session
  readonly #writer: JobWriter
  /** Saving and looking at the file take turns: what one has just written is no stranger's change to the other. */
  readonly #turns = new Turns()
  /** A save that waits for its turn already; another asked for meanwhile is the same. */
  #next: Promise<void> | null = null
  #isChoosing = false
  /** A stranger's change of the open file that was told already, of the job that was open then. */
  #told: { readonly opened: object; readonly stamp: string | null } | null = null
  /** The file that was found changed when it was to be written. */
  conflict: FileRef | null = $state.raw(null)
  /** Whether the system asks for names; else the window does. */
  systemDialogs = false
  /** Somebody else's state of the open job on the plate, as a step that undo takes back. */
  ontake: (job: Job, file: JobFile) => void = () => undefined
  /** What was asked for and waits until the job is saved. */
  #then: (() => void) | null = null

  constructor(host: Host, jobs: JobStore, session: Session) {
    this.#host = host
    this.#jobs = jobs
    this.#session = session
    this.#writer = new JobWriter(host, jobs, session)
  }

  /** Goes to where a fault is. */
  set onfault(show: (fault: JobFault) => void) {
    this.#writer.onfault = show
  }

  /** A key held down asks many times: each save knows the stamp that the one before it left. */
  save(): Promise<void> {
    if (!this.#jobs.file) return this.saveAs()
    const { opened } = this.#jobs
    this.#next ??= this.#turns.take(async () => {
      this.#next = null
      const { file } = this.#jobs
      if (!file || this.#jobs.opened !== opened || (await this.#stands(file))) return
      // Another job that came onto the plate while this one waited does not belong into its file.
      if (this.#jobs.opened === opened) await this.#put(file.ref, file.stamp)
    })
    return this.#next
  }

  /** Saves, and does `then` once all is saved, though a name is asked for first or what to do about a stranger's change. */
  async saveThen(then: () => void): Promise<void> {
    this.#then = then
    await this.save()
    this.goOn()
  }

  /** Does what waited for saving; forgets it where nothing was saved and nothing more is asked that could. */
  goOn(): void {
    const { isDirty } = this.#jobs
    const { dialog } = this.#session
    if (isDirty && (dialog === 'save' || dialog === 'conflict')) return
    const then = this.#then
    this.#then = null
    if (!isDirty) then?.()
  }

  /** Whether the file holds the job already: written once more, it would push an earlier version out. */
  async #stands(file: JobFile): Promise<boolean> {
    if (this.#jobs.isDirty) return false
    const state = await this.#host.fileState(file.ref)
    if (!state.ok || state.value.stamp !== file.stamp) return false
    this.#session.notice = { kind: 'done', text: `Saved as ${file.ref.name}` }
    return true
  }

  async saveAs(): Promise<void> {
    // No name is asked for what cannot be saved.
    if (!this.#writer.canWrite()) return
    if (!this.systemDialogs) {
      this.#session.dialog = 'save'
      return
    }
    if (this.#isChoosing) return
    this.#isChoosing = true
    const ref = await ask(this.#session, this.#host.chooseSave(suggestedName(this.#jobs, JOB_ENDING)))
    this.#isChoosing = false
    if (ref) await this.#write(ref, null)
  }

  /** Saves under a plain name in the job book; `replace` where a job of that name may be overwritten. Whether it is saved. */
  async saveInBook(name: string, replace: boolean): Promise<boolean> {
    const { opened } = this.#jobs
    const ref = await ask(this.#session, this.#host.bookFile(name))
    return ref !== null && this.#write(ref, replace ? null : '', opened)
  }

  #write(ref: FileRef, stamp: string | null, opened: object = this.#jobs.opened): Promise<boolean> {
    return this.#turns.take(async () => this.#jobs.opened === opened && this.#put(ref, stamp))
  }

  async #put(ref: FileRef, stamp: string | null): Promise<boolean> {
    const written = await this.#writer.write(ref, stamp)
    if (written === 'changed') {
      if (stamp === '') this.#fault(`There is a ${ref.name} by now. Nothing was saved: give another name.`)
      else this.#meet(ref)
    }
    return written === 'saved'
  }

  /** Whether someone else changed the open file meanwhile; says so once for each such change. */
  lookAtFile(): Promise<void> {
    return this.#turns.take(() => this.#look())
  }

  async #look(): Promise<void> {
    const { file, opened } = this.#jobs
    if (!file || this.#session.dialog !== null) return
    const state = await this.#host.fileState(file.ref)
    if (!state.ok || this.#jobs.file !== file) return
    const { stamp } = state.value
    if (stamp === file.stamp || (this.#told?.opened === opened && this.#told.stamp === stamp)) return
    this.#told = { opened, stamp }
    if (stamp === null)
      this.#session.notice = {
        kind: 'fault',
        ofWindow: true,
        text: `${file.ref.name} is not there any more. What is on the plate is whole: save it under a name to keep it.`,
        action: { label: 'Save as', run: () => void this.saveAs() },
      }
    else
      this.#session.notice = {
        kind: 'fault',
        ofWindow: true,
        text: `${file.ref.name} was changed by someone else meanwhile.`,
        action: { label: 'What to do', run: () => this.#meet(file.ref) },
      }
  }

  #meet(ref: FileRef): void {
    this.conflict = ref
    this.#session.askWhenFree('conflict')
  }

  /** The job that the open file holds by now; null, and said why, where it cannot be read. */
  async theirs(): Promise<Job | null> {
    return (this.conflict && (await this.#read(this.conflict)))?.job ?? null
  }

  async #read(ref: FileRef): Promise<{ readonly job: Job; readonly file: JobFile } | null> {
    const read = await ask(this.#session, this.#host.readJob(ref))
    if (!read) return null
    const parsed = parseJob(read.text)
    if (parsed.ok) return { job: parsed.job, file: { ref: read.file, stamp: read.stamp } }
    this.#fault(`${read.file.name} is not a job any more: ${faultWords(parsed.faults[0]!)}.`)
    return null
  }

  /** Someone else has changed the file since it was opened: what to do about it. */
  async settle(how: 'replace' | 'both' | 'open'): Promise<void> {
    const ref = this.conflict
    this.conflict = null
    this.#session.dialog = null
    if (!ref) return
    if (how === 'replace') await this.#write(ref, null)
    else if (how === 'open') await this.#take(ref)
    else await this.#keepBoth(ref)
    // Who takes theirs stays with the job; what he asked for before would take it off the plate.
    if (how === 'open') this.#then = null
    else this.goOn()
  }

  async #take(ref: FileRef): Promise<void> {
    const theirs = await this.#read(ref)
    if (!theirs) return
    this.ontake(theirs.job, theirs.file)
    this.#session.notice = { kind: 'done', text: `${ref.name} is as they saved it. Undo brings yours back.` }
  }

  /** Mine beside theirs: in the book under a free name, elsewhere where the dialog says. */
  async #keepBoth(ref: FileRef): Promise<void> {
    const { bookFolder } = (await ask(this.#session, this.#host.readSettings())) ?? {}
    if (ref.folder !== bookFolder) return this.saveAs()
    const free = await ask(this.#session, this.#host.freeBookFile(`${nameOf(ref)}-mine`))
    if (free) await this.#write(free, '')
  }

  #fault(text: string): void {
    this.#session.notice = { kind: 'fault', text }
  }
}
