/** What the user did to dimensions by hand: hidden, or put elsewhere. Sheet mm. */
import type { Point } from '../../geometry/types.ts'
import type { Candidate } from '../placing/option.ts'

/** Dearer than any line a moved dimension may cross. */
const BY_HAND_FIRST = 1e4

/** What the user did to a dimension. */
export interface DimensionChoice {
  readonly hidden?: boolean | undefined
  /** Sheet mm from the first measured point to the dimension line, to the left along the measurement. */
  readonly offset?: number | undefined
  /** Sheet mm from the middle of what is measured to the text or balloon, where there is no line to move. */
  readonly place?: Point | undefined
}

export type DimensionChoices = Readonly<Record<string, DimensionChoice>>

export const isHidden = (choices: DimensionChoices, id: string): boolean =>
  Object.hasOwn(choices, id) && choices[id]!.hidden === true

/** Where the user put a text or balloon about a middle; null where he did not. */
export function placedAt(choices: DimensionChoices, id: string, middle: Point): Point | null {
  const place = Object.hasOwn(choices, id) ? choices[id]!.place : undefined
  return place ? { x: middle.x + place.x, y: middle.y + place.y } : null
}

/** Candidates of which those put there by hand come before all others. */
export const handFirst = (byHand: readonly Candidate[], others: readonly Candidate[]): Candidate[] => [
  ...byHand.map((c) => ({ ...c, byHand: true })),
  ...others.map((c) => ({ ...c, cost: c.cost + BY_HAND_FIRST })),
]
