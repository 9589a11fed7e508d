/** What a setup's cuts ask of the spindle and of the clamps. */
import { LIMITS } from '../job/fields.ts'
import { findMaterial } from '../job/materials.ts'
import type { Cut } from '../job/schema.ts'
import { keptFor } from '../mounting/kept.ts'
import type { Mounted } from '../mounting/types.ts'
import { cutPlaces, type CutPlace } from './cutPlace.ts'
import { drillingLoad } from './drilling.ts'
import { boringForce, boringTorque, INTERRUPTED, reamingForce } from './forces.ts'
import { findGroup, type CuttingGroup } from './groups.ts'
import { isInterrupted } from './interruption.ts'
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
  /** Table range of cutting speed for material, tool and kind of cut, m/min; null where the table has none. */
  readonly advised_m_min: readonly [number, number] | null
  /** As drawn, or as said. Its forces are then raised. */
  readonly interrupted: boolean
  /** mm that the force is reckoned with: the depth of cut, or the hard skin that the first one has to get under. */
  readonly depth_mm: number | null
  /** Null where the material's cutting force is not known, and for a drill. */
  readonly tangential_force_N: number | null
  readonly torque_N_m: number | null
  /** Of a drill and a reamer, towards the plate. */
  readonly thrust_N: number | null
}

export interface CuttingAdvice {
  /** rpm that suits every cut: that of the one that wants the slowest. */
  readonly ideal_rpm: number
  readonly set_rpm: number | null
  readonly cuts: readonly CutRow[]
}

/**
 * Null where the setup cuts nothing, or nothing is known of it. Rows in the order of `cutPlaces`. Kept while part, place,
 * cuts and lathe stay: a drag of hardware does not look again whether a cut is interrupted.
 */
export const cuttingAdvice = keptFor(advise, ({ job, setup }) => [job.lathe, setup.cuts])

function advise(mounted: Mounted): CuttingAdvice | null {
  const { job } = mounted
  const group = findGroup(findMaterial(job.part.material)?.group ?? null)
  const cuts = cutPlaces(mounted).map((place) => cutRow(mounted, place, group))
  if (cuts.length === 0) return null
  const ideal = Math.min(...cuts.map((c) => c.ideal_rpm))
  return { ideal_rpm: ideal, set_rpm: speedToSet(job.lathe, ideal), cuts }
}

function cutRow(mounted: Mounted, place: CutPlace, group: CuttingGroup | null): CutRow {
  const { cut, bore, diameter } = place
  // A hole as small as a number can be would ask for a speed without end.
  const ideal = Math.min(cuttingRpm(cut.speed, diameter), LIMITS.speed)
  const interrupted = cut.interrupted || isInterrupted(mounted, place)
  const depth = cut.kind === 'drill' ? null : Math.max(cut.depth, skinOf(place) ?? 0)
  return {
    id: cut.id,
    kind: cut.kind,
    bore: bore?.bore.id ?? null,
    diameter_mm: diameter,
    ideal_rpm: ideal,
    set_rpm: speedToSet(mounted.job.lathe, ideal),
    advised_m_min: group ? (advisedSpeed(group.id, cut.tool, cut.kind)?.range ?? null) : null,
    interrupted,
    depth_mm: depth,
    ...(group ? forcesOf(place, group, depth, interrupted ? INTERRUPTED : 1) : NO_FORCES),
  }
}

/** mm of hard skin where it is cut; a reamer comes after it is gone. */
export const skinOf = ({ cut, bore }: CutPlace): number | null =>
  cut.kind === 'bore' ? (bore?.bore.skin ?? null) : 'skin' in cut ? (cut.skin ?? null) : null

type Forces = Pick<CutRow, 'tangential_force_N' | 'torque_N_m' | 'thrust_N'>
const NO_FORCES: Forces = { tangential_force_N: null, torque_N_m: null, thrust_N: null }

/** Share of the tangential force that pushes a reamer back; half where no source says better. */
const REAMER_THRUST = 0.5

function forcesOf(
  { cut, diameter }: CutPlace,
  group: CuttingGroup,
  depth: number | null,
  by: number,
): Forces {
  if (cut.kind === 'drill' || depth === null) {
    const { thrust, torque } = drillingLoad(group, diameter, cut.feed)
    return { tangential_force_N: null, torque_N_m: torque * by, thrust_N: thrust * by }
  }
  const force = by * (cut.kind === 'ream' ? reamingForce : boringForce)(group, depth, cut.feed)
  return {
    tangential_force_N: force,
    torque_N_m: boringTorque(force, diameter),
    thrust_N: cut.kind === 'ream' ? REAMER_THRUST * force : null,
  }
}
