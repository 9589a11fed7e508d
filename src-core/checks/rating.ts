// placeholder until the rating checks land: overwrite this file
import type { Finding, SpeedRow } from '../analysis/result.ts'
import type { Job, Lathe, Plate, Setup } from '../job/schema.ts'
export const plateLimit = (plate: Plate): number | null => plate.ratedSpeed
export const spindleLimit = (lathe: Lathe): number | null => lathe.maxSpindleSpeed
export const ratingFindings = (_job: Job, _setup: Setup): Finding[] => []
export const bearingMoment = (lathe: Lathe, mass: number, z: number): number | null =>
  lathe.noseOverhang === null ? null : (mass * 9.80665 * (lathe.noseOverhang + z)) / 1000
export const noseFindings = (
  _job: Job,
  _mass: number,
  _moment: number | null,
  _row: SpeedRow | undefined,
): Finding[] => []
