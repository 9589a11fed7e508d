/** Opening, saving and exporting: the flows between document, window and host. */
import type { ExportFormat, Host, HostInfo } from '../../src-core/bridge/contract.ts'
import type { FileRef, Reply } from '../../src-core/bridge/reply.ts'
import { jobFaults } from '../../src-core/job/faults.ts'
import { faultWords, type JobFault } from '../../src-core/job/fault.ts'
import type { BookEntry } from '../../src-core/bridge/bookContract.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { placeWords } from '../editor/faultPlace.ts'
import { ask } from './ask.ts'
import { nameOf } from './bookWords.ts'
import type { JobStore } from './document.svelte.ts'
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
  /** A stranger's change of the open file that was told already. */
  #toldStamp: string | null | undefined = undefined
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

  /** Whether someone else changed the open file meanwhile; says so once for each such change. */
  async lookAtFile(): Promise<void> {
    const file = this.#jobs.file
    if (!file || this.#session.dialog !== null) return
    const state = await this.#host.fileState(file.ref)
    if (!state.ok || this.#jobs.file !== file) return
    const { stamp } = state.value
    if (stamp === file.stamp || stamp === this.#toldStamp) return
    this.#toldStamp = stamp
    if (stamp === null)
      this.#session.notice = {
        kind: 'fault',
        text: `${file.ref.name} is not there any more. What is on the plate is whole: save it under a name to keep it.`,
        action: { label: 'Save as', run: () => void this.saveAs() },
      }
    else
      this.#session.notice = {
        kind: 'fault',
        text: `${file.ref.name} was changed by someone else meanwhile.`,
        action: { label: 'What to do', run: () => this.#meet(file.ref) },
      }
  }

  #meet(ref: FileRef): void {
    this.conflict = ref
    this.#session.dialog = 'conflict'
  }

  /** The job that the open file holds by now; null, and said why, where it cannot be read. */
  async theirs(): Promise<Job | null> {
    const read = this.conflict && (await this.#value(this.#host.readJob(this.conflict)))
    if (!read) return null
    const parsed = parseJob(read.text)
    if (parsed.ok) return parsed.job
    this.#fault(`${read.file.name} is not a job any more: ${faultWords(parsed.faults[0]!)}.`)
    return null
  }

  /** A file the user named outside the window: dropped on it, or opened from the system. */
  openGiven(ref: FileRef): void {
    this.leaving(() => void this.openFile(ref))
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

  /** Saves under a plain name in the job book; `replace` where a job of that name may be overwritten. */
  async saveInBook(name: string, replace: boolean): Promise<void> {
    const ref = await this.#value(this.#host.bookFile(name))
    if (ref) await this.#write(ref, replace ? null : '')
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
    if (!reply.ok && reply.fault.code === 'file.changed') this.#meet(ref)
    else if (reply.ok) {
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
  async settle(how: 'replace' | 'both' | 'open'): Promise<void> {
    const ref = this.conflict
    this.conflict = null
    this.#session.dialog = null
    if (!ref) return
    if (how === 'replace') await this.#write(ref, null)
    else if (how === 'open') await this.openFile(ref)
    else await this.#keepBoth(ref)
  }

  /** Mine beside theirs: in the book under a free name, elsewhere where the dialog says. */
  async #keepBoth(ref: FileRef): Promise<void> {
    const { bookFolder } = (await this.#value(this.#host.readSettings())) ?? {}
    if (ref.folder !== bookFolder) return this.saveAs()
    const stem = nameOf(ref)
    const free = await this.#value(this.#host.freeBookFile(`${stem}-mine`))
    if (free) await this.#write(free, '')
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
    const read = parseJob(text)
    if (read.ok) {
      this.#show(read.job, file, false)
      return true
    }
    const [first, ...rest] = read.faults
    const more = rest.length > 0 ? ` (and ${rest.length} more)` : ''
    this.#fault(`${name} was not opened: ${faultWords(first!)}${more}. Mend the file and open it again.`)
    return false
  }

  #show(job: Job, file: { ref: FileRef; stamp: string } | null, unsaved: boolean): void {
    this.#jobs.load(job, file, unsaved)
    this.#toldStamp = undefined
    this.onshow()
    this.#session.reset()
    this.#session.setupId = job.setups[0]!.id
    this.#session.notice = null
  }

  #value<T>(asked: Promise<Reply<T>>): Promise<T | null> {
    return ask(this.#session, asked)
  }

  #fault(text: string): void {
    this.#session.notice = { kind: 'fault', text }
  }
}
