/** A ring that crosses itself, cut where it does: the larger loop stays. */
import { ringEdges } from '../../../src-core/geometry/edges.ts'
import { edgeMeetings } from '../../../src-core/geometry/intersect.ts'
import { ringMoments } from '../../../src-core/geometry/ringMoments.ts'
import type { Ring, Vertex } from '../../../src-core/geometry/types.ts'
import { regionFaults } from '../../../src-core/geometry/validate.ts'
import { TOLERANCE } from '../../../src-core/geometry/tolerance.ts'
import { withoutDoubles } from './repair.ts'

/** Beyond so many crossings, or so many edges, only the one who draws can know what was meant. */
const MOST = { crossings: 12, edges: 400 } as const

/** Null where cutting does not leave a sound ring. */
export function untangled(ring: Ring): Vertex[] | null {
  if (ring.length > MOST.edges) return null
  let now: Vertex[] = withoutDoubles(ring)
  for (let i = 0; i <= MOST.crossings; i++) {
    if (regionFaults({ outline: now, holes: [] }, 1).length === 0) return now
    const loops = cutOnce(now)
    if (!loops) return null
    now = loops.reduce((a, b) => (ringMoments(b).area > ringMoments(a).area ? b : a))
    if (now.length < 2) return null
  }
  return null
}

/** The two loops at the first crossing; null where there is none. */
function cutOnce(ring: readonly Vertex[]): [Vertex[], Vertex[]] | null {
  const edges = ringEdges(ring)
  const n = ring.length
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) {
      const neighbours = j === i + 1 || (i === 0 && j === n - 1)
      for (const { ta, tb, at } of edgeMeetings(edges[i]!, edges[j]!)) {
        const common =
          neighbours &&
          ((ta > 1 - TOLERANCE.sharedEnd && tb < TOLERANCE.sharedEnd) ||
            (ta < TOLERANCE.sharedEnd && tb > 1 - TOLERANCE.sharedEnd))
        if (common) continue
        const part = (k: number, share: number) => Math.tan(Math.atan(ring[k]!.bulge ?? 0) * share)
        const here = (bulge: number): Vertex => ({ x: at.x, y: at.y, bulge })
        const last = (k: number, bulge: number): Vertex => ({ ...ring[k]!, bulge })
        const inner = [here(part(i, 1 - ta)), ...ring.slice(i + 1, j), last(j, part(j, tb))]
        const outer = [...ring.slice(0, i), last(i, part(i, ta)), here(part(j, 1 - tb)), ...ring.slice(j + 1)]
        return [withoutDoubles(inner), withoutDoubles(outer)]
      }
    }
  return null
}
