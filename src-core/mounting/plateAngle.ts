/** Angles as they are set on the plate: counter-clockwise from its first slot, the index slot. */
import { wholeTurn } from '../geometry/angles.ts'
import type { Job } from '../job/schema.ts'
import { plain } from '../units/format.ts'

/** Direction from which angles are counted, degrees: of the plate's first slot; 3 o'clock on a plate without slots. */
export const indexAngle = ({ plate }: Job): number => plate.slots[0]?.angle ?? 0

/** What the angles are counted from, in words. */
export const indexWords = ({ plate }: Job): string =>
  plate.slots[0] ? `the index slot ${plate.slots[0].id}` : "3 o'clock"

/** A plate-frame direction as it is printed: degrees counter-clockwise from the index, 0 to below 360. */
export function angleText(job: Job, degrees: number, decimals = 1): string {
  const shown = plain(wholeTurn(degrees - indexAngle(job)), decimals)
  return `${shown === '360' ? '0' : shown}°`
}
