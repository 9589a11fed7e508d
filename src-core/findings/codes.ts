/** Every code that a finding may carry, the severities it may have, and what each does to the verdict. */

/** How loud it is for the reader. */
export type Severity = 'stop' | 'caution' | 'note'

/** On the verdict of each speed: it stops it, leaves it not judged, or says nothing about it. */
export type Effect = 'stop' | 'unknown' | 'none'

type AtLeastOne<T> = { [K in keyof T]-?: Required<Pick<T, K>> & Partial<T> }[keyof T]

/** The effect at each severity that the code may have; others are no finding of this code. */
type CodeRow = AtLeastOne<Record<Severity, Effect>> & {
  /** It says that a piece cannot stand where it was put. */
  readonly aboutPlace?: true
}

export const FINDINGS = {
  // Where things stand and what they meet.
  'fouls-bed': { stop: 'stop', aboutPlace: true },
  'fouls-gap': { stop: 'stop', aboutPlace: true },
  'fouls-cross-slide': { stop: 'stop', aboutPlace: true },
  'cross-slide-not-checked': { caution: 'none' },
  'close-to-bed': { caution: 'none' },
  'close-to-gap': { caution: 'none' },
  'close-to-cross-slide': { caution: 'none' },
  'in-bar-path': { stop: 'stop', aboutPlace: true },
  'hardware-clash': { stop: 'none', aboutPlace: true },
  'part-clash': { stop: 'none', aboutPlace: true },
  'bolt-covered': { stop: 'none', aboutPlace: true },
  'outside-slot': { stop: 'none', aboutPlace: true },
  'off-plate': { stop: 'none', aboutPlace: true },
  'overhangs-plate': { caution: 'none' },
  'breakthrough-plate': { stop: 'none' },
  'breakthrough-packing': { stop: 'none' },
  'bore-off-axis': { stop: 'none' },
  // The part as described.
  'outline-fault': { stop: 'none' },
  'bodies-overlap': { caution: 'none' },
  'density-questioned': { caution: 'none' },
  'density-unlikely': { caution: 'none' },
  'bore-in-mesh': { caution: 'none' },
  'bore-in-air': { caution: 'none' },
  'bore-start-solid': { caution: 'none' },
  'packing-not-listed': { note: 'none' },
  // Balance and speed.
  'no-speed-chosen': { note: 'none' },
  'unbalance-over-limit': { stop: 'none' },
  'unbalance-near-limit': { caution: 'none' },
  'unbalance-within-limit': { note: 'none' },
  'speed-above-ceiling': { stop: 'none' },
  'criterion-own-setting': { note: 'none' },
  'plate-residual-unknown': { note: 'none' },
  'after-cut': { caution: 'none', note: 'none' },
  // Ratings of plate, spindle and nose.
  'plate-not-rated': { caution: 'none' },
  'plate-rating-high': { caution: 'none' },
  'over-plate-rating': { stop: 'none' },
  'over-spindle-speed': { stop: 'none' },
  'no-such-gear': { note: 'none' },
  'nose-load-not-checked': { caution: 'none' },
  'over-nose-load': { stop: 'none' },
  'bearing-moment': { note: 'none' },
  // Clamps.
  'few-clamps': { caution: 'none' },
  'clamp-not-checked': { caution: 'none' },
  'clamps-not-checked': { caution: 'none' },
  'over-proof-load': { stop: 'none', caution: 'none' },
  'friction-bold': { caution: 'none' },
  'no-cut': { note: 'none' },
  'clamps-slip': { stop: 'none' },
  'clamps-hold': { note: 'none' },
  // The cut.
  'faster-than-cutting-speed': { caution: 'none' },
  'cutting-speed': { note: 'none' },
  'cutting-speed-high': { caution: 'none' },
  'cutting-speed-low': { note: 'none' },
  'cutting-force-unknown': { caution: 'none' },
  'drilling-not-checked': { caution: 'none' },
  drilling: { note: 'none' },
  'drill-too-large': { stop: 'none' },
} as const satisfies Record<string, CodeRow>

export type FindingCode = keyof typeof FINDINGS

/** Severities that every one of the codes may have. */
export type SeverityOf<C extends FindingCode> = Extract<keyof (typeof FINDINGS)[C], Severity>

const rowOf = (code: FindingCode): CodeRow => FINDINGS[code]

/** What a code does to the verdict at a severity; `none` for one that it does not have. */
export const effectOf = (code: FindingCode, severity: Severity): Effect => rowOf(code)[severity] ?? 'none'

/** Whether a code says that a piece cannot stand where it was put. */
export const isAboutPlace = (code: FindingCode): boolean => rowOf(code).aboutPlace ?? false
