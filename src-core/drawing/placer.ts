/** Places labels where they meet nothing placed before: boxes in sheet mm. */
import type { Point } from '../geometry/types.ts'

export interface LabelBox {
  readonly x0: number
  readonly y0: number
  readonly x1: number
  readonly y1: number
}

export const boxAround = (centre: Point, width: number, height: number): LabelBox => ({
  x0: centre.x - width / 2,
  y0: centre.y - height / 2,
  x1: centre.x + width / 2,
  y1: centre.y + height / 2,
})

export const overlapArea = (a: LabelBox, b: LabelBox): number =>
  Math.max(0, Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0)) *
  Math.max(0, Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0))

/** Clear space kept between labels, mm. */
const GAP = 0.8

export class Placer {
  private readonly taken: LabelBox[] = []
  private readonly within: LabelBox

  constructor(within: LabelBox) {
    this.within = within
  }

  /** Marks a box as taken. */
  block(box: LabelBox): void {
    this.taken.push(box)
  }

  /**
   * Takes the first candidate whose box meets nothing and stays within; null where none does. A label that finds no
   * place is left to its list, never drawn over another.
   */
  place<T extends { readonly box: LabelBox }>(candidates: Iterable<T>): T | null {
    for (const candidate of candidates) {
      if (!this.isFree(candidate.box)) continue
      this.taken.push(candidate.box)
      return candidate
    }
    return null
  }

  isFree(box: LabelBox): boolean {
    const grown = { x0: box.x0 - GAP, y0: box.y0 - GAP, x1: box.x1 + GAP, y1: box.y1 + GAP }
    const { within } = this
    if (box.x0 < within.x0 || box.x1 > within.x1 || box.y0 < within.y0 || box.y1 > within.y1) return false
    return this.taken.every((t) => overlapArea(t, grown) === 0)
  }
}
