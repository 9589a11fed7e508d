/** The setup as mounted, without its counterweights: what they are there to settle. */
import { analyse } from '../../src-core/analysis/analyse.ts'
import type { Analysis } from '../../src-core/analysis/result.ts'
import { isCounterweight, type Job, type Setup } from '../../src-core/job/schema.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import { withoutHardware } from '../../src-core/planner/apply.ts'

export interface Bare {
  readonly mounted: Mounted
  readonly analysis: Analysis
  /** How many counterweights were left out. */
  readonly weights: number
}

/** Throws RangeError where the job cannot be mounted. */
export function withoutCounterweights(job: Job, setup: Setup): Bare {
  const ids = setup.hardware.filter(isCounterweight).map((h) => h.id)
  const bare = withoutHardware(job, setup.id, ids)
  return { mounted: mountSetup(bare, setup.id), analysis: analyse(bare, setup.id), weights: ids.length }
}
