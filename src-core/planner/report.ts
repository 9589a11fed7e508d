/** What the planner takes and gives. Angles in degrees, radii in mm, masses in kg, unbalance in g·mm. */
import type { Verdict } from '../verdict/speeds.ts'

export interface PlanOptions {
  /** Most stations (slots or holes) that a plan may use: 1, 2 or 3. */
  readonly stations?: 1 | 2 | 3
  /** Tallest stack, mm; studs of the shop's kit may allow less. */
  readonly stackHeight?: number
  /** Whether pieces marked as movable may slide along their slots. */
  readonly moveHardware?: boolean
  /** Whether the part may be turned on the plate. */
  readonly turnPart?: boolean
  /** Most answers listed. */
  readonly answers?: number
  /** Most pieces of stock that a plan may use. */
  readonly pieces?: number
  /** mm wanted between a weight and anything else on the plate, beyond touching. */
  readonly clearance?: number
  /** mm wanted between a weight and bed, gap and cross-slide, beyond touching. */
  readonly swingMargin?: number
  /** Whether counterweights that are on the plate and not marked as fixed stay on. */
  readonly keepCounterweights?: boolean
  /** Nodes that the search opens for three stations, and beside moved pieces, before it gives up. */
  readonly effort?: number
}

export const PLAN_DEFAULTS = {
  stations: 3,
  /** mm. Evenswing's own setting. */
  stackHeight: 120,
  moveHardware: true,
  turnPart: false,
  answers: 8,
  /** More on one faceplate is no plan. Evenswing's own setting. */
  pieces: 12,
  clearance: 0,
  swingMargin: 0,
  keepCounterweights: false,
  effort: 60_000,
} as const satisfies Required<PlanOptions>

export interface PlanStack {
  readonly stock: string
  readonly count: number
}

/** What bolts a stack on. */
export interface PlanFasteners {
  readonly thread: string
  readonly class: string
  /** False: the kit does not say the class, the weakest is counted. */
  readonly class_given: boolean
  /** mm of the whole stud; from the kit, or to be found or cut to it. */
  readonly length_mm: number
  /** Id in the shop's kit; null: to be found. */
  readonly stud: string | null
  readonly torque_N_m: number
  readonly nuts: number
  readonly washers: number
  /** kg of stud, nuts and washer. */
  readonly mass_kg: number
  /** Stock whose bolt hole is not given: see that the stud goes through, or bore it. */
  readonly bore: readonly string[]
}

export type PlanStation = ({ readonly slot: string } | { readonly hole: string }) & {
  readonly radius_mm: number
  /** Undermost first. */
  readonly stack: readonly PlanStack[]
  readonly fasteners: PlanFasteners
  /** All that is added: stack, stud, nuts and washer. */
  readonly mass_kg: number
}

export interface PlanMove {
  readonly item: string
  readonly from_mm: number
  readonly radius_mm: number
}

export interface Plan {
  readonly stations: readonly PlanStation[]
  readonly moves: readonly PlanMove[]
  /** Turn of the part, degrees; null: as it is. */
  readonly turn_deg: number | null
  /** Ids of the counterweights on the plate that come off. */
  readonly replaces: readonly string[]
  readonly pieces: number
  readonly residual_g_mm: number
  readonly residual_angle_deg: number
  readonly upper95_g_mm: number
  readonly meets_target: boolean
  /** Of the whole setup with the plan on it, at the speed that is aimed at. */
  readonly verdict: Verdict
  readonly couple_g_mm2: number
  readonly couple_change_g_mm2: number
  /** Largest radius that the plan's own weights and moved pieces sweep; the least clearance of the whole setup. */
  readonly swept_radius_mm: number
  readonly clearance_mm: number | null
  readonly ceiling_rpm: number | null
  /** Worst growth of the residual if one weight slips 1 mm, or if one weighs 2 % off. */
  readonly sensitivity: { readonly slip_1mm_g_mm: number; readonly mass_2pct_g_mm: number }
}

export interface Shortfall {
  /** By how much the best bound misses the target. */
  readonly missing_g_mm: number
  /** What would settle the best plan's residual. */
  readonly extra_mass_kg: number
  readonly radius_mm: number
  readonly angle_deg: number
}

export interface PlanReport {
  readonly setup: string
  readonly before_g_mm: number
  readonly target_g_mm: number
  readonly target_rpm: number
  /** Best first: least residual. None is beaten by another in both pieces and residual. */
  readonly plans: readonly Plan[]
  readonly meets: boolean
  readonly shortfall: Shortfall | null
  /** Plain words worth saying, such as that moving a clamp makes a weight unnecessary. */
  readonly remarks: readonly string[]
  readonly searched: {
    readonly stations: number
    /** Most pieces of stock that a plan was allowed. */
    readonly pieces: number
    readonly stacks: number
    readonly placements: number
    /** Whether one and two stations, of so many pieces, were searched to the end: then no such plan is better. */
    readonly complete: boolean
    readonly stopped: boolean
  }
  /** By how much a plan of so many stations and pieces that was not looked at could beat the best; 0: none can. */
  readonly gap_g_mm: number
}

export interface PlanHooks {
  /** 0 to 1. */
  onProgress?(fraction: number, note: string): void
  /** Asked now and then; true ends the search with what has been found. */
  shouldStop?(): boolean
}
