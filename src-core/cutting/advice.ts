// placeholder until the cutting tables land: overwrite this file
import type { CuttingAdvice, Finding } from '../analysis/result.ts'
import type { Job, Setup } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
export const cuttingAdvice = (_job: Job, _setup: Setup, _mounted: Mounted): CuttingAdvice | null => null
export const cuttingFindings = (_job: Job, _setup: Setup, _advice: CuttingAdvice | null): Finding[] => []
