/** What the setup's cut asks of the spindle and of the clamps. */
import type { Finding } from '../findings/finding.ts'
import { finding } from '../findings/finding.ts'
import { findMaterial } from '../job/materials.ts'
import type { Job, Setup } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter, plain } from '../units/format.ts'
import { boringForce, boringTorque, drillingLoad } from './forces.ts'
import { findGroup } from './groups.ts'
import { CUTTING_MARGIN, cuttingRpm, isTooFast, nearestGear, surfaceSpeed } from './rpm.ts'
import { advisedSpeed, speedBasis } from './speeds.ts'

export interface CuttingAdvice {
  readonly bore: string
  /** rpm for the cutting speed at the finish diameter. */
  readonly ideal_rpm: number
  /** Nearest gear that is not too fast for it; null where even the lowest is. */
  readonly gear_rpm: number | null
  /** Table range of cutting speed for material and tool, m/min; null where the table has none. */
  readonly advised_m_min: readonly [number, number] | null
  readonly tangential_force_N: number | null
  readonly torque_N_m: number | null
  readonly drill_thrust_N: number | null
  readonly drill_torque_N_m: number | null
}

/** Null where the setup has no cut. */
export function cuttingAdvice(job: Job, setup: Setup, mounted: Mounted): CuttingAdvice | null {
  const { cut } = setup
  const bore = mounted.workBore?.bore
  if (!cut || !bore) return null
  const group = findGroup(findMaterial(job.part.material)?.group ?? null)
  const ideal = cuttingRpm(cut.speed, bore.diameter)
  const force = group ? boringForce(group, cut.depth, cut.feed) : null
  const drill = group && cut.drill ? drillingLoad(group, cut.drill, cut.feed) : null
  return {
    bore: bore.id,
    ideal_rpm: ideal,
    gear_rpm: nearestGear(job.lathe.spindleSpeeds, ideal),
    advised_m_min: group ? advisedSpeed(group.id, cut.tool) : null,
    tangential_force_N: force,
    torque_N_m: force === null ? null : boringTorque(force, bore.diameter),
    drill_thrust_N: drill?.thrust ?? null,
    drill_torque_N_m: drill?.torque ?? null,
  }
}

export function cuttingFindings(
  job: Job,
  setup: Setup,
  advice: CuttingAdvice | null,
  mounted: Mounted,
): Finding[] {
  const { cut } = setup
  const bore = mounted.workBore?.bore
  if (!cut || !bore || !advice) return []
  const fmt = formatter(job.displayUnits)
  const findings: Finding[] = []
  const gear =
    advice.gear_rpm === null
      ? 'even the slowest gear is too fast'
      : `nearest gear ${fmt.speed(advice.gear_rpm)}`
  const ideal = `${plain(cut.speed, 1)} m/min on ${fmt.length(bore.diameter)} is ${fmt.speed(advice.ideal_rpm)}, ${gear}`
  if (setup.speed !== null && isTooFast(setup.speed, advice.ideal_rpm)) {
    const at = surfaceSpeed(bore.diameter, setup.speed)
    findings.push(
      finding(
        'caution',
        'faster-than-cutting-speed',
        bore.id,
        `${fmt.speed(setup.speed)} cuts bore ${bore.id} at ${plain(at, 1)} m/min, hard on the tool: ${ideal}, and up to ${fmt.percent(CUTTING_MARGIN)} above it is fine.`,
      ),
    )
  } else findings.push(finding('note', 'cutting-speed', bore.id, `Cutting speed ${ideal}.`))
  const range = advice.advised_m_min
  const group = findMaterial(job.part.material)?.group ?? null
  if (range && group && (cut.speed > range[1] || cut.speed < range[0] / 2)) {
    const high = cut.speed > range[1]
    const message = `${plain(cut.speed, 1)} m/min is ${high ? 'above' : 'far below'} ${plain(range[0], 0)} to ${plain(range[1], 0)} m/min, the table's range for ${job.part.material} with ${cut.tool} (${speedBasis(group)}). As a rule of thumb start at the lower end on a faceplate.`
    findings.push(
      high
        ? finding('caution', 'cutting-speed-high', bore.id, message)
        : finding('note', 'cutting-speed-low', bore.id, message),
    )
  }
  if (advice.tangential_force_N === null)
    findings.push(
      finding(
        'caution',
        'cutting-force-unknown',
        bore.id,
        `Cutting force not checked: "${job.part.material}" is not in the table of materials.`,
      ),
    )
  if (bore.start === 0 && !cut.drill)
    findings.push(
      finding(
        'caution',
        'drilling-not-checked',
        bore.id,
        `Bore ${bore.id} starts solid, but the cut names no drill: drilling thrust and torque were not checked. Give the drill's diameter.`,
      ),
    )
  if (advice.drill_torque_N_m !== null && cut.drill)
    findings.push(
      finding(
        'note',
        'drilling',
        bore.id,
        `Opening with a ${fmt.length(cut.drill)} drill at ${plain(cut.feed, 2)} mm/rev: thrust ${fmt.force(advice.drill_thrust_N ?? 0)}, torque ${fmt.torque(advice.drill_torque_N_m)} (the higher of two published methods, worn drill).`,
      ),
    )
  if (cut.drill && cut.drill > bore.diameter)
    findings.push(
      finding(
        'stop',
        'drill-too-large',
        bore.id,
        `The ${fmt.length(cut.drill)} drill is larger than bore ${bore.id}, ${fmt.length(bore.diameter)}. Use a smaller drill.`,
      ),
    )
  return findings
}
