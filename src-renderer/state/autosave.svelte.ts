/** Unsaved work is kept as a draft within seconds, and offered again after a crash. */
import { SvelteSet } from 'svelte/reactivity'
import type { KeptDraft } from '../../src-core/bridge/bookContract.ts'
import type { Host } from '../../src-core/bridge/contract.ts'
import { parseDraft } from '../../src-core/job/parse.ts'
import { clause } from '../../src-core/words/clause.ts'
import { ask, faultNotice } from './ask.ts'
import type { Files } from './files.svelte.ts'
import type { JobStore } from './document.svelte.ts'
import type { Session } from './session.svelte.ts'
import { Turns } from './turns.ts'

/** ms from a change to its draft at the latest. */
const DELAY = 3000
const LOCK = 'evenswing-draft-'

export class Autosave {
  readonly #host: Host
  readonly #jobs: JobStore
  readonly #session: Session
  readonly #files: Files
  readonly #id = crypto.randomUUID()
  #timer: ReturnType<typeof setTimeout> | null = null
  #isKept = false
  #hasFailed = false
  /** One after the other: a draft that is dropped must not be written again by an earlier call. */
  readonly #turns = new Turns()
  /** Drafts of windows that are gone, to be offered. */
  left: readonly KeptDraft[] = $state.raw([])
  readonly discarded = new SvelteSet<string>()

  constructor(host: Host, jobs: JobStore, session: Session, files: Files) {
    this.#host = host
    this.#jobs = jobs
    this.#session = session
    this.#files = files
  }

  /** Offers what was left; this window's own drafts are marked as in hand from here on. */
  async start(): Promise<void> {
    const held = await this.#heldIds()
    void navigator.locks?.request(LOCK + this.#id, () => new Promise(() => undefined))
    const reply = await this.#host.listDrafts()
    if (!reply.ok) return
    this.left = reply.value.filter((draft) => !held.includes(draft.id))
    if (this.left.length > 0) this.#session.askWhenFree('recover')
  }

  /** Call whenever the document or whether it is saved changes. */
  note(isDirty: boolean): void {
    if (isDirty) this.#timer ??= setTimeout(() => this.#keep(), DELAY)
    else {
      if (this.#timer !== null) clearTimeout(this.#timer)
      this.#timer = null
      if (this.#isKept) this.#drop(this.#id)
      this.#isKept = false
    }
  }

  async recover(draft: KeptDraft): Promise<void> {
    const text = await ask(this.#session, this.#host.readDraft(draft.id))
    if (text === null) return
    const job = parseDraft(text)
    if (!job) {
      this.#session.notice = {
        kind: 'fault',
        text: `${draft.name}: the draft is damaged and could not be opened.`,
      }
      return
    }
    const file = draft.file && draft.stamp !== null ? { ref: draft.file, stamp: draft.stamp } : null
    this.#files.recover(job, file)
    this.left = this.left.filter((d) => d !== draft)
    // It stands in this window's own draft first, so that there is no moment in which it is in none.
    if (await this.#keep()) this.#drop(draft.id)
  }

  /** Marks a draft to be discarded, or takes the mark off again; nothing goes before `dropDiscarded`. */
  discard(draft: KeptDraft): void {
    if (!this.discarded.delete(draft.id)) this.discarded.add(draft.id)
  }

  dropDiscarded(): void {
    for (const id of this.discarded) this.#drop(id)
    this.left = this.left.filter((d) => !this.discarded.has(d.id))
    this.discarded.clear()
  }

  /** Whether the work stands in this window's draft now. */
  async #keep(): Promise<boolean> {
    this.#timer = null
    const { job, file, isDirty } = this.#jobs
    if (!isDirty) return false
    this.#isKept = true
    const draft = {
      id: this.#id,
      name: job.title || job.partNumber || job.part.name || file?.ref.name || 'Untitled job',
      file: file?.ref ?? null,
      stamp: file?.stamp ?? null,
      text: JSON.stringify(job),
    }
    let isKept = false
    await this.#turns.take(async () => {
      const reply = await this.#host.keepDraft(draft)
      isKept = reply.ok
      if (reply.ok) this.#hasFailed = false
      else if (!this.#hasFailed) {
        this.#hasFailed = true
        const why = clause(reply.fault.message)
        this.#session.notice = {
          ...faultNotice(this.#session, reply.fault, `Unsaved work is not kept: ${why}. Save it yourself.`),
          ofWindow: true,
        }
      }
    })
    return isKept
  }

  #drop(id: string): void {
    void this.#turns.take(() => ask(this.#session, this.#host.dropDraft(id)))
  }

  /** Drafts that this program's other windows have in hand; each holds a lock of its draft's name. */
  async #heldIds(): Promise<readonly string[]> {
    const state = await navigator.locks?.query()
    return (state?.held ?? []).map((lock) => lock.name?.slice(LOCK.length) ?? '')
  }
}
