/** Opening, saving and exporting: the flows between document, window and host. */
import type { ExportFormat, FileRef, Host, HostInfo, Reply } from '../../src-core/bridge/contract.ts'
import { jobFaults, type JobFault } from '../../src-core/job/faults.ts'
import type { BookEntry } from '../../src-core/bridge/bookContract.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { placeWords } from '../editor/faultPlace.ts'
import type { JobStore } from './jobStore.svelte.ts'
import type { Session } from './session.svelte.ts'

const SUFFIX = '.evenswing.json'

export class Files {
  readonly #host: Host
  readonly #jobs: JobStore
  readonly #session: Session
  info: HostInfo | null = $state.raw(null)
  examples: readonly string[] = $state.raw([])
  /** The file that was found changed when it was to be written. */
  conflict: FileRef | null = $state.raw(null)
  /** Called when another job comes onto the plate. */
  onshow: () => void = () => undefined
  /** Goes to where a fault is. */
  onfault: (fault: JobFault) => void = () => undefined
  /** Before that there is no job to show. */
  ready: boolean = $state(false)

  constructor(host: Host, jobs: JobStore, session: Session) {
    this.#host = host
    this.#jobs = jobs
    this.#session = session
  }

  /** First run: what the host is, and the first example on the plate. */
  async start(): Promise<void> {
    this.info = await this.#value(this.#host.info())
    this.examples = (await this.#value(this.#host.listExamples())) ?? []
    const preferred = this.examples.find((n) => n === 'flat-link') ?? this.examples[0]
    if (preferred !== undefined) await this.#loadExample(preferred)
    this.ready = true
  }

  /** Does it at once, or asks first where changes would be lost. */
  leaving(then: () => void): void {
    if (!this.#jobs.isDirty) return then()
    this.#session.afterDiscard = then
    this.#session.dialog = 'discard'
  }

  openExample(name: string): void {
    this.leaving(() => void this.#loadExample(name))
  }

  open(): void {
    this.leaving(() => void this.#chooseAndOpen())
  }

  newJob(job: Job): void {
    this.#show(job, null, true)
  }

  async openFile(ref: FileRef): Promise<void> {
    const opened = await this.#value(this.#host.readJob(ref))
    if (opened) this.#loadText(opened.text, { ref: opened.file, stamp: opened.stamp }, opened.file.name)
  }

  /** A file the user named outside the window: dropped on it, or opened from the system. */
  openGiven(ref: FileRef): void {
    this.leaving(() => void this.openFile(ref))
  }

  /** Shows the folder that holds the log. */
  async showLog(): Promise<void> {
    await this.#value(this.#host.showLog())
  }

  /** A job file's text that was dropped on the window; it has no file of its own to save to. */
  openText(text: string, name: string): void {
    this.leaving(() => this.#loadText(text, null, name))
  }

  async listBook(): Promise<readonly BookEntry[]> {
    return (await this.#value(this.#host.listBook()))?.entries ?? []
  }

  async save(): Promise<void> {
    const file = this.#jobs.file
    if (file) return this.#write(file.ref, file.stamp)
    return this.saveAs()
  }

  async saveAs(): Promise<void> {
    if (!this.info?.systemDialogs) {
      this.#session.dialog = 'save'
      return
    }
    const ref = await this.#value(this.#host.chooseSave(this.suggestedName(SUFFIX)))
    if (ref) await this.#write(ref, null)
  }

  /** Saves under a plain name in the job folder. */
  async saveInFolder(name: string): Promise<void> {
    const ref = await this.#value(this.#host.bookFile(name))
    if (ref) await this.#write(ref, null)
  }

  async export(name: string, format: ExportFormat, bytes: Uint8Array): Promise<void> {
    this.#tellWhere(await this.#value(this.#host.exportFile(name, format, bytes)))
  }

  /** A sheet's SVG as a picture. */
  async exportPicture(name: string, svg: string): Promise<void> {
    this.#tellWhere(await this.#value(this.#host.exportPicture(name, svg)))
  }

  #tellWhere(ref: FileRef | null): void {
    if (ref) this.#session.notice = { kind: 'done', text: `${ref.name} is in ${ref.folder}` }
  }

  suggestedName(suffix: string): string {
    const { title, partNumber } = this.#jobs.job
    const words = `${partNumber ?? ''} ${title}`
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '')
    return (words.slice(0, 60) || 'faceplate-job') + suffix
  }

  async #write(ref: FileRef, stamp: string | null): Promise<void> {
    const job = this.#jobs.job
    const text = this.#textOf(job)
    if (text === null) return
    const reply = await this.#host.writeJob(ref, text, stamp)
    if (!reply.ok && reply.fault.code === 'file.changed') {
      this.conflict = ref
      this.#session.dialog = 'conflict'
    } else if (reply.ok) {
      this.#jobs.markSaved(job, { ref: reply.value.file, stamp: reply.value.stamp })
      this.#session.notice = { kind: 'done', text: `Saved as ${reply.value.file.name}` }
    } else this.#fault(reply.fault.message)
  }

  /** Null, and said why, where the file could not be opened again. */
  #textOf(job: Job): string | null {
    const fault = jobFaults(job)[0]
    if (fault) {
      this.#session.notice = {
        kind: 'fault',
        text: `Not saved: ${placeWords(job, fault)} ${fault.message}. A file with it would not open again: mend it or undo it, then save.`,
        action: { label: 'Show it', run: () => this.onfault(fault) },
      }
      return null
    }
    try {
      return serialiseJob(job)
    } catch {
      this.#fault(
        'Not saved: something in the job is beyond what a file may hold, such as a text that is too long.',
      )
      return null
    }
  }

  /** Someone else has changed the file since it was opened: what to do about it. */
  async settle(how: 'replace' | 'saveAs' | 'open'): Promise<void> {
    const ref = this.conflict
    this.conflict = null
    this.#session.dialog = null
    if (!ref) return
    if (how === 'replace') await this.#write(ref, null)
    else if (how === 'open') await this.openFile(ref)
    else await this.saveAs()
  }

  async #chooseAndOpen(): Promise<void> {
    if (!this.info?.systemDialogs) {
      this.#session.dialog = 'open'
      return
    }
    const ref = await this.#value(this.#host.chooseOpen())
    if (ref) await this.openFile(ref)
  }

  async #loadExample(name: string): Promise<void> {
    const text = await this.#value(this.#host.readExample(name))
    if (text !== null) this.#loadText(text, null, name)
  }

  #loadText(text: string, file: { ref: FileRef; stamp: string } | null, name: string): void {
    const read = parseJob(text)
    if (read.ok) return this.#show(read.job, file, false)
    const [first, ...rest] = read.faults
    const more = rest.length > 0 ? ` (and ${rest.length} more)` : ''
    this.#fault(
      `${name} was not opened: ${first!.path || 'the file'} ${first!.message}${more}. Mend the file and open it again.`,
    )
  }

  #show(job: Job, file: { ref: FileRef; stamp: string } | null, unsaved: boolean): void {
    this.#jobs.load(job, file, unsaved)
    this.onshow()
    this.#session.reset()
    this.#session.setupId = job.setups[0]!.id
    this.#session.notice = null
  }

  async #value<T>(asked: Promise<Reply<T>>): Promise<T | null> {
    const reply = await asked
    if (reply.ok) return reply.value
    this.#fault(reply.fault.message)
    return null
  }

  #fault(text: string): void {
    this.#session.notice = { kind: 'fault', text }
  }
}
