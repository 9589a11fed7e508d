import fc from 'fast-check'
import { expect, test } from 'vitest'
import { leastAmounts, leastLength, type Span } from '../../../src-core/planner/zonogon.ts'
import { degrees, mm, point } from '../../helpers/arbitraries.ts'
import { expectNear } from '../../helpers/near.ts'

const span = fc.tuple(degrees, mm(-50, 100), mm(0, 80)).map(([angle, lo, width]): Span => {
  const a = (angle * Math.PI) / 180
  return { ux: Math.cos(a), uy: Math.sin(a), lo, hi: lo + width }
})
/** Directions on a coarse grid, so that parallel and opposite ones come up. */
const coarse = fc
  .tuple(fc.integer({ min: 0, max: 7 }), mm(0, 60), fc.constantFrom(0, 5, 40))
  .map(([k, lo, width]): Span => {
    const a = (k * Math.PI) / 4
    return { ux: Math.cos(a), uy: Math.sin(a), lo, hi: lo + width }
  })
const spans = fc.oneof(fc.array(span, { maxLength: 5 }), fc.array(coarse, { maxLength: 5 }))

const reach = (b: { x: number; y: number }, list: readonly Span[], amounts: readonly number[]) => {
  const at = list.reduce((p, s, i) => ({ x: p.x + amounts[i]! * s.ux, y: p.y + amounts[i]! * s.uy }), b)
  return Math.hypot(at.x, at.y)
}

/**
 * No choice is shorter than this: along any unit vector v the sum reaches at least v·b + Σ min(v·uᵢ·lo, v·uᵢ·hi)
 * (weak duality of the nearest point of a convex set).
 */
function proven(b: { x: number; y: number }, list: readonly Span[], v: { x: number; y: number }): number {
  const length = Math.hypot(v.x, v.y)
  return list.reduce(
    (sum, s) => {
      const k = (v.x * s.ux + v.y * s.uy) / length
      return sum + Math.min(k * s.lo, k * s.hi)
    },
    (v.x * b.x + v.y * b.y) / length,
  )
}

test('no choice is shorter than the closed form: the direction it leaves proves it', () => {
  let outside = 0
  fc.assert(
    fc.property(point(300), spans, (b, list) => {
      const least = leastLength(b.x, b.y, list)
      const amounts = leastAmounts(b, list)
      const left = list.reduce((p, s, i) => ({ x: p.x + amounts[i]! * s.ux, y: p.y + amounts[i]! * s.uy }), b)
      // What is as good as nothing needs no proof: lengths are not negative.
      if (least < 1e-3) return
      outside++
      expectNear(proven(b, list, left), least, { abs: 1e-6 })
    }),
    { numRuns: 2000 },
  )
  expect(outside).toBeGreaterThan(500)
})

test('the amounts lie in their intervals and give the length', () => {
  fc.assert(
    fc.property(point(150), spans, (b, list) => {
      const amounts = leastAmounts(b, list)
      list.forEach((s, i) => {
        expect(amounts[i]!).toBeGreaterThanOrEqual(s.lo)
        expect(amounts[i]!).toBeLessThanOrEqual(s.hi)
      })
      expectNear(reach(b, list, amounts), leastLength(b.x, b.y, list), { abs: 1e-9 })
    }),
    { numRuns: 2000 },
  )
})

test('where all is reachable the amounts keep away from the ends', () => {
  const list = [0, 120, 240].map((angle): Span => {
    const a = (angle * Math.PI) / 180
    return { ux: Math.cos(a), uy: Math.sin(a), lo: 0, hi: 10 }
  })
  for (const amount of leastAmounts({ x: 0, y: 0 }, list)) expectNear(amount, 5, { abs: 1e-9 })
})

test('nothing to choose leaves what there is', () => {
  expect(leastLength(3, 4, [])).toBe(5)
  expect(leastAmounts({ x: 3, y: 4 }, [])).toEqual([])
})
