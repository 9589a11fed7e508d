// placeholder until the clamp check lands: overwrite this file
import type { Clamping, CuttingAdvice, Finding, LetGo } from '../analysis/result.ts'
import type { Point3 } from '../geometry/types.ts'
import type { Job, Setup } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
export interface ClampInput {
  job: Job
  setup: Setup
  mounted: Mounted
  partMass_kg: number
  partCentre: Point3
  speeds: readonly number[]
  chosenRpm: number | null
  cutting: CuttingAdvice | null
}
export function clampingCheck(_input: ClampInput): {
  clamping: Clamping | null
  factorAt: (rpm: number) => number | null
  findings: Finding[]
} {
  return { clamping: null, factorAt: () => null, findings: [] }
}
export function letGo(
  _mounted: Mounted,
  _rpm: number | null,
  _partMass: number,
  _partCentre: Point3,
): LetGo[] {
  return []
}
