/** Choosing a photograph and saying where it lies: what the dialog works on before anything enters the job. */
import { angleTowards } from '../../src-core/geometry/angles.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { LIMITS, type Photograph, type Picture } from '../../src-core/job/schema.ts'
import { base64OfBytes, bytesOfBase64 } from '../../src-core/picture/base64.ts'
import { readPictureHeader, uprightSize } from '../../src-core/picture/header.ts'
import { tieFault, type Ties } from '../../src-core/picture/planMap.ts'
import type { PictureHeader } from '../../src-core/picture/types.ts'
import { setPhotograph } from '../editor/edits/photograph.ts'
import { markPlan, type Along, type Marked, type Method } from '../editor/markPlan.ts'
import type { JobStore } from './document.svelte.ts'
import type { PictureWork } from './pictureWork.ts'

export const PICTURE_ENDINGS: readonly string[] = ['png', 'jpg', 'jpeg']
/** Bytes of a file that is looked at at all. */
const FILE_LIMIT = 64 * 1024 * 1024
/** Pixels a side that a picture is shrunk to: a part of 400 mm still has ten a millimetre. */
const SHRUNK_SIDE = 4000
const ROUGHLY_SEEN = 0.7

const UNMARKED: Marked = { u: null, v: null }
const megabytes = (bytes: number) => `${(bytes / 1024 / 1024).toFixed(1)} MB`

interface Offer {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly header: PictureHeader
  readonly text: string
}

export class PhotographDesk {
  readonly #jobs: JobStore
  readonly #work: PictureWork
  #reading = 0
  picture: Picture | null = $state.raw(null)
  /** For the page to show it by; given back when another comes. */
  address: string | null = $state(null)
  name: string = $state('')
  busy: boolean = $state(false)
  /** A picture that is too large as it is. */
  offer: Offer | null = $state.raw(null)
  fault: string | null = $state(null)
  method: Method = $state('distance')
  marks: readonly Marked[] = $state.raw([UNMARKED, UNMARKED, UNMARKED, UNMARKED])
  /** The mark that the next click sets. */
  active: number = $state(0)
  /** mm; null: not said yet. */
  distance: number | null = $state(null)
  width: number | null = $state(null)
  height: number | null = $state(null)
  /** Where the first mark lies on the part, mm. */
  at: Point = $state.raw({ x: 0, y: 0 })
  along: Along = $state('picture')
  /** Radians of the line from 1 to 2 on the part as the photograph of the job lies; null: there is none. */
  kept: number | null = $state(null)

  constructor(jobs: JobStore, work: PictureWork) {
    this.#jobs = jobs
    this.#work = work
  }

  get count(): number {
    return this.method === 'distance' ? 2 : 4
  }

  /** Starts from the job's photograph where there is one and nothing else was chosen. */
  open(): void {
    const { photograph } = this.#jobs.job.part
    if (this.picture || this.busy || this.offer || !photograph) return
    const bytes = bytesOfBase64(photograph.picture.data)
    if (!bytes) return
    this.#adopt(photograph.picture, bytes)
    this.#startFrom(photograph.ties)
  }

  close(): void {
    this.#reading++
    if (this.address !== null) URL.revokeObjectURL(this.address)
    this.address = null
    this.picture = null
    this.offer = null
    this.fault = null
    this.busy = false
    this.name = ''
  }

  /** Another file; marks are set anew. */
  async take(file: File): Promise<void> {
    this.close()
    const mine = this.#reading
    this.name = file.name
    if (file.size > FILE_LIMIT) {
      this.fault = `${file.name} is larger than ${FILE_LIMIT / 1024 / 1024} MB. Save a smaller copy of it first.`
      return
    }
    this.busy = true
    const bytes = new Uint8Array(await file.arrayBuffer())
    if (mine !== this.#reading) return
    this.busy = false
    const header = readPictureHeader(bytes)
    if (!header.ok) {
      this.fault = `${file.name} was not taken: ${header.reason} (byte ${header.at}). A PNG or JPEG is wanted.`
      return
    }
    const { width, height } = uprightSize(header)
    if (bytes.length > LIMITS.pictureBytes || width * height > LIMITS.pictureArea) {
      this.offer = {
        bytes,
        header,
        text: `${file.name} has ${width} × ${height} pixels and ${megabytes(bytes.length)}; a job keeps at most ${megabytes(LIMITS.pictureBytes)} of a picture.`,
      }
    } else if (header.orientation !== 1) await this.#redraw(bytes, header)
    else this.#adopt(this.#pictureOf(bytes, header.type, width, height), bytes)
  }

  /** Takes up the offer to shrink. */
  async shrink(): Promise<void> {
    const { offer } = this
    if (!offer) return
    this.offer = null
    await this.#redraw(offer.bytes, offer.header)
  }

  /** Drawn anew, upright and small enough. */
  async #redraw(bytes: Uint8Array<ArrayBuffer>, { type }: PictureHeader): Promise<void> {
    const mine = this.#reading
    this.busy = true
    const result = await this.#work.shrink(bytes, type, SHRUNK_SIDE, LIMITS.pictureBytes)
    if (mine !== this.#reading) return
    this.busy = false
    if (!result.ok) {
      this.fault = `${this.name} was not taken: ${result.reason}. Save a smaller copy of it first.`
      return
    }
    this.#adopt(this.#pictureOf(result.bytes, 'image/jpeg', result.width, result.height), result.bytes)
  }

  #pictureOf(bytes: Uint8Array, type: Picture['type'], width: number, height: number): Picture {
    return { name: this.name.slice(0, 200), type, width, height, data: base64OfBytes(bytes) }
  }

