/** The shop library in the window: read from the book's folder, changed whole, offered to the open job. */
import type { Host } from '../../src-core/bridge/contract.ts'
import { faultWords } from '../../src-core/job/fault.ts'
import { parseLibrary, serialiseLibrary } from '../../src-core/shop/parse.ts'
import { EMPTY_LIBRARY, type Library, type LibraryItem, type Section } from '../../src-core/shop/schema.ts'
import { standCopied } from '../editor/edits/shelves.ts'
import { collect, copyIntoJob, freeId, mergeLibraries, offers, type Offer } from '../../src-core/shop/use.ts'
import type { EdgeCut, Job } from '../../src-core/job/schema.ts'
import { ask } from './ask.ts'
import type { Files } from './files.svelte.ts'
import type { JobStore } from './document.svelte.ts'
import type { Formatter } from '../../src-core/units/format.ts'
import type { Results } from './results.svelte.ts'
import type { Session } from './session.svelte.ts'

export class ShopLibrary {
  readonly #host: Host
  readonly #jobs: JobStore
  readonly #session: Session
  readonly #results: Results
  readonly #files: Files
  library: Library = $state.raw(EMPTY_LIBRARY)
  /** Null: there is no file yet. */
  #stamp: string | null = null
  /** Why the library's file cannot be used; nothing is written over it then. */
  fault: string | null = $state(null)
  /** Offers that the user did not want in this job. */
  #kept: readonly string[] = $state.raw([])

  constructor(host: Host, parts: { jobs: JobStore; session: Session; results: Results; files: Files }) {
    this.#host = host
    this.#jobs = parts.jobs
    this.#session = parts.session
    this.#results = parts.results
    this.#files = parts.files
  }

  readonly offers: readonly Offer[] = $derived.by(() =>
    this.#jobs.inGesture
      ? []
      : offers(this.#jobs.job, this.library).filter((o) => !this.#kept.includes(keyOf(o))),
  )

  async read(): Promise<void> {
    const reply = await this.#host.readLibrary()
    if (!reply.ok) {
      this.fault = reply.fault.message
      return
    }
    const { text, stamp } = reply.value
    const parsed = text === null ? null : parseLibrary(text)
    if (parsed && !parsed.ok) {
      const first = parsed.faults[0]!
      this.fault = `The shop library cannot be used: ${faultWords(first)}. It was left untouched.`
      return
    }
    this.fault = null
    this.library = parsed?.library ?? EMPTY_LIBRARY
    this.#stamp = stamp
  }

  take(offer: Offer): void {
    this.#jobs.edit(`Take ${offer.words} from the library`, offer.take)
  }
  keep(offer: Offer): void {
    this.#kept = [...this.#kept, keyOf(offer)]
  }

  use(section: Section, item: LibraryItem): void {
    const setupId = this.#results.setup.id
    this.#jobs.edit(`${item.name} from the library`, (job) => {
      const copied = copyIntoJob(job, setupId, section, item)
      return section === 'hardware' ? standCopied(copied, setupId) : copied
    })
    this.#session.notice = { kind: 'done', text: `${item.name} is in the job now; undo takes it back.` }
  }

  async remove(section: Section, item: LibraryItem): Promise<void> {
    await this.#change((library) => ({
      ...library,
      [section]: (library[section] as readonly LibraryItem[]).filter((i) => i.id !== item.id),
    }))
  }

  /** Takes over what the open job holds under names that the library does not know. */
  async collect(job: Job): Promise<void> {
    let added = 0
    const done = await this.#change((library) => {
      const collected = collect(job, library)
      added = collected.added
      return collected.library
    })
    if (done)
      this.#session.notice = {
        kind: 'done',
        text:
          added === 0
            ? 'The library has all of this job’s named things already.'
            : `${added} things are in the library now.`,
      }
  }

  /** A setup's tool, speed, feed and depth under a name made of them. */
  async keepTooling({ tool, speed, feed, depth }: EdgeCut, fmt: Formatter): Promise<void> {
    const name = `${tool} boring, ${fmt.cuttingSpeed(speed)}, ${fmt.feed(feed)}`
    const value = { tool, speed, feed, depth }
    await this.#change((library) => ({
      ...library,
      tooling: [
        ...library.tooling.filter((t) => t.name !== name),
        { id: freeId(library.tooling, name), name, value },
      ],
    }))
  }

  async merge(text: string, name: string): Promise<void> {
    const read = parseLibrary(text)
    if (!read.ok) {
      const first = read.faults[0]!
      this.#session.notice = {
        kind: 'fault',
        text: `${name} was not taken in: ${faultWords(first)}.`,
      }
      return
    }
    if (await this.#change((library) => mergeLibraries(library, read.library)))
      this.#session.notice = { kind: 'done', text: `${name} is in the library now.` }
  }

  async export(): Promise<void> {
    const bytes = new TextEncoder().encode(serialiseLibrary(this.library))
    await this.#files.export('shop.evenswing-library.json', 'json', bytes)
  }

  /** A change on top of what the file holds: someone else may have changed it meanwhile. */
  async #change(change: (library: Library) => Library): Promise<boolean> {
    for (let attempt = 0; attempt < 3; attempt++) {
      if (this.fault !== null) {
        this.#session.notice = { kind: 'fault', text: this.fault }
        return false
      }
      const next = change(this.library)
      if (next === this.library) return true
      const reply = await this.#host.writeLibrary(serialiseLibrary(next), this.#stamp)
      if (reply.ok) {
        this.library = next
        this.#stamp = reply.value.stamp
        return true
      }
      const isStale = ['file.changed', 'file.exists', 'file.gone'].includes(reply.fault.code)
      if (!isStale || attempt === 2) {
        await ask(this.#session, Promise.resolve(reply))
        return false
      }
      await this.read()
    }
    return false
  }
}

const keyOf = (offer: Offer): string =>
  `${offer.section} ${offer.item.id} ${JSON.stringify(offer.item.value)}`
