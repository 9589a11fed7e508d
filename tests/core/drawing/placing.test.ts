import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { InkMap } from '../../../src-core/drawing/placing/inkMap.ts'
import { placeLabels } from '../../../src-core/drawing/placing/placeLabels.ts'
import type { Label } from '../../../src-core/drawing/placing/placeLabels.ts'
import type { Candidate } from '../../../src-core/drawing/placing/option.ts'
import {
  quad,
  quadCorners,
  quadsMeet,
  segmentMeetsQuad,
  segmentsCross,
  segmentsRunTogether,
} from '../../../src-core/drawing/placing/quad.ts'
import type { Quad, Segment } from '../../../src-core/drawing/placing/quad.ts'
import { circle, line, text } from '../../../src-core/drawing/model/primitives.ts'
import { polygonArea, polygonIntersection } from '../../../src-core/geometry/polygon.ts'
import { mm, point } from '../../helpers/arbitraries.ts'

const AREA = { x0: 0, y0: 0, x1: 100, y1: 60 }

const anyQuad: fc.Arbitrary<Quad> = fc
  .tuple(point(20), mm(1, 15), mm(1, 15), fc.double({ min: -4, max: 4, noNaN: true }))
  .map(([at, w, h, angle]) => quad(at, w, h, angle))
const anySegment: fc.Arbitrary<Segment> = fc.record({ a: point(20), b: point(20) })

describe('quads', () => {
  it('meet where their polygons overlap', () => {
    fc.assert(
      fc.property(anyQuad, anyQuad, (a, b) => {
        const overlap = polygonArea(polygonIntersection([quadCorners(a)], [quadCorners(b)]))
        // Within a hundredth of touching either answer will do.
        if (overlap > 0.01) expect(quadsMeet(a, b)).toBe(true)
        else if (overlap === 0) expect(quadsMeet(a, b, -0.05)).toBe(false)
      }),
    )
  })

  it('keep a gap along their sides', () => {
    const a = quad({ x: 0, y: 0 }, 10, 4)
    expect(quadsMeet(a, quad({ x: 10.9, y: 0 }, 10, 4), 1)).toBe(true)
    expect(quadsMeet(a, quad({ x: 11.1, y: 0 }, 10, 4), 1)).toBe(false)
    expect(quadsMeet(a, quad({ x: 0, y: 4.9 }, 10, 4), 1)).toBe(true)
    expect(quadsMeet(a, quad({ x: 0, y: 5.1 }, 10, 4), 1)).toBe(false)
  })

  it('are met by the segments that have a point in them', () => {
    fc.assert(
      fc.property(anySegment, anyQuad, ({ a, b }, q) => {
        const steps = 400
        const inside = Array.from({ length: steps + 1 }, (_, i) => i / steps).some((t) => {
          const x = a.x + (b.x - a.x) * t - q.centre.x
          const y = a.y + (b.y - a.y) * t - q.centre.y
          const u = x * q.along.x + y * q.along.y
          const v = y * q.along.x - x * q.along.y
          return Math.abs(u) < q.width / 2 && Math.abs(v) < q.height / 2
        })
        if (inside) expect(segmentMeetsQuad({ a, b }, q)).toBe(true)
        // A step is at most 0.15 mm, so a corner cut between two of them is shallower than that.
        else expect(segmentMeetsQuad({ a, b }, q, -0.2)).toBe(false)
      }),
    )
  })
})

describe('segments', () => {
  const s = (ax: number, ay: number, bx: number, by: number): Segment => ({
    a: { x: ax, y: ay },
    b: { x: bx, y: by },
  })

  it('cross or do not', () => {
    expect(segmentsCross(s(0, 0, 10, 10), s(0, 10, 10, 0))).toBe(true)
    expect(segmentsCross(s(0, 0, 10, 10), s(0, 10, 4, 6))).toBe(false)
    expect(segmentsCross(s(0, 0, 10, 10), s(10, 10, 20, 0))).toBe(false)
  })

  it('run together or do not', () => {
    expect(segmentsRunTogether(s(0, 0, 10, 0), s(5, 0.3, 20, 0.3), 0.7)).toBe(true)
    expect(segmentsRunTogether(s(0, 0, 10, 0), s(5, 2, 20, 2), 0.7)).toBe(false)
    expect(segmentsRunTogether(s(0, 0, 10, 0), s(15, 0.3, 20, 0.3), 0.7)).toBe(false)
    expect(segmentsRunTogether(s(0, 0, 10, 0), s(5, -5, 5, 5), 0.7)).toBe(false)
  })
})

