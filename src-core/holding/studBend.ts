/** Whether a stud that stands tall would be bent by what it holds, if that slipped and hung on it. */
import { called, finding } from '../findings/finding.ts'
import { rootDiameter, yieldStress } from '../hardware/threads.ts'
import type { FasteningFields } from '../mounting/fastening.ts'
import type { Mounted, MountedFastening, MountedPiece } from '../mounting/types.ts'
import { angularSpeed } from '../unbalance/static.ts'
import { formatter } from '../units/format.ts'
import type { Preload } from './preloadOf.ts'
import type { Ruling } from './ruling.ts'

/**
 * N/mm²: pull over the stress area and bending V·h/Z by a force V, N, across its top at height h, mm; Z = π·d₃³/32.
 */
export function studStress(preload: Preload, side: number, height: number): number {
  const modulus = (Math.PI / 32) * rootDiameter(preload.thread) ** 3
  return preload.high / preload.thread.stressArea + (side * height) / modulus
}

/**
 * Friction carries the pull of what is held, and whether it does is its joint's matter; this says what would happen to
 * the stud else. @param mass kg that would hang on it.
 */
export function bendRulings(
  { job, setup, shelf }: Mounted,
  { item, massCentre }: MountedPiece,
  fastening: MountedFastening,
  fields: FasteningFields,
  preload: Preload,
  mass: number,
): Ruling[] {
  const yields = yieldStress(preload.thread, fields.stud.class ?? '')
  if (setup.speed === null || yields === null) return []
  const radius = shelf
    ? Math.hypot(massCentre.x - shelf.axis.along, massCentre.z - shelf.axis.height)
    : Math.hypot(massCentre.x, massCentre.y)
  const side = (mass * angularSpeed(setup.speed) ** 2 * radius) / 1000
  const stress = studStress(preload, side, fastening.grip)
  // Beyond proof load it is stretched without any bending: that is said of it already.
  if (stress <= yields || preload.high > preload.proof) return []
  const fmt = formatter(job.displayUnits)
  const message = `The stud of ${called(item)} stands so tall that it bends if what it holds slips. Bring that lower, use a thicker stud, or run slower; ${fmt.force(side)} at ${fmt.length(fastening.grip)} from the plate and the stud's own pull give ${fmt.stress(stress)}, it yields at ${fmt.stress(yields)}.`
  return [{ finding: finding('caution', 'stud-bends', item.id, message, fastening.at), makes: null }]
}
