/** Every code that a finding may carry, the severities it may have, and what each does to the verdict. */

/** How loud it is for the reader. */
export type Severity = 'stop' | 'caution' | 'note'

/** On the verdict of each speed: it stops it, leaves it not judged, or says nothing about it. */
export type Effect = 'stop' | 'unknown' | 'none'

type AtLeastOne<T> = { [K in keyof T]-?: Required<Pick<T, K>> & Partial<T> }[keyof T]

/**
 * The effect at each severity that the code may have; others are no finding of this code. A stop stops; a caution may
 * say that something is not known; a note does nothing.
 */
type CodeRow = AtLeastOne<{
  readonly stop: 'stop'
  readonly caution: 'unknown' | 'none'
  readonly note: 'none'
}> & {
  /** What turns meets what stands still. */
  readonly clearance?: true
  /** It says the same of this lathe and this shop's way of working whatever is set up: no news. */
  readonly remark?: true
}

export const FINDINGS = {
  // Where things stand and what they meet.
  'fouls-bed': { stop: 'stop', clearance: true },
  'fouls-gap': { stop: 'stop', clearance: true },
  'fouls-cross-slide': { stop: 'stop', clearance: true },
  'fouls-carriage': { stop: 'stop', clearance: true },
  'fouls-tailstock': { stop: 'stop', clearance: true },
  'fouls-behind': { stop: 'stop', clearance: true },
  'carriage-not-checked': { caution: 'unknown' },
  'tailstock-not-checked': { caution: 'unknown' },
  'behind-not-checked': { caution: 'unknown' },
  'bar-short': { caution: 'none' },
  'saddle-short': { caution: 'none' },
  'close-to-bed': { caution: 'none' },
  'close-to-gap': { caution: 'none' },
  'close-to-cross-slide': { caution: 'none' },
  'close-to-carriage': { caution: 'none' },
  'in-bar-path': { stop: 'stop', clearance: true },
  'hardware-clash': { stop: 'stop' },
  'part-clash': { stop: 'stop' },
  'bolt-covered': { stop: 'stop' },
  'outside-slot': { stop: 'stop' },
  'off-plate': { stop: 'stop' },
  'overhangs-plate': { caution: 'none' },
  'breakthrough-plate': { stop: 'stop' },
  'breakthrough-packing': { stop: 'stop' },
  'bore-off-axis': { stop: 'stop' },
  'foot-overhangs': { caution: 'none' },
  'fixture-thin': { caution: 'unknown' },
  'shelf-above-axis': { stop: 'stop' },
  'body-slanted': { caution: 'unknown' },
  'vee-unjudged': { caution: 'unknown' },
  'part-off-vee': { stop: 'stop' },
  'clamp-off-seat': { stop: 'stop' },
  'part-off-shelf': { stop: 'stop' },
  'block-loose': { stop: 'stop' },
  'block-overhangs': { stop: 'stop' },
  'block-on-foot': { stop: 'stop' },
  // The part as described.
  'outline-fault': { stop: 'stop' },
  'part-in-pieces': { stop: 'stop' },
  'bodies-overlap': { caution: 'none' },
  'density-questioned': { caution: 'none' },
  'density-unlikely': { caution: 'none' },
  'density-contradicted': { caution: 'unknown' },
  'bore-in-mesh': { caution: 'none' },
  'bore-in-air': { caution: 'none' },
  'bore-start-solid': { caution: 'none' },
  'bore-wall': { stop: 'stop', caution: 'unknown' },
  'bore-wall-thin': { caution: 'none' },
  'mass-unlikely': { caution: 'unknown' },
  // Balance and speed.
  'no-speed-chosen': { note: 'none' },
  'unbalance-over-limit': { stop: 'stop' },
  'unbalance-near-limit': { caution: 'none' },
  'unbalance-within-limit': { note: 'none' },
  'speed-above-ceiling': { stop: 'stop' },
  'criterion-own-setting': { note: 'none', remark: true },
  'criterion-bold': { caution: 'unknown' },
  'criterion-not-known': { caution: 'unknown' },
  'doubts-bold': { caution: 'none' },
  'plate-residual-unknown': { note: 'none', remark: true },
  'after-cut': { caution: 'none', note: 'none' },
  // Ratings of plate, spindle and nose.
  'plate-not-rated': { caution: 'none', remark: true },
  'plate-rating-high': { caution: 'none' },
  'over-plate-rating': { stop: 'stop' },
  'over-spindle-speed': { stop: 'stop' },
  'spindle-not-rated': { caution: 'none', remark: true },
  'no-such-gear': { note: 'none' },
  'nose-load-not-checked': { caution: 'none', remark: true },
  'over-nose-load': { stop: 'stop' },
  'bearing-moment': { note: 'none', remark: true },
  'heavy-side': { caution: 'none', note: 'none' },
  'heavy-lift': { caution: 'none', note: 'none' },
  'pull-of-machine': { caution: 'none', note: 'none' },
  'nose-screwed': { caution: 'none', remark: true },
  'nose-unscrews': { stop: 'stop', caution: 'unknown' },
  'nose-not-known': { caution: 'unknown' },
  // Clamps.
  'no-clamp': { stop: 'stop' },
  'few-clamps': { caution: 'none' },
  'one-clamp': { caution: 'unknown' },
  'over-proof-load': { stop: 'stop', caution: 'none' },
  'friction-bold': { caution: 'none' },
  'no-cut': { caution: 'unknown' },
  // Contact, support, reach and fit of what holds.
  'toe-off': { stop: 'stop' },
  'toe-on-mesh': { caution: 'unknown' },
  'press-off': { stop: 'stop' },
  'washer-off': { stop: 'stop' },
  'toe-unsupported': { caution: 'none' },
  'toe-bends-part': { stop: 'stop' },
  'part-not-carried': { stop: 'stop' },
  'packing-not-carried': { stop: 'stop' },
  'pressed-beyond-yield': { stop: 'stop' },
  'packing-idle': { stop: 'stop', caution: 'none' },
  'heel-not-carried': { stop: 'stop' },
  'heel-beyond-strap': { stop: 'stop' },
  'heel-at-bolt': { stop: 'stop' },
  'bolt-near-heel': { caution: 'none' },
  'strap-not-level': { stop: 'stop', caution: 'none' },
  'strap-yields': { stop: 'stop' },
  'bolt-in-solid': { stop: 'stop' },
  'stud-does-not-fit': { stop: 'stop' },
  'stud-loose': { caution: 'none' },
  'stud-short': { stop: 'stop' },
  'stud-flush': { caution: 'none' },
  'stud-stands-out': { caution: 'none' },
  'stud-length-unknown': { caution: 'unknown' },
  'stud-bends': { caution: 'none' },
  'washer-too-small': { stop: 'stop' },
  'nut-unfit': { stop: 'stop' },
  'hole-taken': { stop: 'stop' },
  'part-bends': { caution: 'unknown' },
  'lip-breaks': { stop: 'stop' },
  'lip-strained': { caution: 'none' },
  'lip-not-judged': { caution: 'unknown' },
  'clamp-not-judged': { caution: 'unknown' },
  // Joints.
  'joint-slides': { stop: 'stop' },
  'joint-tips': { stop: 'stop' },
  'joint-not-judged': { caution: 'unknown' },
  'joint-holds': { note: 'none' },
  'seat-opens': { caution: 'none' },
  'let-go': { note: 'none' },
  'packing-tall': { caution: 'none' },
  'packing-unpressed': { note: 'none' },
  'stop-not-counted': { note: 'none' },
  'stop-bears': { note: 'none' },
  'start-stop-assumed': { note: 'none', remark: true },
  'friction-ground': { note: 'none', remark: true },
  // The cut.
  'faster-than-cutting-speed': { caution: 'none' },
  'cutting-speed': { note: 'none' },
  'cutting-speed-high': { caution: 'none' },
  'cutting-speed-low': { note: 'none' },
  'cutting-force-unknown': { caution: 'none' },
  'drilling-not-checked': { caution: 'unknown' },
  drilling: { note: 'none' },
  'cut-interrupted': { note: 'none' },
  'cut-in-skin': { caution: 'none' },
  'bar-slender': { caution: 'none' },
  'bar-unfit': { stop: 'stop' },
  'cut-not-drawn': { note: 'none' },
  'cut-in-mesh': { caution: 'none' },
  'in-tool-path': { stop: 'stop', clearance: true },
  'drill-too-large': { stop: 'stop' },
} as const satisfies Record<string, CodeRow>

export type FindingCode = keyof typeof FINDINGS

/** Severities that every one of the codes may have. */
export type SeverityOf<C extends FindingCode> = Extract<keyof (typeof FINDINGS)[C], Severity>

const rowOf = (code: FindingCode): CodeRow => FINDINGS[code]

/** What a code does to the verdict at a severity; `none` for one that it does not have. */
export const effectOf = (code: FindingCode, severity: Severity): Effect => rowOf(code)[severity] ?? 'none'

/** Whether a code says that what turns meets what stands still. */
export const isClearance = (code: FindingCode): boolean => rowOf(code).clearance ?? false

/** Whether a code's finding is a standing remark, which a list may fold away. */
export const isRemark = (code: FindingCode): boolean => rowOf(code).remark ?? false
