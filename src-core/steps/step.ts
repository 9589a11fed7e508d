/** One thing to do at the machine, as a page of its own. */

export type StepKind =
  | 'fetch'
  | 'plate'
  | 'packing'
  | 'part'
  | 'locate'
  | 'hold'
  | 'weight'
  | 'clear'
  | 'turn'
  | 'roll'
  | 'start'
  | 'cut'
  | 'check'
  | 'end'

/** A figure with what it is: tool, torque, size, place. */
export interface Fact {
  readonly label: string
  readonly value: string
}

/** What is asked of the machinist in a step. */
export type StepEntry = 'trim' | 'size' | 'end'

export interface Step {
  /** Stable for the same job, so that progress finds it again: `hold:c1`. */
  readonly id: string
  readonly kind: StepKind
  /** A few words, for letters read from two metres. */
  readonly title: string
  readonly facts: readonly Fact[]
  /** What to do, in order, each a sentence. */
  readonly does: readonly string[]
  /** What to look out for, each a sentence. */
  readonly warns: readonly string[]
  /** Ids of the pieces that are lit on the plate; `part` and `plate` stand for themselves. */
  readonly lit: readonly string[]
  /** Whether the spindle turns under power. */
  readonly power: boolean
  /** Why it must not be done as things stand; null where nothing is against it. */
  readonly barred: string | null
  readonly entry: StepEntry | null
  /** Id of the cut that it makes. */
  readonly cut: string | null
}

export const step = (
  id: string,
  kind: StepKind,
  title: string,
  more: Partial<Omit<Step, 'id' | 'kind' | 'title'>> = {},
): Step => ({
  id,
  kind,
  title,
  facts: [],
  does: [],
  warns: [],
  lit: [],
  power: false,
  barred: null,
  entry: null,
  cut: null,
  ...more,
})

/** Facts whose value is known. */
export const facts = (...pairs: readonly (readonly [label: string, value: string | null])[]): Fact[] =>
  pairs.flatMap(([label, value]) => (value === null || value === '' ? [] : [{ label, value }]))
