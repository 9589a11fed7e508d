import fc from 'fast-check'
import { expect, test } from 'vitest'
import { pointOnEdge, ringEdges } from '../../../src-core/geometry/edges.ts'
import { nearestTo } from '../../../src-core/geometry/nearest.ts'
import { placedRing, point } from '../../helpers/arbitraries.ts'

test('no point of a ring lies nearer than the nearest, and the nearest lies on it', () => {
  fc.assert(
    fc.property(placedRing({ most: 40 }, 60), point(100), (ring, from) => {
      const { point: near, distance } = nearestTo(ring, from)
      expect(Math.hypot(near.x - from.x, near.y - from.y)).toBeCloseTo(distance, 9)
      let least = Infinity
      for (const e of ringEdges(ring))
        for (let k = 0; k <= 200; k++) {
          const p = pointOnEdge(e, k / 200)
          least = Math.min(least, Math.hypot(p.x - from.x, p.y - from.y))
        }
      expect(distance).toBeLessThanOrEqual(least + 1e-9)
      // Half a step of the longest edge, a half turn of 240 mm.
      expect(distance).toBeGreaterThan(least - 1)
    }),
  )
})
