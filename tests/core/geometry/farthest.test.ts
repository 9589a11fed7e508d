import fc from 'fast-check'
import { expect, test } from 'vitest'
import { pointOnEdge, ringEdges } from '../../../src-core/geometry/edges.ts'
import { farthestFrom } from '../../../src-core/geometry/farthest.ts'
import { placedRing, point } from '../../helpers/arbitraries.ts'

test('no point of a ring lies farther than the farthest, and the farthest lies on it', () => {
  fc.assert(
    fc.property(placedRing({ most: 40 }, 60), point(200), (ring, from) => {
      const { point: far, distance } = farthestFrom(ring, from)
      expect(Math.hypot(far.x - from.x, far.y - from.y)).toBeCloseTo(distance, 9)
      let most = 0
      for (const e of ringEdges(ring))
        for (let k = 0; k <= 200; k++) {
          const p = pointOnEdge(e, k / 200)
          most = Math.max(most, Math.hypot(p.x - from.x, p.y - from.y))
        }
      expect(distance).toBeGreaterThanOrEqual(most - 1e-9)
      // 200 steps along at most a half turn of 240 mm come within 8 µm of the top.
      expect(distance).toBeLessThan(most + 0.01)
    }),
  )
})

test('an arc that bulges beyond all vertices is found among many that do not', () => {
  const ring = Array.from({ length: 60 }, (_, i) => {
    const t = (2 * Math.PI * i) / 60
    const r = i === 0 ? 52 : 50
    return { x: r * Math.cos(t), y: r * Math.sin(t), bulge: i === 20 ? 0.9 : 0.02 }
  })
  const chord = 2 * 50 * Math.sin(Math.PI / 60)
  const middle = 50 * Math.cos(Math.PI / 60) + (0.9 * chord) / 2
  expect(farthestFrom(ring, { x: 0, y: 0 }).distance).toBeCloseTo(middle, 9)
})
