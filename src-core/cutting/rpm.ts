/** rpm for a cutting speed in m/min at a diameter in mm: n = 1000·v / (π·D). */
import { atMost } from '../geometry/tolerance.ts'
import type { Lathe } from '../job/schema.ts'
import { spindleSteps } from '../job/spindle.ts'

/** @param speed m/min. @param diameter mm. */
export const cuttingRpm = (speed: number, diameter: number): number => (1000 * speed) / (Math.PI * diameter)

/** m/min at a diameter in mm and a speed in rpm. */
export const surfaceSpeed = (diameter: number, rpm: number): number => (Math.PI * diameter * rpm) / 1000

/** Share by which a speed may be above the one for the cutting speed. Rule of thumb, Evenswing's own. */
export const CUTTING_MARGIN = 0.2

/** Whether a speed is above the one for the cutting speed by more than the margin. Both rpm. */
export const isTooFast = (rpm: number, ideal: number): boolean => !atMost(rpm, ideal * (1 + CUTTING_MARGIN))

/**
 * The speed to set, rpm: of those that the spindle can turn at, the nearest by ratio that is not too fast; null where
 * even the slowest is.
 */
export function speedToSet(lathe: Lathe, ideal: number): number | null {
  const { stepless } = lathe.speeds
  const within = stepless ? [Math.min(Math.max(ideal, stepless[0]), stepless[1])] : []
  const off = (rpm: number) => Math.abs(Math.log(rpm / ideal))
  return [...spindleSteps(lathe), ...within]
    .filter((rpm) => !isTooFast(rpm, ideal))
    .reduce<number | null>((best, rpm) => (best === null || off(rpm) < off(best) ? rpm : best), null)
}
