/** rpm for a cutting speed in m/min at a diameter in mm: n = 1000·v / (π·D). */
import { atMost } from '../geometry/tolerance.ts'
export const cuttingRpm = (speed: number, diameter: number): number => (1000 * speed) / (Math.PI * diameter)

/** m/min at a diameter in mm and a speed in rpm. */
export const surfaceSpeed = (diameter: number, rpm: number): number => (Math.PI * diameter * rpm) / 1000

/** The fastest gear at or below `rpm`; null where even the slowest is faster. */
export function gearAtOrBelow(gears: readonly number[], rpm: number): number | null {
  const under = gears.filter((g) => atMost(g, rpm))
  return under.length === 0 ? null : Math.max(...under)
}
