/** rpm for a cutting speed in m/min at a diameter in mm: n = 1000·v / (π·D). */
import { atMost } from '../geometry/tolerance.ts'
export const cuttingRpm = (speed: number, diameter: number): number => (1000 * speed) / (Math.PI * diameter)

/** m/min at a diameter in mm and a speed in rpm. */
export const surfaceSpeed = (diameter: number, rpm: number): number => (Math.PI * diameter * rpm) / 1000

/** Share by which a speed may be above the one for the cutting speed. Rule of thumb, Evenswing's own. */
export const CUTTING_MARGIN = 0.2

/** Whether a speed is above the one for the cutting speed by more than the margin. Both rpm. */
export const isTooFast = (rpm: number, ideal: number): boolean => !atMost(rpm, ideal * (1 + CUTTING_MARGIN))

/** The gear nearest to a speed in rpm, by ratio, that is not too fast; null where even the slowest is. */
export function nearestGear(gears: readonly number[], ideal: number): number | null {
  const off = (gear: number) => Math.abs(Math.log(gear / ideal))
  return gears
    .filter((g) => !isTooFast(g, ideal))
    .reduce<number | null>((best, g) => (best === null || off(g) < off(best) ? g : best), null)
}
