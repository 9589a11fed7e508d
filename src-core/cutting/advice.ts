/** What a setup's cuts ask of the spindle and of the clamps. */
import { findMaterial } from '../job/materials.ts'
import type { Cut, Job } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { cutPlaces, type CutPlace } from './cutPlace.ts'
import { boringForce, boringTorque, drillingLoad } from './forces.ts'
import { findGroup, type CuttingGroup } from './groups.ts'
import { cuttingRpm, speedToSet } from './rpm.ts'
import { advisedSpeed } from './speeds.ts'

export interface CutRow {
  readonly id: string
  readonly kind: Cut['kind']
  /** The bore it is made in; null where it turns about the axis. */
  readonly bore: string | null
  /** mm: the largest diameter cut. */
  readonly diameter_mm: number
  /** rpm for the cutting speed at that diameter. */
  readonly ideal_rpm: number
  /** The spindle speed to set; null where even the lowest is too fast. */
  readonly set_rpm: number | null
  /** Table range of cutting speed for material and tool, m/min; null where the table has none. */
  readonly advised_m_min: readonly [number, number] | null
  /** Null where the material's cutting force is not known, and for a drill. */
  readonly tangential_force_N: number | null
  readonly torque_N_m: number | null
  /** Of a drill. */
  readonly thrust_N: number | null
}

export interface CuttingAdvice {
  /** rpm that suits every cut: that of the one that wants the slowest. */
  readonly ideal_rpm: number
  readonly set_rpm: number | null
  readonly cuts: readonly CutRow[]
}

/** Null where the setup cuts nothing, or nothing is known of it. Rows in the order of `cutPlaces`. */
export function cuttingAdvice(mounted: Mounted): CuttingAdvice | null {
  const { job } = mounted
  const group = findGroup(findMaterial(job.part.material)?.group ?? null)
  const cuts = cutPlaces(mounted).map((place) => cutRow(job, place, group))
  if (cuts.length === 0) return null
  const ideal = Math.min(...cuts.map((c) => c.ideal_rpm))
  return { ideal_rpm: ideal, set_rpm: speedToSet(job.lathe, ideal), cuts }
}

function cutRow(job: Job, { cut, bore, diameter }: CutPlace, group: CuttingGroup | null): CutRow {
  const ideal = cuttingRpm(cut.speed, diameter)
  const row = {
    id: cut.id,
    kind: cut.kind,
    bore: bore?.bore.id ?? null,
    diameter_mm: diameter,
    ideal_rpm: ideal,
    set_rpm: speedToSet(job.lathe, ideal),
    advised_m_min: group ? advisedSpeed(group.id, cut.tool) : null,
  }
  if (!group) return { ...row, tangential_force_N: null, torque_N_m: null, thrust_N: null }
  if (cut.kind === 'drill') {
    const { thrust, torque } = drillingLoad(group, cut.diameter, cut.feed)
    return { ...row, tangential_force_N: null, torque_N_m: torque, thrust_N: thrust }
  }
  const force = boringForce(group, cut.depth, cut.feed)
  return { ...row, tangential_force_N: force, torque_N_m: boringTorque(force, diameter), thrust_N: null }
}
