import { farthestFrom } from '../geometry/farthest.ts'
import type { Ring } from '../geometry/types.ts'
import type { Mounted } from './types.ts'

/** Times the plate's radius: what is said to stand farther out is a slip, and would leave the plate a dot. */
const MOST = 2

/** mm from the axis to the farthest that turns, seen from in front: plate, part and all that stands out past the rim. */
export function reachInPlan({ job, bodies, pieces }: Pick<Mounted, 'job' | 'bodies' | 'pieces'>): number {
  const rings: readonly Ring[] = [
    ...bodies.flatMap((b) => (b.body.effect === 'adds' ? b.regions.map((r) => r.outline) : [])),
    ...pieces.flatMap((p) => [p.footprint, ...p.solids.map((s) => s.ring)]),
  ]
  const rim = job.plate.diameter / 2
  const farthest = rings.reduce(
    (most, ring) => Math.max(most, farthestFrom(ring, { x: 0, y: 0 }).distance),
    rim,
  )
  return Math.min(farthest, MOST * rim)
}
