/** Answers none of which is beaten by another in pieces, stations, moves and residual at once. */
import { NOTHING, type Choice } from './choose.ts'
import type { Model } from './searchModel.ts'

export interface Answer {
  readonly model: Model
  readonly choice: Choice
  readonly pieces: number
  readonly stations: number
  /** Pieces slid, and one more for a turn of the part. */
  readonly moves: number
  /** Turn of the part, degrees; null: as it is. */
  readonly turn: number | null
}

export class Front {
  readonly answers: Answer[] = []
  private readonly before: number

  /** @param before g·mm left with nothing done: every answer must be better. */
  constructor(before: number) {
    this.before = before
  }

  /** Least residual reached with no more than these, g·mm. */
  reached(pieces: number, stations: number, moves: number): number {
    return this.answers.reduce(
      (least, a) =>
        a.pieces <= pieces && a.stations <= stations && a.moves <= moves
          ? Math.min(least, a.choice.residual)
          : least,
      this.before,
    )
  }

  /** Takes an answer in unless it is beaten, and lets go of those it beats. */
  offer(answer: Answer): void {
    const { residual } = answer.choice
    if (residual > this.reached(answer.pieces, answer.stations, answer.moves) - NOTHING / 2) return
    const beaten = (a: Answer) =>
      answer.pieces <= a.pieces &&
      answer.stations <= a.stations &&
      answer.moves <= a.moves &&
      residual <= a.choice.residual + NOTHING
    const kept = this.answers.filter((a) => !beaten(a))
    this.answers.length = 0
    this.answers.push(...kept, answer)
  }
}

/** Share by which an answer must leave less than one that asks for less, to be listed. Evenswing's own setting. */
const WORTHWHILE = 0.02

/**
 * The best first: least residual, of those as good as nothing the one with the fewest pieces, then moves, then the
 * lightest. Answers that hardly gain on simpler ones are left out. Where more than `most` are left, the one that
 * differs least from its better neighbour goes, again and again; the first always stays.
 */
export function bestFirst(answers: readonly Answer[], most: number): Answer[] {
  const level = (a: Answer) => (a.choice.residual <= NOTHING ? 0 : a.choice.residual)
  const list = [...answers].sort(
    (a, b) =>
      level(a) - level(b) ||
      a.pieces - b.pieces ||
      a.moves - b.moves ||
      a.stations - b.stations ||
      a.choice.mass - b.choice.mass,
  )
  const asksMore = (a: Answer, b: Answer) =>
    a.pieces >= b.pieces && a.moves >= b.moves && a.stations >= b.stations
  const hardlyBetter = (a: Answer) =>
    list.some((b) => b !== a && asksMore(a, b) && level(a) >= level(b) * (1 - WORTHWHILE))
  const listed = list.filter((a, i) => i === 0 || !hardlyBetter(a))
  list.splice(0, list.length, ...listed)
  while (list.length > Math.max(1, most)) {
    let least = 1
    let ratio = Infinity
    for (let i = 1; i < list.length; i++) {
      const r = (level(list[i]!) + NOTHING) / (level(list[i - 1]!) + NOTHING)
      if (r < ratio) {
        ratio = r
        least = i
      }
    }
    list.splice(least, 1)
  }
  return list
}
