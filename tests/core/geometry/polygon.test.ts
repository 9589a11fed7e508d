import { areaPathsD, booleanOpD, ClipType, FillRule } from 'clipper2-ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { circleRing, rectRing } from '../../../src-core/geometry/edges.ts'
import { flattenRing } from '../../../src-core/geometry/flatten.ts'
import {
  polygonArea,
  polygonDifference,
  polygonIntersection,
  polygonOffset,
  polygonPlace,
  polygonUnion,
} from '../../../src-core/geometry/polygon.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import { placedRing, reversed } from '../../helpers/arbitraries.ts'
import { expectNear } from '../../helpers/near.ts'
import { manifoldArea, manifoldIntersectionArea } from '../../helpers/peers.ts'

const rect = (x: number, y: number, a: number, b: number) => [flattenRing(rectRing({ x, y }, a, b, 0))]

describe('polygon work', () => {
  it('has the areas of two overlapping rectangles', () => {
    const a = rect(0, 0, 40, 20)
    const b = rect(15, 5, 40, 20)
    expectNear(polygonArea(polygonIntersection(a, b)), 25 * 15, { rel: 1e-9 })
    expectNear(polygonArea(polygonUnion(a, b)), 1600 - 375, { rel: 1e-9 })
    expectNear(polygonArea(polygonDifference(a, b)), 800 - 375, { rel: 1e-9 })
  })

  it('takes an outline with holes as it is, in any winding', () => {
    const plate = [...rect(0, 0, 100, 100), [...rect(0, 0, 40, 40)[0]!].reverse()]
    const other = [...rect(0, 0, 100, 100), ...rect(0, 0, 40, 40)]
    for (const p of [plate, other]) {
      expectNear(polygonArea(polygonIntersection(p, rect(0, 0, 60, 60))), 3600 - 1600, { rel: 1e-9 })
      expectNear(polygonArea(polygonUnion(p, [])), 10_000 - 1600, { rel: 1e-9 })
    }
  })

  it('agrees with manifold-3d on random outlines, and the parts add up', () => {
    fc.assert(
      fc.property(placedRing({}, 60), placedRing({}, 60), fc.boolean(), (p, q, flip) => {
        const b = flip ? reversed(q) : q
        const [one, two] = [[flattenRing(p, 0.01)], [flattenRing(b, 0.01)]]
        const both = polygonArea(polygonIntersection(one, two))
        expectNear(both, manifoldIntersectionArea([p], [b], 0.01), { rel: 1e-5, abs: 1e-3 })
        const alone = polygonArea(polygonDifference(one, two))
        expectNear(alone + both, manifoldArea([p], 0.01), { rel: 1e-5, abs: 1e-3 })
        const all = polygonArea(polygonUnion(one, two))
        expectNear(all + both, manifoldArea([p], 0.01) + manifoldArea([b], 0.01), { rel: 1e-5, abs: 1e-3 })
      }),
    )
  })

  it('grows a rectangle by a rounded margin and shrinks it back', () => {
    const grown = polygonOffset(rect(3, 4, 60, 40), 5)
    // Steiner: area + perimeter · d + π d², the rounded corners as chords within a micrometre.
    const expected = 2400 + 200 * 5 + Math.PI * 25
    expectNear(polygonArea(grown), expected, { abs: 2 * Math.PI * 5 * 1e-3 })
    expectNear(polygonArea(polygonOffset(rect(3, 4, 60, 40), -5)), 50 * 30, { rel: 1e-9 })
    expect(polygonOffset(rect(3, 4, 60, 40), -21)).toEqual([])
  })

  it('points at the larger of two pieces, and nowhere in nothing', () => {
    const pieces = [...rect(-50, 0, 10, 10), ...rect(60, 7, 30, 30)]
    expect(polygonPlace(pieces)).toEqual({ x: 60, y: 7 })
    expect(polygonPlace([])).toBeNull()
    expect(polygonArea([])).toBe(0)
    expect(polygonIntersection([flattenRing(circleRing({ x: 0, y: 0 }, 10))], rect(50, 0, 5, 5))).toEqual([])
  })
})

describe('a long outline is cut down to what the other can meet', () => {
  /** A star whose radius swings, with a hole: all of 400 vertices. */
  const star = (n: number, wave: number, cx: number, cy: number): Point[] =>
    Array.from({ length: n }, (_, i) => {
      const t = (2 * Math.PI * i) / n
      const r = 60 + 25 * Math.sin(wave * t)
      return { x: cx + r * Math.cos(t), y: cy + r * Math.sin(t) }
    })
  const hole = Array.from({ length: 100 }, (_, i) => {
    const t = (2 * Math.PI * i) / 100
    return { x: 20 * Math.cos(t), y: 20 * Math.sin(t) }
  })
  const long = [star(400, 7, 0, 0), hole]

  it.each([
    [0, 0, 10],
    [0, 0, 45],
    [18, 3, 6],
    [60, 10, 25],
    [-75, 40, 30],
    [200, 0, 20],
    [0, 0, 300],
  ])(
    'a square at %f, %f of %f mm: what is common and what is left are as by the library alone',
    (x, y, s) => {
      const square = [
        [
          { x: x - s / 2, y: y - s / 2 },
          { x: x + s / 2, y: y - s / 2 },
          { x: x + s / 2, y: y + s / 2 },
          { x: x - s / 2, y: y + s / 2 },
        ],
      ]
      const alone = (type: ClipType, a: Point[][], b: Point[][]) =>
        Math.abs(areaPathsD(booleanOpD(type, a, b, FillRule.EvenOdd, 6)))
      for (const [a, b] of [[long, square], [square, long], [long, [star(300, 5, 30, 10)]]] as const) {
      expect(polygonArea(polygonIntersection(a, b))).toBeCloseTo(alone(ClipType.Intersection, [...a], [...b]), 3)
      expect(polygonArea(polygonDifference(a, b))).toBeCloseTo(alone(ClipType.Difference, [...a], [...b]), 3)
    } // prettier-ignore
    },
  )
})
