/** Limits on the spindle speed, and what they make of each speed. */

export type Verdict = 'go' | 'caution' | 'stop'

/** Which limit sets the ceiling. 'clearance': something fouls, so no speed may run. */
export type CeilingLimit = 'balance' | 'plate' | 'spindle' | 'cutting' | 'clamps' | 'clearance'

export interface Ceiling {
  /** rpm; null where nothing limits. */
  readonly rpm: number | null
  readonly limit: CeilingLimit | null
}

/** Each limit's own speed, rpm; null where it does not limit or was not checked. */
export interface SpeedLimits {
  /** From the 95 % upper bound of the unbalance. */
  readonly balance: number | null
  /** From the best estimate of the unbalance. */
  readonly balanceBestEstimate: number | null
  readonly plate: number | null
  readonly spindle: number | null
  readonly cutting: number | null
  readonly clamps: number | null
}

export interface SpeedRow {
  readonly rpm: number
  /** N, from the best estimate. */
  readonly force_N: number
  /** N, from the 95 % upper bound. */
  readonly force_upper95_N: number
  /** Force over the weight of everything that rotates, 0 to …; 0.1 is 10 %. */
  readonly weight_share: number
  readonly grade_mm_s: number
  /** m/min at the finish bore; null where the setup has no bore. */
  readonly surface_speed_m_min: number | null
  /** N·m of the couple about the plate's face. */
  readonly couple_moment_N_m: number
  /** Factor against slip at this speed; null where it was not checked. */
  readonly clamp_factor: number | null
  readonly verdict: Verdict
}
