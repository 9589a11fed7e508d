/** The job book in the window: its list, what is searched and chosen, and what is done with a chosen job. */
import type { BookEntry, Revision } from '../../src-core/bridge/bookContract.ts'
import type { Host } from '../../src-core/bridge/contract.ts'
import type { FileRef } from '../../src-core/bridge/reply.ts'
import { readCheckSum } from '../../src-core/job/checkSum.ts'
import { faultWords } from '../../src-core/job/fault.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { ask } from './ask.ts'
import { bookSearch, setupOfSum, type BookSearch } from './bookSearch.ts'
import { nameOf, namesIn, when, withNews } from './bookWords.ts'
import type { Files } from './files.svelte.ts'
import type { Session } from './session.svelte.ts'

/** Two jobs side by side, with how each is called. */
export interface Comparison {
  readonly before: { readonly job: Job; readonly name: string }
  readonly after: { readonly job: Job; readonly name: string }
  /** Takes `before` in place of the open job; null where that makes no sense. */
  readonly goBack: (() => void) | null
}

/** ms between two questions for what was read meanwhile. */
const NEWS = 800

export class JobBook {
  readonly #host: Host
  readonly #session: Session
  readonly #files: Files
  shown: boolean = $state(false)
  loading: boolean = $state(false)
  folder: string = $state('')
  entries: readonly BookEntry[] = $state.raw([])
  recent: readonly FileRef[] = $state.raw([])
  /** Jobs of the list that are still to be read. */
  waiting: number = $state(0)
  /** Nothing may be put into the book's folder. */
  readOnly: boolean = $state(false)
  /** Counts listings, so that news of one before are left alone. */
  #listing = 0
  /** Why the book could not be listed. */
  fault: string | null = $state(null)
  query: string = $state('')
  #chosenId: string | null = $state(null)
  /** The job that waits for another to be compared with. */
  comparing: BookEntry | null = $state.raw(null)
  comparison: Comparison | null = $state.raw(null)
  #revisions: { readonly of: string; readonly list: readonly Revision[] } | null = $state.raw(null)
  #search: { readonly of: readonly BookEntry[]; readonly search: BookSearch } | null = null

  constructor(host: Host, session: Session, files: Files) {
    this.#host = host
    this.#session = session
    this.#files = files
  }

  readonly nameOf = $derived(namesIn(this.entries))

