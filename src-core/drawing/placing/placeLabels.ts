/**
 * Chooses a place for each label of a view out of its candidates: none over ink, none over another label, no line
 * of one through another, and as few line crossings and as short lines as can be found. First in order, each at its
 * best; then each is taken up again and set down where it is best among the rest, until nothing moves.
 */
import type { Primitive } from '../model.ts'
import type { InkMap } from './inkMap.ts'
import {
  quadsMeet,
  segmentMeetsQuad,
  segmentsCross,
  segmentsRunTogether,
  type Quad,
  type Segment,
} from './quad.ts'

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

export interface Label {
  readonly id: string
  readonly candidates: readonly Candidate[]
}

export interface Placed {
  readonly primitives: readonly Primitive[]
  /** Ids of labels for which no free place was found; they are not drawn. */
  readonly unplaced: readonly string[]
}

/** Clear space between a label and lines, and between two labels, mm. */
const CLEAR = 0.7
const APART = 1.6
const CROSSING_LABEL_LINE = 14
const RUNNING_TOGETHER = 10
const CROSSING_INK = 1.2
const OVER_BODY = 0.25
const PER_MILLIMETRE = 0.4
const SWEEPS = 4

/** A candidate whose price is worked out when it is first asked for. */
class Option {
  readonly candidate: Candidate
  /** What it costs at least: its own cost and the length of its lines. */
  readonly least: number
  private price: number | null = null

  constructor(candidate: Candidate) {
    this.candidate = candidate
    this.least = candidate.lines.reduce(
      (sum, { a, b }) => sum + Math.hypot(b.x - a.x, b.y - a.y) * PER_MILLIMETRE,
      candidate.cost,
    )
  }

  /** With what it runs over; Infinity where its text finds no free ground. */
  cost(ink: InkMap): number {
    this.price ??= this.work(ink)
    return this.price
  }

  private work(ink: InkMap): number {
    const { quads, lines, byHand } = this.candidate
    if (!quads.every((q) => (byHand ? ink.holds(q) : ink.isFree(q, CLEAR)))) return Infinity
    let cost = this.least
    for (const { a, b } of lines) {
      const over = ink.along(a, b)
      cost += over.lines * CROSSING_INK + over.body * OVER_BODY
    }
    return cost
  }
}

export function placeLabels(labels: readonly Label[], ink: InkMap): Placed {
  const options = labels.map((label) =>
    label.candidates.map((c) => new Option(c)).sort((a, b) => a.least - b.least),
  )
  const chosen: (Candidate | null)[] = labels.map(() => null)
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    let moved = false
    labels.forEach((_, i) => {
      const others = chosen.filter((c, k): c is Candidate => c !== null && k !== i)
      const best = bestAmong(options[i]!, others, ink)
      if (best === chosen[i]) return
      chosen[i] = best
      moved = true
    })
    if (!moved) break
  }
  return {
    primitives: chosen.flatMap((c) => c?.draw() ?? []),
    unplaced: labels.filter((_, i) => !chosen[i]).map((l) => l.id),
  }
}

function bestAmong(options: readonly Option[], others: readonly Candidate[], ink: InkMap): Candidate | null {
  let best: Candidate | null = null
  let least = Infinity
  for (const option of options) {
    // In order of the least cost: from here on nothing can be better.
    if (option.least >= least) break
    const cost = option.cost(ink)
    if (cost >= least) continue
    const total = cost + meeting(option.candidate, others, least - cost)
    if (total < least) {
      least = total
      best = option.candidate
    }
  }
  return best
}

/** What meeting the other labels costs; Infinity over a label. Gives up once past `limit`. */
function meeting(c: Candidate, others: readonly Candidate[], limit: number): number {
  let cost = 0
  for (const o of others) {
    for (const q of c.quads) {
      for (const t of o.quads) if (quadsMeet(q, t, APART)) return Infinity
      for (const s of o.lines) if (segmentMeetsQuad(s, q, CLEAR / 2)) return Infinity
    }
    for (const s of c.lines) {
      for (const t of o.quads) if (segmentMeetsQuad(s, t, CLEAR / 2)) return Infinity
      for (const t of o.lines) {
        if (segmentsCross(s, t)) cost += CROSSING_LABEL_LINE
        else if (segmentsRunTogether(s, t, CLEAR)) cost += RUNNING_TOGETHER
      }
    }
    if (cost >= limit) return cost
  }
  return cost
}
