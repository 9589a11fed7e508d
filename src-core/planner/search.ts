/**
 * Fills the front: for each number of pieces slid, stations and stock pieces, fewest first, the choice that leaves
 * least. A step is left out where no choice of it can be better than what fewer already reach.
 */
import type { Point } from '../geometry/types.ts'
import { NOTHING, choose, type ChooseResult } from './choose.ts'
import type { Family } from './entries.ts'
import type { Front } from './front.ts'
import type { Model } from './searchModel.ts'
import { leastLength, type Span } from './zonogon.ts'

export interface SearchLimits {
  readonly mostStations: number
  /** Most pieces of stock on all stations together. */
  readonly mostPieces: number
  /** Nodes opened for one and two stations; far beyond what a shop's stock asks for. */
  readonly budget: { left: number }
  /** The same for three stations, or for stations beside pieces that slide. */
  readonly wideBudget: { left: number }
  readonly shouldStop: () => boolean
  readonly onStep: (note: string) => void
}

export interface SearchState {
  /** One and two stations, nothing moved: searched to the end. */
  complete: boolean
  /** No plan that was not looked at leaves less than this, g·mm. */
  lower: number
  stopped: boolean
}

/** Adds what a model can do with nothing, one, two … stations to the front. */
export function searchModel(
  model: Model,
  base: Point,
  moves: number,
  turn: number | null,
  front: Front,
  limits: SearchLimits,
  state: SearchState,
): void {
  const sliding = model.sliders.flatMap((_, i) => model.slides(i) ?? [])
  if (sliding.length < model.sliders.length) return
  for (let stations = 0; stations <= limits.mostStations; stations++) {
    if (stations > model.stations.length) return
    if (stations === 0 && sliding.length === 0 && turn === null) continue
    searchStations(stations)
    if (state.stopped) return
  }

  function searchStations(stations: number): void {
    const floor = leastPossible(model, base, stations, sliding)
    const plain = stations <= 2 && sliding.length === 0
    for (let pieces = stations; pieces <= limits.mostPieces; pieces++) {
      const limit = front.reached(pieces, stations, moves) - NOTHING
      if (limit <= 0 || floor >= limit) return
      if (isNone(groupsOf(model, stations, pieces, sliding))) return
      limits.onStep(stepWords(stations, pieces, moves))
      const budget = plain ? limits.budget : limits.wideBudget
      const result = choose({
        base,
        directions: model.directions,
        groups: groupsOf(model, stations, pieces, sliding),
        holds: (families) => model.holds(families),
        settle: (entries, at) => model.settle(base, entries, at),
        limit,
        budget,
        shouldStop: limits.shouldStop,
      })
      take(result, stations, pieces, plain)
      if (state.stopped) state.lower = 0
      if (stations === 0 || state.stopped || budget.left <= 0) return
    }
  }

  function take(result: ChooseResult, stations: number, pieces: number, plain: boolean): void {
    if (result.best) front.offer({ model, choice: result.best, pieces, stations, moves, turn })
    if (!result.complete) {
      state.lower = Math.min(state.lower, result.lower)
      if (plain) state.complete = false
    }
    if (limits.shouldStop()) state.stopped = true
  }
}

const stepWords = (stations: number, pieces: number, moves: number) =>
  `${stations} station${stations === 1 ? '' : 's'}, ${pieces} piece${pieces === 1 ? '' : 's'}${moves > 0 ? `, ${moves} moved` : ''}`

/** Every choice of so many stations with the pieces shared out among them, beside the sliding ones. */
function* groupsOf(
  model: Model,
  stations: number,
  pieces: number,
  sliding: readonly Family[],
): Generator<Family[]> {
  yield* fill(0, stations, pieces, [])

  function* fill(from: number, left: number, rest: number, families: readonly Family[]): Generator<Family[]> {
    if (left === 0) {
      if (rest === 0) yield [...families, ...sliding]
      return
    }
    for (let s = from; s <= model.stations.length - left; s++) {
      const most = rest - (left - 1)
      for (let n = left === 1 ? rest : 1; n <= most; n++) {
        const family = model.stacks(s, n)
        if (family) yield* fill(s + 1, left - 1, rest - n, [...families, family])
      }
    }
  }
}

const isNone = (groups: Generator<Family[]>): boolean => groups.next().done === true

/** Stations beyond which the bound for three of them is not worked out: there are too many threes. */
const MOST_BOUNDED = 40

/** No stacks on so many stations leave less than this: each may be anything up to the heaviest at the far end. */
function leastPossible(model: Model, base: Point, stations: number, sliding: readonly Family[]): number {
  if (stations > 2 && model.stations.length > MOST_BOUNDED) return 0
  const heaviest = model.heaviest()
  const slidingSpans: Span[] = sliding.map((t) => {
    const u = model.directions[t.line]!
    return { ux: u.x, uy: u.y, lo: t.a0, hi: t.a1 }
  })
  const off = model.space.farthestCentre()
  const spans = model.stations.map((s, i): Span => {
    const u = model.directions[i]!
    return { ux: u.x, uy: u.y, lo: Math.min(0, -off * heaviest), hi: heaviest * (s.to + off) }
  })
  let least = Infinity
  const pick = (from: number, left: number, chosen: readonly Span[]) => {
    if (left === 0 || from >= spans.length) {
      const length = leastLength(base.x, base.y, [...slidingSpans, ...chosen])
      least = Math.min(least, Math.max(0, length - off * heaviest * stations))
      return
    }
    if (least === 0) return
    for (let i = from; i <= spans.length - left; i++) pick(i + 1, left - 1, [...chosen, spans[i]!])
  }
  pick(0, Math.min(stations, spans.length), [])
  return least
}
