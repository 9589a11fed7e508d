/** What a label's candidate costs where it stands, whatever the others do. Sheet mm. */
import type { Bounds, InkMap } from './inkMap.ts'
import type { Primitive } from '../model/model.ts'
import type { Quad, Segment } from './quad.ts'

/** Clear space between a label and lines, and between two labels, mm. */
export const CLEAR = 0.7
export const APART = 1.6
/** Between a label and another label's line: half an arrowhead and a little. */
export const FROM_LINE = 1
const CROSSING_INK = 1.2
const OVER_BODY = 0.25
const PER_MILLIMETRE = 0.4

export interface Candidate {
  /** The ground that its text takes. */
  readonly quads: readonly Quad[]
  /** Leaders, dimension and extension lines: they may cross lines, at a price, but no label. */
  readonly lines: readonly Segment[]
  /** How far it is from the best of its kind; 1 is about a millimetre of leader. */
  readonly cost: number
  /** Put there by hand: lines under it do not matter. */
  readonly byHand?: boolean
  draw(): readonly Primitive[]
}

/** A candidate whose price is worked out when it is first asked for. */
export class Option {
  readonly candidate: Candidate
  /** What it costs at least: its own cost and the length of its lines. */
  readonly least: number
  /** Around text and lines, with the space that others keep from them. */
  readonly bounds: Bounds
  private price: number | null = null

  constructor(candidate: Candidate) {
    this.candidate = candidate
    this.least = candidate.lines.reduce(
      (sum, { a, b }) => sum + Math.hypot(b.x - a.x, b.y - a.y) * PER_MILLIMETRE,
      candidate.cost,
    )
    this.bounds = boundsOf(candidate)
  }

  /** With what it runs over; Infinity where its text finds no free ground. */
  cost(ink: InkMap): number {
    this.price ??= this.work(ink)
    return this.price
  }

  private work(ink: InkMap): number {
    const { quads, lines, byHand } = this.candidate
    if (!lines.every(({ a, b }) => ink.isWithin(a) && ink.isWithin(b))) return Infinity
    if (!quads.every((q) => (byHand ? ink.holds(q) : ink.isFree(q, CLEAR)))) return Infinity
    let cost = this.least
    for (const { a, b } of lines) {
      const over = ink.along(a, b)
      cost += over.lines * CROSSING_INK + over.body * OVER_BODY
    }
    return cost
  }
}

function boundsOf({ quads, lines }: Candidate): Bounds {
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity }
  const take = (x: number, y: number, around: number) => {
    box.x0 = Math.min(box.x0, x - around)
    box.y0 = Math.min(box.y0, y - around)
    box.x1 = Math.max(box.x1, x + around)
    box.y1 = Math.max(box.y1, y + around)
  }
  for (const q of quads) take(q.centre.x, q.centre.y, Math.hypot(q.width, q.height) / 2 + APART)
  for (const { a, b } of lines) {
    take(a.x, a.y, FROM_LINE)
    take(b.x, b.y, FROM_LINE)
  }
  return box
}
