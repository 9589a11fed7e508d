/** Straps over a round in a vee, no tighter than its wall bears. */
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { editSetup } from './edit.ts'

/** Shares of the usual torque that are tried, the tightest first. Own choice. */
const SHARES = [1, 0.7, 0.5, 0.35, 0.25]

/** The job with the straps `ids` as tight as lets the part be judged; unchanged where no torque does. */
export function tightAsWallBears(job: Job, setupId: string, ids: readonly string[]): Job {
  if (ids.length === 0) return job
  for (const share of SHARES) {
    const eased = share === 1 ? job : ease(job, setupId, ids, share)
    if (analyse(eased, setupId).joints.some((j) => j.id === 'part' && j.factor !== null)) return eased
  }
  return job
}

const ease = (job: Job, setupId: string, ids: readonly string[], share: number): Job =>
  editSetup(job, setupId, (setup) => {
    for (const h of setup.hardware)
      if (h.kind === 'clamp' && h.torque && ids.includes(h.id)) h.torque = Math.round(h.torque * share)
  })
