/** The part's photograph as an image to draw, kept while it is only moved; unpacked and squared up in a worker. */
import { compose, type Affine } from '../../src-core/geometry/affine.ts'
import type { Photograph } from '../../src-core/job/schema.ts'
import { carried } from '../../src-core/picture/moving.ts'
import { planMap, type Ties } from '../../src-core/picture/planMap.ts'
import type { Unpacked } from '../workers/pictureMessages.ts'
import type { PictureWork } from './pictureWork.ts'

/** An image and the map of its pixels to the part's plan. */
export interface PlacedImage {
  readonly image: ImageBitmap
  readonly toPlan: Affine
}

interface Held {
  readonly picture: Photograph['picture']
  /** The four ties it was squared up by; null where it was not. */
  readonly ties: Ties | null
  readonly unpacked: Extract<Unpacked, { ok: true }>
}

export class ShownPhotograph {
  readonly #work: PictureWork
  #held: Held | null = $state.raw(null)
  #wanted: Photograph | null = null
  #busy = false
  /** What could not be shown: not asked for again. */
  #refused: Photograph['picture'] | null = null
  /** Why it is not shown; null where it is. */
  fault: string | null = $state(null)

  constructor(work: PictureWork) {
    this.#work = work
  }

  /** Says what should be ready to draw; whatever it takes is done meanwhile, one picture at a time. */
  want(photograph: Photograph | null): void {
    this.#wanted = photograph
    if (!photograph) {
      this.#held = null
      this.fault = null
    } else if (!this.#busy && photograph.picture !== this.#refused && !this.#fits(photograph))
      void this.#unpack(photograph)
  }

  /** Where the photograph lies now; null while it is not ready. */
  place(photograph: Photograph): PlacedImage | null {
    const held = this.#held
    if (!held || !this.#fits(photograph)) return null
    const { image, scale, sheet } = held.unpacked
    if (!sheet || !held.ties) {
      const made = planMap(photograph.ties)
      if (!made.ok) return null
      const [a, c, e, b, d, f] = made.map.toPlan
      return { image, toPlan: compose({ a, b, c, d, e, f }, { a: scale, b: 0, c: 0, d: scale, e: 0, f: 0 }) }
    }
    const moved = carried(held.ties, photograph.ties)
    if (!moved) return null
    const mm = 1 / sheet.pxPerMm
    return {
      image,
      toPlan: compose(moved, { a: mm, b: 0, c: 0, d: -mm, e: sheet.corner.x, f: sheet.corner.y }),
    }
  }

  #fits({ picture, ties }: Photograph): boolean {
    const held = this.#held
    if (held?.picture !== picture) return false
    return ties.length === 2 ? held.ties === null : held.ties !== null && carried(held.ties, ties) !== null
  }

  async #unpack({ picture, ties }: Photograph): Promise<void> {
    this.#busy = true
    const squared = ties.length === 4 ? ties : null
    const result = await this.#work.show(picture, squared)
    this.#busy = false
    const wanted = this.#wanted
    if (!wanted) return
    if (result.ok) {
      this.#held = { picture, ties: squared, unpacked: result }
      this.fault = null
    } else {
      this.#refused = picture
      this.fault = result.reason
    }
    // It may have been changed again meanwhile.
    const same = wanted.picture === picture && wanted.ties === ties
    if (!same) this.want(wanted)
  }
}
