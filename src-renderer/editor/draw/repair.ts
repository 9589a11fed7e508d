/** What can be done about a faulty ring, offered and never done unasked. */
import type { RingFault } from '../../../src-core/geometry/ringFault.ts'
import { TOLERANCE } from '../../../src-core/geometry/tolerance.ts'
import type { Ring, Vertex } from '../../../src-core/geometry/types.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { removeHole, setRing } from '../edits/bodies.ts'
import { untangled } from './untangle.ts'

export interface Repair {
  /** What it does, as a button says it. */
  readonly label: string
  readonly apply: (job: Job, body: string) => Job
}

/** Null where only the one who draws can know what was meant. */
export function repairFor(fault: RingFault, ring: Ring): Repair | null {
  switch (fault.kind) {
    case 'repeated-vertex':
      return {
        label: 'Join the doubled points',
        apply: (job, body) => setRing(job, body, fault.ring, withoutDoubles(ring)),
      }
    case 'hole-crosses-outline':
    case 'hole-outside-outline':
    case 'holes-cross':
    case 'hole-inside-hole':
      return fault.ring > 0
        ? { label: 'Take this hole out', apply: (job, body) => removeHole(job, body, fault.ring) }
        : null
    case 'no-area':
    case 'too-few-vertices':
      return fault.ring > 0
        ? { label: 'Take this hole out', apply: (job, body) => removeHole(job, body, fault.ring) }
        : null
    case 'crosses-itself': {
      const mended = untangled(ring)
      return mended
        ? {
            label: 'Keep the larger loop',
            apply: (job, body) => setRing(job, body, fault.ring, mended),
          }
        : null
    }
    case 'not-finite':
      return null
  }
}

/** Vertices that lie on the one before are dropped; the edge that was between them had no length. */
export function withoutDoubles(ring: Ring): Vertex[] {
  const kept = ring.filter((v, i) => {
    const next = ring[(i + 1) % ring.length]!
    return Math.hypot(next.x - v.x, next.y - v.y) > TOLERANCE.coincident
  })
  return kept.map((v) => ({ x: v.x, y: v.y, bulge: v.bulge ?? 0 }))
}
