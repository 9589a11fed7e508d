import { describe, expect, test } from 'vitest'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import { flattenRing } from '../../../src-core/geometry/flatten.ts'
import { fewHullPoints, leastWidth } from '../../../src-core/geometry/hullPoints.ts'
import { expectNear } from '../../helpers/near.ts'

const rectangle = [
  { x: 0, y: 0 },
  { x: 30, y: 0 },
  { x: 30, y: 16 },
  { x: 0, y: 16 },
]

describe('few corners', () => {
  test('a circle keeps so many that no corner left out stands over a chord by more', () => {
    const all = flattenRing(circleRing({ x: 5, y: -3 }, 60), 0.001)
    const few = fewHullPoints(all, 0.25)
    expect(few.length).toBeLessThan(all.length / 5)
    // Corners of the circle itself: a chord's rise is r·(1 − cos(half of its turn)).
    for (const p of few) expect(all).toContainEqual(p)
    const rise = few.map((a, i) => {
      const b = few[(i + 1) % few.length]!
      return 30 - Math.sqrt(30 ** 2 - (Math.hypot(b.x - a.x, b.y - a.y) / 2) ** 2)
    })
    expect(Math.max(...rise)).toBeLessThanOrEqual(0.26)
    expect(Math.max(...rise)).toBeGreaterThan(0.1)
  })

  test('a rectangle keeps its four, and inner points go', () => {
    const few = fewHullPoints([...rectangle, { x: 10, y: 8 }, { x: 15, y: 0 }], 0.25)
    expect(few).toHaveLength(4)
    for (const p of rectangle) expect(few).toContainEqual(p)
  })
})

describe('least width', () => {
  test('of a rectangle its shorter side, of a triangle its least height, of a line none', () => {
    expectNear(leastWidth(rectangle), 16, { abs: 1e-12 })
    expectNear(
      leastWidth([
        { x: 0, y: 0 },
        { x: 40, y: 0 },
        { x: 0, y: 30 },
      ]),
      24,
      { abs: 1e-12 },
    )
    expect(leastWidth(rectangle.slice(0, 2))).toBe(0)
  })
})