describe('InkMap', () => {
  it('knows free ground from lines, bodies and the outside', () => {
    const ink = new InkMap(AREA)
    ink.addLines([
      line('outline', { x: -50, y: 30 }, { x: 200, y: 30 }),
      circle('outline', { x: 80, y: 45 }, 8),
      text({ x: 10, y: 10 }, 'not ink', 5),
    ])
    const square = [
      { x: 20, y: 5 },
      { x: 40, y: 5 },
      { x: 40, y: 20 },
      { x: 20, y: 20 },
    ]
    const hole = [
      { x: 26, y: 8 },
      { x: 36, y: 8 },
      { x: 36, y: 17 },
      { x: 26, y: 17 },
    ]
    ink.addBody([square, hole])
    const free = (x: number, y: number, w = 3, h = 3) => ink.isFree(quad({ x, y }, w, h), 0)
    expect(free(10, 10)).toBe(true)
    expect(free(10, 30)).toBe(false)
    expect(free(23, 10, 2, 2)).toBe(false)
    expect(free(31, 12)).toBe(true)
    expect(free(80, 45)).toBe(true)
    expect(free(88, 45)).toBe(false)
    expect(free(99, 10)).toBe(false)
    expect(ink.holds(quad({ x: 10, y: 30 }, 3, 3))).toBe(true)
    expect(ink.holds(quad({ x: 99, y: 30 }, 3, 3))).toBe(false)
    expect(ink.along({ x: 10, y: 20 }, { x: 10, y: 40 })).toEqual({ lines: 1, body: 0 })
    // 6 and 4 mm of the frame, to within a cell at each of its four edges.
    expect(Math.abs(ink.along({ x: 15, y: 10 }, { x: 45, y: 10 }).body - 10)).toBeLessThanOrEqual(2)
  })
})

/** A label of 10 by 4 at each of several places, in order of liking, with a leader to `target` if there is one. */
function label(id: string, places: readonly [number, number][], target?: [number, number]): Label {
  const candidates = places.map(([x, y], cost): Candidate => {
    const lines = target ? [{ a: { x, y: y + 2.5 }, b: { x: target[0], y: target[1] } }] : []
    return { quads: [quad({ x, y }, 10, 4)], lines, cost, draw: () => [text({ x, y }, id, 3.5)] }
  })
  return { id, candidates }
}

const placesOf = (labels: readonly Label[], ink = new InkMap(AREA)) => {
  const { primitives, unplaced } = placeLabels(labels, ink)
  const at = Object.fromEntries(
    primitives.flatMap((p) => (p.kind === 'text' ? [[p.text, [p.at.x, p.at.y]]] : [])),
  )
  return { at, unplaced }
}

describe('placeLabels', () => {
  it('takes the best place that is free of ink', () => {
    const ink = new InkMap(AREA)
    ink.addLines([line('outline', { x: 0, y: 10 }, { x: 100, y: 10 })])
    expect(
      placesOf(
        [
          label('a', [
            [20, 10],
            [20, 30],
          ]),
        ],
        ink,
      ).at,
    ).toEqual({ a: [20, 30] })
  })

  it('sets no label over another, and says which found no place', () => {
    const { at, unplaced } = placesOf([label('a', [[20, 10]]), label('b', [[25, 10]])])
    expect(at).toEqual({ a: [20, 10] })
    expect(unplaced).toEqual(['b'])
  })

  it('does not miss what is optional', () => {
    expect(
      placesOf([label('a', [[20, 10]]), { ...label('b', [[25, 10]]), optional: true }]).unplaced,
    ).toEqual([])
  })

  it('moves a label that has another place to make room for one that has none', () => {
    const both = [
      label('a', [
        [20, 10],
        [60, 10],
      ]),
      label('b', [[25, 10]]),
    ]
    expect(placesOf(both)).toEqual({ at: { a: [60, 10], b: [25, 10] }, unplaced: [] })
  })

  it('lets no leader run through a label, and prefers leaders that do not cross', () => {
    const near = label('a', [[50, 30]])
    const through = label(
      'b',
      [
        [50, 10],
        [80, 10],
      ],
      [50, 50],
    )
    expect(placesOf([near, through]).at).toEqual({ a: [50, 30], b: [80, 10] })
    const left = label(
      'l',
      [
        [70, 10],
        [30, 10],
      ],
      [30, 50],
    )
    const right = label(
      'r',
      [
        [30, 10],
        [70, 10],
      ],
      [70, 50],
    )
    expect(placesOf([left, right]).at).toEqual({ l: [30, 10], r: [70, 10] })
  })

  it('keeps lines within the ground', () => {
    expect(placesOf([label('a', [[20, 10]], [20, 80])]).unplaced).toEqual(['a'])
  })

  it('puts what is placed by hand over ink, but not outside', () => {
    const ink = new InkMap(AREA)
    ink.addLines([line('outline', { x: 0, y: 10 }, { x: 100, y: 10 })])
    const hand = (x: number): Label => {
      const l = label('a', [[x, 10]])
      return { ...l, candidates: l.candidates.map((c) => ({ ...c, byHand: true })) }
    }
    expect(placesOf([hand(20)], ink).at).toEqual({ a: [20, 10] })
    expect(placesOf([hand(98)], ink).unplaced).toEqual(['a'])
  })
})