  #adopt(picture: Picture, bytes: Uint8Array<ArrayBuffer>): void {
    this.picture = picture
    this.name = picture.name
    this.address = URL.createObjectURL(new Blob([bytes], { type: picture.type }))
    this.marks = [UNMARKED, UNMARKED, UNMARKED, UNMARKED]
    this.active = 0
    this.kept = null
    if (this.along === 'kept') this.along = 'picture'
  }

  #startFrom(ties: Ties): void {
    this.method = ties.length === 2 ? 'distance' : 'rectangle'
    this.marks = [0, 1, 2, 3].map((i) => {
      const t = ties[i]
      return t ? { u: t.u, v: t.v } : UNMARKED
    })
    const [a, b] = ties
    const c = ties[2]
    this.at = { x: a.x, y: a.y }
    const apart = (p: Point, q: Point) => Number(Math.hypot(q.x - p.x, q.y - p.y).toPrecision(9))
    this.kept = angleTowards(a, b)
    this.along = 'kept'
    if (c) {
      this.width = apart(a, b)
      this.height = apart(b, c)
    } else this.distance = apart(a, b)
  }

  /** Sets a mark, within the picture; the next click then sets the next one that is not set. */
  mark(index: number, mark: Marked): void {
    const { picture } = this
    if (!picture) return
    const within = (v: number | null, most: number) =>
      v === null ? null : Math.round(Math.min(most, Math.max(0, v)) * 100) / 100
    const set = { u: within(mark.u, picture.width), v: within(mark.v, picture.height) }
    this.marks = this.marks.map((m, i) => (i === index ? set : m))
  }
  /** After a mark was set by pointer. */
  advance(): void {
    const next = this.marks.slice(0, this.count).findIndex((m) => m.u === null || m.v === null)
    if (next >= 0) this.active = next
  }
  use(method: Method): void {
    this.method = method
    this.active = Math.min(this.active, this.count - 1)
    this.advance()
  }

  /** The ties as they stand; null while something is missing. */
  get ties(): Ties | null {
    const pixels = this.marks.slice(0, this.count)
    const plan = markPlan(this)
    if (!plan) return null
    const ties = pixels.flatMap(({ u, v }, i) => (u === null || v === null ? [] : [{ u, v, ...plan[i]! }]))
    return ties.length === this.count ? (ties as unknown as Ties) : null
  }
  /** Why it cannot be placed yet; null where it can. */
  get lack(): string | null {
    const missing = this.marks.slice(0, this.count).findIndex((m) => m.u === null || m.v === null)
    if (missing >= 0) return `Click ${this.labels[missing]!} in the picture, or type its pixels.`
    const { ties } = this
    if (!ties)
      return this.method === 'distance' ? 'Type the distance from 1 to 2.' : 'Type the width and height.'
    const fault = tieFault(ties)
    return fault === null ? null : `The points ${fault}.`
  }
  get labels(): readonly string[] {
    return this.method === 'distance'
      ? ['point 1', 'point 2']
      : ['the lower left corner', 'the lower right corner', 'the upper right corner', 'the upper left corner']
  }

  /** Puts it under the plan in one step, locked. False where it cannot be. */
  place(): boolean {
    const { picture, ties } = this
    if (!picture || !ties || this.lack !== null) return false
    const before = this.#jobs.job.part.photograph
    const photograph: Photograph = {
      picture,
      ties,
      opacity: before?.opacity ?? ROUGHLY_SEEN,
      locked: true,
    }
    this.#jobs.edit(before ? 'Place the photograph anew' : 'Add a photograph', (job) =>
      setPhotograph(job, photograph),
    )
    return true
  }
}
