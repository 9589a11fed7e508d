/**
 * Chooses a place for each label of a view out of its candidates: none over ink, none over another label, no line
 * of one through another, and as few line crossings and as short lines as can be found. First in order, each at its
 * best; then each is taken up again and set down where it is best among the rest, until nothing moves.
 */
import type { Primitive } from '../model/model.ts'
import type { InkMap } from './inkMap.ts'
import { APART, CLEAR, FROM_LINE, Option, type Candidate } from './option.ts'
import { quadsMeet, segmentMeetsQuad, segmentsCross, segmentsRunTogether } from './quad.ts'

export interface Label {
  readonly id: string
  /** What is said elsewhere where it finds no place; its id where not given. */
  readonly words?: string
  /** Says nothing that is not said elsewhere: not missed where it finds no place. */
  readonly optional?: boolean
  readonly candidates: readonly Candidate[]
  /** Where else it may stand, asked for only when it finds no place among its candidates. */
  readonly spare?: () => readonly Candidate[]
}

export interface Placed {
  readonly primitives: readonly Primitive[]
  /** Words of labels for which no free place was found; they are not drawn. */
  readonly unplaced: readonly string[]
}

const CROSSING_LABEL_LINE = 14
const RUNNING_TOGETHER = 10
const SWEEPS = 4
/** Cost of a label that is not drawn, when weighing an exchange. */
const UNPLACED = 1000
const WORTH_MOVING = 2
const MOST_EXCHANGES = 25
/** Above this many labels a sheet is crowded beyond helping, and two sweeps must do. */
const CROWD = 60
/** Free places that a label without room is tried at by moving others. */
const MOST_TRIES = 60
/** With many labels each gets fewer, so that a crowded sheet does not take for ever. */
const MOST_TRIES_IN_ALL = 1500

type Chosen = (Option | null)[]

export function placeLabels(labels: readonly Label[], ink: InkMap): Placed {
  const options = labels.map((label) => optionsOf(label.candidates))
  const spare = labels.map((label) => label.spare ?? null)
  const chosen: Chosen = labels.map(() => null)
  // What was put somewhere by hand is set down first; the others keep clear of it.
  const isByHand = (label: Label) => label.candidates.some((c) => c.byHand)
  const order = [...labels.keys()].sort((i, k) => +isByHand(labels[k]!) - +isByHand(labels[i]!))
  const crowded = labels.length > CROWD
  const most = {
    tries: Math.min(MOST_TRIES, Math.ceil(MOST_TRIES_IN_ALL / labels.length)),
    driven: crowded ? 2 : 4,
  }
  for (let sweep = 0; sweep < (crowded ? 2 : SWEEPS); sweep++) {
    let moved = false
    order.forEach((i) => {
      let best = bestAmong(options[i]!, othersThan(chosen, i), ink)
      const more = spare[i]
      if (!best && more) {
        spare[i] = null
        options[i] = optionsOf([...labels[i]!.candidates, ...more()])
        best = bestAmong(options[i]!, othersThan(chosen, i), ink)
      }
      if (best !== chosen[i]) moved = true
      chosen[i] = best
      if (!best && makeRoom(i, options, chosen, ink, most)) moved = true
    })
    if (!moved) break
  }
  if (!crowded) labels.forEach((_, i) => exchange(i, options, chosen, ink))
  return {
    primitives: chosen.flatMap((c) => c?.candidate.draw() ?? []),
    unplaced: labels.filter((l, i) => !chosen[i] && !l.optional).map((l) => l.words ?? l.id),
  }
}

const optionsOf = (candidates: readonly Candidate[]): Option[] =>
  candidates.map((c) => new Option(c)).sort((a, b) => a.least - b.least)

/** Whether a label stands where it was put by hand: none is driven from there. */
const stays = (option: Option | null | undefined): boolean => option?.candidate.byHand === true

const othersThan = (chosen: Chosen, own: number): Option[] =>
  chosen.filter((c, k): c is Option => c !== null && k !== own)

