/**
 * What one analysis of a job's setup yields: everything that `check --json` prints, and what the window and the
 * setup drawing need beside it. Plate frame (origin on the spindle axis in the plate's face, x right, y up, z
 * toward the tailstock, seen from the tailstock) unless a field says part frame. Angles in degrees
 * counter-clockwise from +x, 0 to 360.
 */
import type { Point, Point3 } from '../geometry/types.ts'

export type Severity = 'stop' | 'caution' | 'note'

/** One thing found out about a setup, worded for the machinist. */
export interface Finding {
  readonly severity: Severity
  /** Stable, kebab-case: see `codes.ts`. */
  readonly code: string
  /** Id of the thing it is about: a piece of hardware, a body, a bore, 'part', 'plate', 'lathe', 'setup'. */
  readonly item: string
  /** Carries its inputs, its limit and what would cure it. */
  readonly message: string
  /** Where on the plate to look, plate frame, mm; null where it has no place. */
  readonly at: Point | null
}

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

export type ClearanceAgainst = 'bed' | 'gap' | 'cross-slide'

export interface Clearance {
  readonly against: ClearanceAgainst
  readonly item: string
  /** The part's body that reaches out furthest; absent for plate and hardware. */
  readonly body?: string
  readonly swept_radius_mm: number
  /** mm; negative fouls. */
  readonly clearance_mm: number
  /** The corner that is closest, plate frame. */
  readonly corner: Point
}

export interface Unbalance {
  readonly static_g_mm: number
  readonly static_angle_deg: number
  readonly couple_g_mm2: number
  readonly couple_angle_deg: number
  readonly upper95_g_mm: number
  readonly after_cut_g_mm: number
}

/** One contribution to the static unbalance: a vector of the polygon that should close. */
export interface UnbalanceTerm {
  readonly item: string
  readonly mass_kg: number
  /** Centre of mass, plate frame. */
  readonly centre_mm: Point3
  readonly unbalance_g_mm: Point
}

/** One clamp's part in the holding; `work_force_N` is the low side of the preload scatter. */
export interface ClampLoad {
  readonly item: string
  readonly preload_N: number
  readonly proof_N: number
  readonly work_force_N: number
  readonly nose: Point
}

export interface Clamping {
  /** Factor against slip at the chosen speed (standing still where no speed is chosen). */
  readonly factor: number
  /** rpm at which the factor falls to 2; null where it never does, 0 where it is below 2 at rest. */
  readonly rpm_at_factor_2: number | null
  readonly clamps: readonly ClampLoad[]
}

/** What a piece would do if it let go, at the chosen speed. */
export interface LetGo {
  readonly item: string
  readonly speed_m_s: number
  readonly energy_J: number
}

export interface CuttingAdvice {
  readonly bore: string
  /** rpm for the cutting speed at the finish diameter. */
  readonly ideal_rpm: number
  /** Nearest gear at or below it; null where even the lowest gear is faster. */
  readonly gear_rpm: number | null
  /** Table range of cutting speed for material and tool, m/min; null where the table has none. */
  readonly advised_m_min: readonly [number, number] | null
  readonly tangential_force_N: number | null
  readonly torque_N_m: number | null
  readonly drill_thrust_N: number | null
  readonly drill_torque_N_m: number | null
}

export interface MassSummary {
  readonly mass_kg: number
  readonly centroid_mm: readonly [number, number, number]
}

export interface PartSummary extends MassSummary {
  /** Plan area of all bodies, holes out. */
  readonly area_mm2: number
  readonly volume_mm3: number
  /** Mass computed from outline and density before any weighing was applied, kg. */
  readonly computed_mass_kg: number
  /** Density implied by the weighed mass, kg/m³; null where the part was not weighed. */
  readonly implied_density_kg_m3: number | null
}

export interface Analysis {
  readonly setup: string
  /** As mounted in this setup; part frame. */
  readonly part: PartSummary
  readonly assembly: MassSummary & {
    readonly inertia_kg_mm2: { readonly zz: number; readonly xz: number; readonly yz: number }
    /** N·m on the front bearing at rest; null where the lathe gives no overhang. */
    readonly bearing_moment_N_m: number | null
    /** µm: static unbalance over rotating mass. */
    readonly eccentricity_um: number
  }
  readonly unbalance: Unbalance
  /** Covariance of the static unbalance vector, (g·mm)². */
  readonly covariance: { readonly xx: number; readonly xy: number; readonly yy: number }
  /** Direction of the static unbalance after the cut, degrees. */
  readonly after_cut_angle_deg: number
  readonly terms: readonly UnbalanceTerm[]
  readonly speeds: readonly SpeedRow[]
  readonly ceiling: Ceiling
  readonly limits: SpeedLimits
  readonly clearances: readonly Clearance[]
  readonly clamping: Clamping | null
  readonly let_go: readonly LetGo[]
  readonly cutting: CuttingAdvice | null
  readonly findings: readonly Finding[]
}
