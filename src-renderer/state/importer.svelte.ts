/** Reads a drawing or a mesh, shows what came of it, and only then lets it into the job. */
import type { BodiesResult, BodyOptions } from '../../src-core/import/toBodies.ts'
import { clause } from '../../src-core/words/clause.ts'
import type { ImportOptions, Preview } from '../../src-core/import/types.ts'
import type { ImportReply, ImportRequest, Lying } from '../workers/importMessages.ts'

export interface ImportPort {
  postMessage(request: ImportRequest): void
  addEventListener(type: 'message', listener: (event: MessageEvent<ImportReply>) => void): void
  addEventListener(type: 'error', listener: (event: ErrorEvent) => void): void
  terminate(): void
}

/** Bytes; the core refuses what lies within this but is still too much. */
const FILE_LIMIT = 64 * 1024 * 1024

export class Importer {
  readonly #start: () => ImportPort
  #worker: ImportPort | null = null
  #id = 0
  #file: { name: string; bytes: Uint8Array } | null = null
  /** Answers come in the order of what was asked. */
  #waiting: ((result: BodiesResult) => void)[] = []
  status: 'idle' | 'reading' | 'read' | 'refused' = $state('idle')
  name: string = $state('')
  options: ImportOptions = $state.raw({})
  preview: Preview | null = $state.raw(null)
  /** Of a mesh: the ways in which it can lie, as in the file first. */
  lyings: readonly Lying[] = $state.raw([])
  faults: readonly string[] = $state.raw([])

  constructor(start: () => ImportPort) {
    this.#start = start
  }

  /** A new file, with its own answers to what it leaves open. */
  async take(file: File): Promise<void> {
    this.stop()
    this.name = file.name
    this.options = {}
    if (file.size > FILE_LIMIT) {
      this.#refuse([
        `${file.name} is larger than ${FILE_LIMIT / 1024 / 1024} MB. Export only the outline that is needed.`,
      ])
      return
    }
    this.#file = { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) }
    this.#read()
  }

  /** The same file read again with other answers. */
  set(options: Partial<ImportOptions>): void {
    this.options = { ...this.options, ...options }
    if (this.#file) this.#read()
  }

  stop(): void {
    this.#worker?.terminate()
    this.#worker = null
    this.#id++
    for (const tell of this.#waiting.splice(0)) tell({ ok: false, reason: 'the reading was stopped' })
    this.#file = null
    this.preview = null
    this.lyings = []
    this.faults = []
    this.status = 'idle'
  }

  bodies(options: BodyOptions): Promise<BodiesResult> {
    const worker = this.#worker
    if (!worker || !this.preview) return Promise.resolve({ ok: false, reason: 'nothing was read' })
    return new Promise((resolve) => {
      this.#waiting.push(resolve)
      worker.postMessage({ kind: 'bodies', id: this.#id, options })
    })
  }

  #read(): void {
    const file = this.#file
    if (!file) return
    this.#worker ??= this.#listen(this.#start())
    this.status = 'reading'
    this.faults = []
    this.#worker.postMessage({ kind: 'read', id: ++this.#id, ...file, options: this.options })
  }

  #listen(worker: ImportPort): ImportPort {
    worker.addEventListener('message', ({ data }) => this.#answer(data))
    worker.addEventListener('error', (event) =>
      this.#refuse([`Reading failed: ${clause(event.message) || 'the reader could not be started'}.`]),
    )
    return worker
  }

  #answer(reply: ImportReply): void {
    // Asked before the file was read anew or not: each question has its answer.
    if (reply.kind === 'bodies') return this.#waiting.shift()?.(reply.result)
    if (reply.id !== this.#id) return
    if (reply.result.ok) {
      this.preview = reply.result
      this.lyings = reply.lyings
      this.status = 'read'
    } else this.#refuse(reply.result.faults.slice(0, 5).map((f) => `${f.place}: ${f.reason}`))
  }

  #refuse(faults: readonly string[]): void {
    this.preview = null
    this.lyings = []
    this.faults = faults
    this.status = 'refused'
  }
}