/**
 * Sets down a label that found no place where it drives out a few others at most that find another. Leaves `chosen` as
 * it was where that cannot be done.
 */
function makeRoom(
  own: number,
  options: readonly (readonly Option[])[],
  chosen: Chosen,
  ink: InkMap,
  most: { readonly tries: number; readonly driven: number },
): boolean {
  let tries = 0
  for (const option of options[own]!) {
    if (option.cost(ink) === Infinity) continue
    if (++tries > most.tries) return false
    const driven = chosen.flatMap((c, k) => (c && meeting(option, [c], Infinity) === Infinity ? [k] : []))
    if (driven.length > most.driven || driven.some((k) => stays(chosen[k]))) continue
    const before = [...chosen]
    chosen[own] = option
    for (const k of driven) chosen[k] = null
    for (const k of driven) chosen[k] = bestAmong(options[k]!, othersThan(chosen, k), ink)
    if (driven.every((k) => chosen[k])) return true
    before.forEach((c, k) => (chosen[k] = c))
  }
  return false
}

/** Moves a label to a better place that another has taken, where the two together then stand better than before. */
function exchange(own: number, options: readonly (readonly Option[])[], chosen: Chosen, ink: InkMap): void {
  const total = (k: number): number => {
    const at = chosen[k]
    return at ? at.cost(ink) + meeting(at, othersThan(chosen, k), Infinity) : UNPLACED
  }
  const now = total(own)
  let tries = 0
  for (const option of options[own]!) {
    if (option.least >= now - WORTH_MOVING || tries > MOST_EXCHANGES) return
    if (option === chosen[own] || option.cost(ink) >= now - WORTH_MOVING) continue
    const driven = chosen.flatMap((c, k) =>
      c && k !== own && meeting(option, [c], Infinity) === Infinity ? [k] : [],
    )
    if (driven.length !== 1 || stays(chosen[driven[0]!])) continue
    tries++
    const other = driven[0]!
    const before = [chosen[own]!, chosen[other]!]
    const sum = now + total(other)
    chosen[own] = option
    chosen[other] = null
    chosen[other] = bestAmong(options[other]!, othersThan(chosen, other), ink)
    if (chosen[other] && total(own) + total(other) < sum - WORTH_MOVING) return
    chosen[own] = before[0]!
    chosen[other] = before[1]!
  }
}

function bestAmong(options: readonly Option[], others: readonly Option[], ink: InkMap): Option | null {
  let best: Option | null = null
  let least = Infinity
  for (const option of options) {
    // In order of the least cost: from here on nothing can be better.
    if (option.least >= least) break
    const cost = option.cost(ink)
    if (cost >= least) continue
    const total = cost + meeting(option, others, least - cost)
    if (total < least) {
      least = total
      best = option
    }
  }
  return best
}

/** What meeting the other labels costs; Infinity over a label. Gives up once past `limit`. */
function meeting({ candidate: c, bounds }: Option, others: readonly Option[], limit: number): number {
  let cost = 0
  for (const { candidate: o, bounds: b } of others) {
    if (bounds.x0 > b.x1 || b.x0 > bounds.x1 || bounds.y0 > b.y1 || b.y0 > bounds.y1) continue
    for (const q of c.quads) {
      for (const t of o.quads) if (quadsMeet(q, t, APART)) return Infinity
      for (const s of o.lines) if (segmentMeetsQuad(s, q, FROM_LINE)) return Infinity
    }
    for (const s of c.lines) {
      for (const t of o.quads) if (segmentMeetsQuad(s, t, FROM_LINE)) return Infinity
      for (const t of o.lines) {
        if (segmentsCross(s, t)) cost += CROSSING_LABEL_LINE
        else if (segmentsRunTogether(s, t, CLEAR)) cost += RUNNING_TOGETHER
      }
    }
    if (cost >= limit) return cost
  }
  return cost
}