  readonly found: readonly BookEntry[] = $derived.by(() => {
    const words = this.query.trim()
    return words === '' ? this.entries : this.#searchOf(this.entries).find(words)
  })
  readonly chosen: BookEntry | null = $derived(
    this.found.find((e) => e.file.id === this.#chosenId) ?? this.found[0] ?? null,
  )

  /** Earlier versions of the job chosen, once they were asked for. */
  readonly revisions: readonly Revision[] | null = $derived(
    this.#revisions?.of === this.chosen?.file.id ? (this.#revisions?.list ?? null) : null,
  )

  async open(): Promise<void> {
    this.shown = true
    await this.refresh()
  }

  close(): void {
    this.shown = false
    this.comparing = null
  }

  choose(entry: BookEntry): void {
    this.#chosenId = entry.file.id
  }

  /** The next or previous one of what is found. */
  step(by: number): void {
    const at = this.chosen ? this.found.indexOf(this.chosen) : -1
    const next = this.found[Math.max(0, Math.min(this.found.length - 1, at + by))]
    if (next) this.choose(next)
  }

  async refresh(): Promise<void> {
    this.loading = true
    this.#revisions = null
    const listing = ++this.#listing
    const reply = await this.#host.listBook()
    if (listing !== this.#listing) return
    this.loading = false
    if (!reply.ok) {
      this.fault = reply.fault.message
      this.entries = []
      this.waiting = 0
      return
    }
    this.fault = null
    this.folder = reply.value.folder
    this.entries = reply.value.entries
    this.readOnly = reply.value.readOnly
    this.waiting = reply.value.waiting
    if (this.waiting > 0) void this.#follow(listing, reply.value.mark)
    const recent = await this.#host.listRecent()
    this.recent = recent.ok ? recent.value : []
    // Built once the list stands on the screen, so that the first letter typed finds it ready.
    setTimeout(() => this.#searchOf(this.entries))
  }

  /** Takes in what the host reads meanwhile, as long as the book is open. */
  async #follow(listing: number, mark: number): Promise<void> {
    while (this.waiting > 0) {
      await new Promise((done) => setTimeout(done, NEWS))
      if (listing !== this.#listing || !this.shown) return
      const reply = await this.#host.bookNews(mark)
      if (listing !== this.#listing) return
      // Another window chose another folder meanwhile.
      if (!reply.ok || reply.value.folder !== this.folder) return void (await this.refresh())
      mark = reply.value.mark
      this.waiting = reply.value.waiting
      this.entries = withNews(this.entries, reply.value)
    }
  }

  /** The check sum that is searched for; null where the query is none. */
  readonly sum: string | null = $derived(readCheckSum(this.query))

  /** A job found by the check sum of a sheet opens at that sheet's setup. */
  openEntry(entry: BookEntry): void {
    const setup = this.sum === null ? null : setupOfSum(entry, this.sum)
    this.#files.leaving(
      () =>
        void this.#opened(entry.file).then((opened) => {
          if (opened && setup !== null) this.#session.setupId = setup
        }),
    )
  }

  /** Opens a job with the list of what to fetch for it. */
  repeat(entry: BookEntry): void {
    this.#files.leaving(
      () =>
        void this.#opened(entry.file).then((opened) => {
          if (opened) this.#session.dialog = 'fetch'
        }),
    )
  }

  async #opened(file: FileRef): Promise<boolean> {
    const opened = await this.#files.openFile(file)
    if (opened) this.close()
    return opened
  }

  /** A variant under a name of its own, which is then chosen in the list. Runs stay with the original. */
  async duplicate(entry: BookEntry): Promise<void> {
    const job = await this.#jobIn(entry.file)
    if (!job) return
    const variant: Job = { ...job, runs: [], title: `${job.title || 'Untitled job'}, variant` }
    const stem = nameOf(entry.file)
    const file = await ask(this.#session, this.#host.freeBookFile(`${stem}-variant`))
    if (!file) return
    const saved = await ask(this.#session, this.#host.writeJob(file, serialiseJob(variant), ''))
    if (!saved) return
    await this.refresh()
    this.query = ''
    this.#chosenId = saved.file.id
    this.#session.notice = {
      kind: 'done',
      text: `${saved.file.name} is a variant to work on; open it to change it.`,
    }
  }

  /** The first call marks a job, the second compares with it. */
  async compare(entry: BookEntry): Promise<void> {
    const first = this.comparing
    if (!first || first.file.id === entry.file.id) {
      this.comparing = first ? null : entry
      return
    }
    this.comparing = null
    const [before, after] = [await this.#jobIn(first.file), await this.#jobIn(entry.file)]
    if (before && after)
      this.comparison = {
        before: { job: before, name: nameOf(first.file) },
        after: { job: after, name: nameOf(entry.file) },
        goBack: null,
      }
  }

  /** A copy that a syncing folder left, beside the job it was made of. */
  async compareWithOriginal(entry: BookEntry): Promise<void> {
    const original = this.entries.find((e) => e.file.name === entry.conflictOf)
    if (!original) return
    this.comparing = original
    await this.compare(entry)
  }

  async showRevisions(entry: BookEntry): Promise<void> {
    const list = await ask(this.#session, this.#host.listRevisions(entry.file))
    this.#revisions = list && { of: entry.file.id, list }
  }

  /** An earlier version beside what the file holds now; where that is damaged, the earlier one on the plate. */
  async lookAtRevision(entry: BookEntry, revision: Revision): Promise<void> {
    if (!entry.summary) return this.#files.leaving(() => void this.#mend(entry, revision))
    const now = await this.#jobIn(entry.file)
    const before = await this.#revisionOf(entry, revision)
    if (!before || !now) return
    this.comparison = {
      before: { job: before, name: `until ${when(revision.saved)}` },
      after: { job: now, name: 'now' },
      goBack: () => this.#files.leaving(() => void this.#goBack(entry, before)),
    }
  }

  /** The earlier version on the plate, as a change of the file that is not saved yet. */
  async #goBack(entry: BookEntry, job: Job): Promise<void> {
    if (!(await this.#opened(entry.file))) return
    this.#files.replaceBy(job, 'Go back to an earlier version')
    this.#session.notice = {
      kind: 'done',
      text: 'The earlier version is on the plate. Save it to keep it; undo takes it back.',
    }
  }

  /** Saving it then replaces the damaged file, if that is still as it was. */
  async #mend(entry: BookEntry, revision: Revision): Promise<void> {
    const job = await this.#revisionOf(entry, revision)
    const state = job && (await ask(this.#session, this.#host.fileState(entry.file)))
    if (!job || !state) return
    this.#files.recover(job, state.stamp === null ? null : { ref: entry.file, stamp: state.stamp })
    this.close()
    this.#session.notice = {
      kind: 'done',
      text: `The version until ${when(revision.saved)} is on the plate. Save it to replace the damaged file.`,
    }
  }

  async #revisionOf(entry: BookEntry, revision: Revision): Promise<Job | null> {
    const text = await ask(this.#session, this.#host.readRevision(entry.file, revision.id))
    return text === null ? null : this.#parsed(text, `${entry.file.name}, earlier version`)
  }

  async #jobIn(file: FileRef): Promise<Job | null> {
    const read = await ask(this.#session, this.#host.readJob(file))
    return read && this.#parsed(read.text, file.name)
  }

  #parsed(text: string, name: string): Job | null {
    const read = parseJob(text)
    if (read.ok) return read.job
    const first = read.faults[0]!
    this.#session.notice = { kind: 'fault', text: `${name}: ${faultWords(first)}.` }
    return null
  }

  #searchOf(entries: readonly BookEntry[]): BookSearch {
    if (this.#search?.of !== entries) this.#search = { of: entries, search: bookSearch(entries) }
    return this.#search.search
  }
}
