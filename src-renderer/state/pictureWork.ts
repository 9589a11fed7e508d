/** Asks the pictures' worker and waits for its answers; the worker is started when it is first needed. */
import type { Picture } from '../../src-core/job/schema.ts'
import { clause } from '../../src-core/words/clause.ts'
import type { Ties } from '../../src-core/picture/planMap.ts'
import type { PictureReply, PictureRequest, Shrunk, Unpacked } from '../workers/pictureMessages.ts'

export interface PicturePort {
  postMessage(request: PictureRequest): void
  addEventListener(type: 'message', listener: (event: MessageEvent<PictureReply>) => void): void
  addEventListener(type: 'error', listener: (event: ErrorEvent) => void): void
}

const NOT_STARTED = 'the reader could not be started'

type Refused = { readonly ok: false; readonly reason: string }

export class PictureWork {
  readonly #start: () => PicturePort
  #port: PicturePort | null = null
  #id = 0
  readonly #shrinking = new Map<number, (result: Shrunk) => void>()
  readonly #showing = new Map<number, (result: Unpacked) => void>()

  constructor(start: () => PicturePort) {
    this.#start = start
  }

  /** Upright, at most `side` pixels either way and `limit` bytes, as a JPEG. */
  shrink(
    bytes: Uint8Array<ArrayBuffer>,
    type: Picture['type'],
    side: number,
    limit: number,
  ): Promise<Shrunk> {
    const id = ++this.#id
    return new Promise((resolve) => {
      this.#shrinking.set(id, resolve)
      this.#post({ kind: 'shrink', id, bytes, type, side, limit })
    })
  }

  /** Unpacked, and squared up by four ties where they are given. */
  show(picture: Picture, ties: Ties | null): Promise<Unpacked> {
    const id = ++this.#id
    return new Promise((resolve) => {
      this.#showing.set(id, resolve)
      this.#post({ kind: 'show', id, picture, ties })
    })
  }

  #post(request: PictureRequest): void {
    this.#port ??= this.#listen(this.#start())
    this.#port.postMessage(request)
  }

  #listen(port: PicturePort): PicturePort {
    port.addEventListener('message', ({ data }) => {
      if (data.kind === 'shrink') this.#shrinking.get(data.id)?.(data.result)
      else this.#showing.get(data.id)?.(data.result)
      this.#shrinking.delete(data.id)
      this.#showing.delete(data.id)
    })
    port.addEventListener('error', (event) => {
      const refused: Refused = { ok: false, reason: clause(event.message) || NOT_STARTED }
      for (const resolve of [...this.#shrinking.values(), ...this.#showing.values()]) resolve(refused)
      this.#shrinking.clear()
      this.#showing.clear()
      this.#port = null
    })
    return port
  }
}
