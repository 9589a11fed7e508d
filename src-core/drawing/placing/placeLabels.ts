/**
 * Chooses a place for each label of a view out of its candidates: none over ink, none over another label, no line
 * of one through another, and as few line crossings and as short lines as can be found. First in order, each at its
 * best; then each is taken up again and set down where it is best among the rest, until nothing moves.
 */
import type { Primitive } from '../model.ts'
import type { InkMap } from './inkMap.ts'
import { quadsMeet, segmentMeetsQuad, segmentsCross, type Quad, type Segment } from './quad.ts'

export interface Candidate {
  /** The ground that its text takes. */
  readonly quads: readonly Quad[]
  /** Leaders, dimension and extension lines: they may cross lines, at a price, but no label. */
  readonly lines: readonly Segment[]
  /** How far it is from the best of its kind; 1 is about a millimetre of leader. */
  readonly cost: number
  draw(): readonly Primitive[]
}

export interface Label {
  readonly id: string
  readonly candidates: readonly Candidate[]
}

export interface Placed {
  readonly primitives: readonly Primitive[]
  /** Text ground of all placed labels. */
  readonly quads: readonly Quad[]
  /** Ids of labels for which no free place was found; they are not drawn. */
  readonly unplaced: readonly string[]
}

/** Clear space round a label, mm. */
export const CLEAR = 0.7
const CROSSING_LABEL_LINE = 14
const CROSSING_INK = 1.2
const OVER_BODY = 0.25
const PER_MILLIMETRE = 0.4
const SWEEPS = 4

interface Option {
  readonly candidate: Candidate
  readonly cost: number
}

export function placeLabels(labels: readonly Label[], ink: InkMap, taken: readonly Quad[] = []): Placed {
  const options = labels.map((label) =>
    label.candidates
      .filter((c) => c.quads.every((q) => ink.isFree(q, CLEAR)) && !blocked(c, taken))
      .map((candidate): Option => ({ candidate, cost: ownCost(candidate, ink) }))
      .sort((a, b) => a.cost - b.cost),
  )
  const chosen: (Candidate | null)[] = labels.map(() => null)
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    let moved = false
    labels.forEach((_, i) => {
      const best = bestAmong(options[i]!, chosen, i)
      if (best === chosen[i]) return
      chosen[i] = best
      moved = true
    })
    if (!moved) break
  }
  return {
    primitives: chosen.flatMap((c) => c?.draw() ?? []),
    quads: chosen.flatMap((c) => c?.quads ?? []),
    unplaced: labels.filter((_, i) => !chosen[i]).map((l) => l.id),
  }
}

function ownCost(candidate: Candidate, ink: InkMap): number {
  let cost = candidate.cost
  for (const { a, b } of candidate.lines) {
    const { lines, body } = ink.along(a, b)
    cost += Math.hypot(b.x - a.x, b.y - a.y) * PER_MILLIMETRE + lines * CROSSING_INK + body * OVER_BODY
  }
  return cost
}

const blocked = (c: Candidate, taken: readonly Quad[]): boolean =>
  taken.some((t) => c.quads.some((q) => quadsMeet(q, t, CLEAR)) || c.lines.some((s) => segmentMeetsQuad(s, t, CLEAR / 2)))

function bestAmong(options: readonly Option[], chosen: readonly (Candidate | null)[], own: number): Candidate | null {
  const others = chosen.filter((c, i): c is Candidate => c !== null && i !== own)
  let best: Candidate | null = null
  let least = Infinity
  for (const { candidate, cost } of options) {
    // Sorted by own cost: from here on nothing can be better.
    if (cost >= least) break
    const total = cost + meeting(candidate, others, least - cost)
    if (total < least) {
      least = total
      best = candidate
    }
  }
  return best
}

/** What meeting the other labels costs; Infinity over a label. Gives up once past `limit`. */
function meeting(c: Candidate, others: readonly Candidate[], limit: number): number {
  let cost = 0
  for (const o of others) {
    for (const q of c.quads) {
      if (o.quads.some((t) => quadsMeet(q, t, CLEAR))) return Infinity
      if (o.lines.some((s) => segmentMeetsQuad(s, q, CLEAR / 2))) return Infinity
    }
    for (const s of c.lines) {
      if (o.quads.some((t) => segmentMeetsQuad(s, t, CLEAR / 2))) return Infinity
      for (const t of o.lines) if (segmentsCross(s, t)) cost += CROSSING_LABEL_LINE
    }
    if (cost >= limit) return cost
  }
  return cost
}
