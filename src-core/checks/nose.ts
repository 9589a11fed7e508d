/**
 * What a sudden stop does to a plate that is screwed on: its inertia J·ω/t turns it off the thread. Against that stands
 * what seated it: a pull by hand at its rim, and J·ω/t of a start whose time is known. A screw comes loose at less than
 * it was tightened with: by the thread's and the shoulder's friction, F(μd₂/(2·cos 30°) + μd_s/2 ∓ P/2π), 0.77 to
 * 0.91 of it for a nose of 1½ to 3 inches at μ 0.1 to 0.15.
 */
import { plateLimit, spindleLimit } from './rating.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { ASSUMED_TIME } from '../holding/working.ts'
import type { Job, Lathe, Plate } from '../job/schema.ts'
import { fastest } from '../job/spindle.ts'
import { angularSpeed, rpmOf } from '../unbalance/static.ts'
import { formatter } from '../units/format.ts'

/** N at the rim with which a plate is spun home by hand. Rule of thumb, Evenswing's own. */
export const SEATING_PULL = 150
/** Of the torque that seated it, what loosens it. */
export const LOOSENING_SHARE = 0.75
/** N·m that a change from a speed in rpm to rest, or back, in `time` s puts on the nose; `inertia` about the axis in kg·mm². */
export const changeTorque = (inertia: number, rpm: number, time: number): number =>
  (inertia * 1e-6 * angularSpeed(rpm)) / time

interface Nose {
  /** N·m that loosens the plate whatever the speed. */
  readonly seated: number
  /** rpm above which a stop loosens it; null where none does, since the start seats it harder. */
  readonly loosens: number | null
}

/** @param inertia of everything that turns about the axis, kg·mm² */
export function screwedNose(lathe: Lathe, plate: Plate, inertia: number): Nose {
  const seated = (LOOSENING_SHARE * SEATING_PULL * plate.diameter) / 2000
  const stop = lathe.brakeTime ?? ASSUMED_TIME
  const startSeats = lathe.startTime ? LOOSENING_SHARE / lathe.startTime : 0
  if (startSeats * stop >= 1 || inertia <= 0) return { seated, loosens: null }
  return { seated, loosens: rpmOf((seated * stop) / (inertia * 1e-6)) }
}

/** rpm that this lathe turns at most, with this plate. */
const turnsAtMost = ({ lathe, plate }: Job): number =>
  Math.min(fastest(lathe), spindleLimit(lathe) ?? Infinity, plateLimit(plate))

/**
 * @param speed the chosen one, rpm @param inertia as above
 * A nose that is not given may be a screwed one: from where a stop would loosen that, it is not judged.
 */
export function screwedNoseFindings(job: Job, speed: number | null, inertia: number): Finding[] {
  const { lathe, plate } = job
  const { nose, brakeTime } = lathe
  const fmt = formatter(job.displayUnits)
  if (nose && (nose.kind !== 'screwed' || nose.locked)) return []
  const { seated, loosens } = screwedNose(lathe, plate, inertia)
  const time = brakeTime ?? ASSUMED_TIME
  const assumed = brakeTime ? '' : ' (assumed, no time is given)'
  const at = speed ?? 0
  const torque =
    at > 0
      ? `A stop from ${fmt.speed(at)} in ${time} s${assumed} turns it with ${fmt.torque(changeTorque(inertia, at, time))}`
      : `It is judged by a stop in ${time} s${assumed}`
  const against = `about ${fmt.torque(seated)} loosens a plate spun home by hand (rule of thumb)`
  const findings: Finding[] = []
  if (nose) {
    const message = `The plate is screwed on and not locked: no reverse, no brake. ${torque}; ${against}.`
    findings.push(finding('caution', 'nose-screwed', 'lathe', message))
  }
  if (loosens === null || loosens >= Math.max(speed ?? 0, turnsAtMost(job))) return findings
  const from = `Above ${fmt.speed(loosens)}`
  if (!nose) {
    const message = `Whether a sudden stop could unscrew the plate is not known: the nose of this lathe is not given. ${from} it could, if it is screwed on. ${torque}; ${against}. Say how the plate is held on the spindle.`
    return [...findings, finding('caution', 'nose-not-known', 'lathe', message, null, loosens)]
  }
  if (brakeTime) {
    const message = `A stop unscrews the plate ${from.toLowerCase()}. ${torque}; ${against}. Lock it, let it run out, or run slower.`
    return [...findings, finding('stop', 'nose-unscrews', 'lathe', message, null, loosens)]
  }
  const message = `Whether a stop unscrews the plate is not known: give the time in which the spindle comes to rest. ${from} one in half a second does. ${torque}; ${against}.`
  return [...findings, finding('caution', 'nose-unscrews', 'lathe', message, null, loosens)]
}
