/** Regions as piles of rectangles: flat steps stay where they are, crowns are never flat, inside and outside hold. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { circleRing, rectRing } from '../../../src-core/geometry/edges.ts'
import { inRegion } from '../../../src-core/geometry/nearest.ts'
import { pileOf } from '../../../src-core/geometry/pile.ts'
import { mm, starRing } from '../../helpers/arbitraries.ts'

describe('flat steps', () => {
  test('a rectangle is itself, and one with a hole falls apart beside it', () => {
    const outline = rectRing({ x: 0, y: 40 }, 150, 80, 0)
    expect(pileOf({ outline, holes: [] }, 'outside')).toEqual([{ x0: -75, x1: 75, y0: 0, y1: 80 }])
    expect(pileOf({ outline, holes: [rectRing({ x: 56, y: 40 }, 13, 26, 0)] }, 'outside')).toEqual([
      { x0: -75, x1: 75, y0: 0, y1: 27 },
      { x0: -75, x1: 49.5, y0: 27, y1: 53 },
      { x0: 62.5, x1: 75, y0: 27, y1: 53 },
      { x0: -75, x1: 75, y0: 53, y1: 80 },
    ])
  })

  test('the crown of a round is a line, whatever its size', () => {
    fc.assert(
      fc.property(mm(10, 300), (diameter) => {
        const pile = pileOf({ outline: circleRing({ x: 0, y: 0 }, diameter), holes: [] }, 'outside')
        const top = pile.filter((l) => l.y1 > diameter / 2 - 0.04)
        // Within a sheet of paper of the crown a round is this wide.
        for (const l of top) expect(l.x1 - l.x0).toBeLessThan(2.1 * Math.sqrt(diameter * 0.05) + 0.01)
      }),
    )
  })
})

describe('of any outline', () => {
  const within = (pile: ReturnType<typeof pileOf>, x: number, y: number) =>
    pile.some((l) => l.x0 - 1e-3 <= x && x <= l.x1 + 1e-3 && l.y0 - 1e-3 <= y && y <= l.y1 + 1e-3)

  test('what lies in it lies in the outer pile, and what lies in the inner pile lies in it', () => {
    fc.assert(
      fc.property(starRing({ from: 10, to: 60 }), mm(-60, 60), mm(-60, 60), (outline, x, y) => {
        const region = { outline, holes: [] }
        const inside = inRegion(region, { x, y })
        // Chords stray a little from arcs.
        const near = [0.1, -0.1].some(
          (d) => inRegion(region, { x: x + d, y }) !== inside || inRegion(region, { x, y: y + d }) !== inside,
        )
        if (near) return
        if (inside) expect(within(pileOf(region, 'outside'), x, y)).toBe(true)
        if (within(pileOf(region, 'inside'), x, y)) expect(inside).toBe(true)
      }),
      { numRuns: 60 },
    )
  })
})
