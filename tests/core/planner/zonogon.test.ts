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

/** Coordinate descent with many starts: convex, so it comes near the least from any of them. */
function descend(b: { x: number; y: number }, list: readonly Span[]): number {
  const amounts = list.map((s) => s.lo)
  let { x, y } = list.reduce((p, s) => ({ x: p.x + s.lo * s.ux, y: p.y + s.lo * s.uy }), b)
  for (let round = 0; round < 3000; round++) {
    let moved = 0
    list.forEach((s, i) => {
      const next = Math.max(s.lo, Math.min(s.hi, amounts[i]! - (x * s.ux + y * s.uy)))
      x += (next - amounts[i]!) * s.ux
      y += (next - amounts[i]!) * s.uy
      moved += Math.abs(next - amounts[i]!)
      amounts[i] = next
    })
    if (moved < 1e-12) break
  }
  return Math.hypot(x, y)
}

test('the closed form is as short as descent gets, and never longer', () => {
  fc.assert(
    fc.property(point(150), spans, (b, list) => {
      const least = leastLength(b.x, b.y, list)
      const found = descend(b, list)
      expect(least).toBeLessThanOrEqual(found + 1e-9)
      expectNear(least, found, { abs: 2e-3 })
    }),
    { numRuns: 2000 },
  )
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
