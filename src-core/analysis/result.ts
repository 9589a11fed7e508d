/**
 * What one analysis of a job's setup yields: everything that `check --json` prints, and what the window and the
 * setup drawing need beside it. Plate frame (origin on the spindle axis in the plate's face, x right, y up, z
 * toward the tailstock, seen from the tailstock) unless a field says part frame. Angles in degrees
 * counter-clockwise from +x, 0 to 360.
 */
import type { ByHand } from '../checks/byHand.ts'
import type { Clearance } from '../clearance/clearance.ts'
import type { CuttingAdvice } from '../cutting/advice.ts'
import type { Finding } from '../findings/finding.ts'
import type { Clamping } from '../holding/holdingCheck.ts'
import type { JointRow } from '../holding/judged.ts'
import type { LetGo } from '../holding/letGo.ts'
import type { MassSummary, PartSummary } from '../mass/part.ts'
import type { Unbalance, UnbalanceTerm } from '../unbalance/assembly.ts'
import type { ChosenVerdict } from '../verdict/chosen.ts'
import type { Ceiling, SpeedLimits } from '../verdict/limits.ts'
import type { SpeedRow } from '../verdict/speeds.ts'

export interface Analysis {
  readonly setup: string
  /** Null where none is chosen. */
  readonly chosen_rpm: number | null
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
  /** At the chosen speed; with none chosen, of standing still and being turned by hand. */
  readonly verdict: ChosenVerdict
  readonly ceiling: Ceiling
  /** The same from the best estimate of the unbalance: speeds between the two are a caution. */
  readonly ceilingBestEstimate: Ceiling
  readonly limits: SpeedLimits
  readonly clearances: readonly Clearance[]
  /** The part's first, then the others in the order of the setup. */
  readonly joints: readonly JointRow[]
  readonly clamping: Clamping | null
  readonly by_hand: ByHand
  readonly let_go: readonly LetGo[]
  readonly cutting: CuttingAdvice | null
  readonly findings: readonly Finding[]
}
