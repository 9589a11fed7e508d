/** Opening, saving and exporting: the flows between document, window and host. */
import type { ExportFormat, Host, HostInfo } from '../../src-core/bridge/contract.ts'
import type { FileRef, Reply } from '../../src-core/bridge/reply.ts'
import { faultWords } from '../../src-core/job/fault.ts'
import type { BookEntry } from '../../src-core/bridge/bookContract.ts'
import { unsaidOf } from '../editor/edits/pressToClamp.ts'
import { parseDraft, parseJob, writtenVersion } from '../../src-core/job/parse.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { ask } from './ask.ts'
import { nameOf } from './bookWords.ts'
import { copyText, download } from './copyOut.ts'
import type { JobStore } from './document.svelte.ts'
import { Saving } from './saving.svelte.ts'
import type { Session } from './session.svelte.ts'
import { JOB_ENDING } from '../../src-core/job/fileEnding.ts'
import { suggestedName } from './suggestedName.ts'

export class Files {
  readonly #host: Host
  readonly #jobs: JobStore
  readonly #session: Session
  readonly saving: Saving
  info: HostInfo | null = $state.raw(null)
  examples: readonly string[] = $state.raw([])
  /** Called when another job comes onto the plate. */
  onshow: () => void = () => undefined
  /** Before that there is no job to show. */
  ready: boolean = $state(false)

  constructor(host: Host, jobs: JobStore, session: Session) {
    this.#host = host
    this.#jobs = jobs
    this.#session = session
    this.saving = new Saving(host, jobs, session)
    this.saving.ontake = (theirs, file) => {
      this.replaceBy(theirs, 'Take theirs')
      this.#jobs.markSaved(theirs, file)
    }
    session.copyOut = () => this.copyOut()
  }

  /** First run: what the host is, and the first example on the plate. */
  async start(): Promise<void> {
    this.info = await this.#value(this.#host.info())
    this.saving.systemDialogs = this.info?.systemDialogs ?? false
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

  /** A file anywhere, through the system's dialog. */
  openElsewhere(): void {
    this.leaving(() => void this.#chooseAndOpen())
  }

  newJob(job: Job): void {
    this.#show(job, null, true)
  }

  /** Whether it is on the plate now; the notice says why not. */
  async openFile(ref: FileRef): Promise<boolean> {
    const opened = await this.#value(this.#host.readJob(ref))
    if (!opened) return false
    const isOpen = this.#loadText(opened.text, { ref: opened.file, stamp: opened.stamp }, opened.file.name)
    if (isOpen) void this.#tellReadOnly(opened.file)
    return isOpen
  }

  async #tellReadOnly(ref: FileRef): Promise<void> {
    const state = await this.#host.fileState(ref)
    if (state.ok && state.value.readOnly)
      this.#session.notice = {
        kind: 'fault',
        text: `${ref.name} may only be read. Changes can be saved under another name.`,
        action: { label: 'Save as', run: () => void this.saveAs() },
      }
  }

  /** Unsaved work of before on the plate; its file, if it had one, is noticed as changed when it was since. */
  recover(job: Job, file: { ref: FileRef; stamp: string } | null): void {
    this.#show(job, file, true)
  }

  /** Another state of the open job, as one step that undo takes back. */
  replaceBy(job: Job, label: string): void {
    this.#jobs.edit(label, () => job)
    if (!job.setups.some((s) => s.id === this.#session.setupId)) this.#session.setupId = job.setups[0]!.id
  }

  /** A file the user named outside the window: dropped on it, or opened from the system. */
  openGiven(ref: FileRef): void {
    void this.#lookAndOpen(ref)
  }

  /** Looked at before anybody is asked to leave unsaved work for it. */
  async #lookAndOpen(ref: FileRef): Promise<void> {
    const opened = await this.#value(this.#host.readJob(ref))
    if (!opened || !this.#read(opened.text, opened.file.name, false)) return
    this.leaving(() => void this.openFile(ref))
  }

  /** A job file's text that was dropped on the window; it has no file of its own to save to, so it is not saved yet. */
  openText(text: string, name: string): void {
    const job = this.#read(text, name, true)
    if (!job) return
    this.leaving(() => {
      this.#show(job, null, true)
      this.#tellUnsaid(job, text)
      this.#jobs.givenName = nameOf({ name })
    })
  }

  /** The job as a file among the browser's downloads. */
  copyOut(): void {
    const { file, job } = this.#jobs
    const name = file?.ref.name ?? this.suggestedName(JOB_ENDING)
    download(name, copyText(job))
    this.#session.notice = {
      kind: 'done',
      text: `A copy, ${name}, is among this browser’s downloads. Drop it on an Evenswing window to go on with it.`,
    }
  }

  /** An example as it is, without putting it on the plate; null where it cannot be read. */
  async readExample(name: string): Promise<Job | null> {
    const text = await this.#value(this.#host.readExample(name))
    const read = text === null ? null : parseJob(text)
    return read?.ok ? read.job : null
  }

  async listBook(): Promise<readonly BookEntry[]> {
    return (await this.#value(this.#host.listBook()))?.entries ?? []
  }

  save(): Promise<void> {
    return this.saving.save()
  }

  saveAs(): Promise<void> {
    return this.saving.saveAs()
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
    return suggestedName(this.#jobs, suffix)
  }

  async #chooseAndOpen(): Promise<void> {
    const ref = await this.#value(this.#host.chooseOpen())
    if (ref) await this.openFile(ref)
  }

  async #loadExample(name: string): Promise<void> {
    const text = await this.#value(this.#host.readExample(name))
    if (text !== null) this.#loadText(text, null, name)
  }

  #loadText(text: string, file: { ref: FileRef; stamp: string } | null, name: string): boolean {
    const job = this.#read(text, name, false)
    if (job) {
      this.#show(job, file, false)
      this.#tellUnsaid(job, text)
    }
    return job !== null
  }

  /** Null, and said why, where it is no job. `isDraft`: a copy of unfinished work may have the faults its job had. */
  #read(text: string, name: string, isDraft: boolean): Job | null {
    const read = parseJob(text)
    if (read.ok) return read.job
    const draft = isDraft ? parseDraft(text) : null
    if (draft) return draft
    const [first, ...rest] = read.faults
    const more = rest.length > 0 ? ` (and ${rest.length} more)` : ''
    this.#fault(`${name} was not opened: ${faultWords(first!)}${more}. Mend the file and open it again.`)
    return null
  }

  #show(job: Job, file: { ref: FileRef; stamp: string } | null, unsaved: boolean): void {
    this.#jobs.load(job, file, unsaved)
    this.onshow()
    this.#session.reset()
    this.#session.setupId = job.setups[0]!.id
    this.#session.notice = null
  }

  /** Once, when a job of an older version comes onto the plate: what it could not say, and where to give it. */
  #tellUnsaid(job: Job, text: string): void {
    const unsaid = writtenVersion(text) === 1 ? unsaidOf(job) : []
    if (unsaid.length === 0) return
    const ids = unsaid.map((u) => u.id).filter((id, i, all) => all.indexOf(id) === i)
    const some = ids.slice(0, 6).join(', ') + (ids.length > 6 ? ' and more' : '')
    this.#session.notice = {
      kind: 'fault',
      text: `This job is of an older form, which cannot say how ${some} press or are held.`,
      action: { label: 'What is missing', run: () => this.#session.askWhenFree('unsaid') },
    }
  }

  #value<T>(asked: Promise<Reply<T>>): Promise<T | null> {
    return ask(this.#session, asked)
  }

  #fault(text: string): void {
    this.#session.notice = { kind: 'fault', text }
  }
}
