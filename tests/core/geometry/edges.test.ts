import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  arcFraction,
  circleRing,
  edgeBounds,
  edgePiece,
  makeEdge,
  pointOnEdge,
  rectRing,
  reverseEdge,
  ringEdges,
} from '../../../src-core/geometry/edges.ts'
import { ringMoments } from '../../../src-core/geometry/ringMoments.ts'
import { mm, placedRing, point } from '../../helpers/arbitraries.ts'
import { boxMoments, circleMoments, expectMoments } from '../../helpers/moments.ts'
import { expectNear } from '../../helpers/near.ts'

const anyEdge = fc
  .tuple(point(100), point(100), fc.integer({ min: -3000, max: 3000 }))
  .filter(([a, b]) => Math.hypot(a.x - b.x, a.y - b.y) > 0.1)
  .map(([a, b, n]) => makeEdge(a, b, n / 1000))

const near = (p: { x: number; y: number }, q: { x: number; y: number }, abs: number) => {
  expectNear(p.x, q.x, { abs })
  expectNear(p.y, q.y, { abs })
}

describe('edges', () => {
  it('turn a bulge of 1 into the half circle to the right of the chord, as in DXF', () => {
    const e = makeEdge({ x: -10, y: 0 }, { x: 10, y: 0 }, 1)
    near(e.arc!.centre, { x: 0, y: 0 }, 1e-12)
    expectNear(e.arc!.radius, 10, { rel: 1e-15 })
    expectNear(e.arc!.sweep, Math.PI, { rel: 1e-15 })
    // From left to right counter-clockwise is by way of the bottom.
    near(pointOnEdge(e, 0.5), { x: 0, y: -10 }, 1e-12)
    near(pointOnEdge(makeEdge(e.a, e.b, -1), 0.5), { x: 0, y: 10 }, 1e-12)
  })

  it('put the middle of an arc at bulge times half the chord from it', () => {
    fc.assert(
      fc.property(anyEdge, (e) => {
        const mid = pointOnEdge(e, 0.5)
        const chord = Math.hypot(e.b.x - e.a.x, e.b.y - e.a.y)
        const side = ((e.b.x - e.a.x) * (mid.y - e.a.y) - (e.b.y - e.a.y) * (mid.x - e.a.x)) / chord
        expectNear(-side, (e.bulge * chord) / 2, { abs: 1e-9 })
      }),
    )
  })

  it('begin and end where they should, and every point between lies on the circle', () => {
    fc.assert(
      fc.property(anyEdge, fc.integer({ min: 0, max: 1000 }), (e, n) => {
        const p = pointOnEdge(e, n / 1000)
        if (!e.arc) return
        const { centre, radius, start, sweep } = e.arc
        expectNear(Math.hypot(p.x - centre.x, p.y - centre.y), radius, { rel: 1e-10 })
        const end = start + sweep
        near({ x: centre.x + radius * Math.cos(end), y: centre.y + radius * Math.sin(end) }, e.b, 1e-7)
      }),
    )
  })

  it('cut into pieces keep their circle, and run backwards pass the same points', () => {
    fc.assert(
      fc.property(anyEdge, fc.integer({ min: 1, max: 99 }), (e, n) => {
        const t = n / 100
        const first = edgePiece(e, 0, t)
        const second = edgePiece(e, t, 1)
        near(first.b, pointOnEdge(e, t), 1e-9)
        near(second.a, first.b, 1e-9)
        near(pointOnEdge(first, 0.5), pointOnEdge(e, t / 2), 1e-6)
        near(pointOnEdge(second, 0.5), pointOnEdge(e, (1 + t) / 2), 1e-6)
        near(pointOnEdge(reverseEdge(e), 1 - t), pointOnEdge(e, t), 1e-9)
      }),
    )
  })

  it('find the fraction at which an arc passes a direction, and none where it does not', () => {
    fc.assert(
      fc.property(anyEdge, fc.integer({ min: 1, max: 999 }), (e, n) => {
        if (!e.arc) return
        const t = n / 1000
        const angle = e.arc.start + t * e.arc.sweep
        expectNear(arcFraction(e.arc, angle)!, t, { abs: 1e-9 })
        expectNear(arcFraction(e.arc, angle - 2 * Math.PI)!, t, { abs: 1e-9 })
        const rest = 2 * Math.PI - Math.abs(e.arc.sweep)
        const outside = e.arc.start - Math.sign(e.arc.sweep) * t * rest
        expect(arcFraction(e.arc, outside)).toBeNull()
      }),
    )
  })

  it('have a box that holds every point and touches it on all four sides', () => {
    fc.assert(
      fc.property(placedRing(), (ring) => {
        for (const e of ringEdges(ring)) {
          const box = edgeBounds(e)
          const points = Array.from({ length: 2001 }, (_, k) => pointOnEdge(e, k / 2000))
          const xs = points.map((p) => p.x)
          const ys = points.map((p) => p.y)
          expectNear(box.x0, Math.min(...xs), { abs: 1e-3 })
          expectNear(box.x1, Math.max(...xs), { abs: 1e-3 })
          expectNear(box.y0, Math.min(...ys), { abs: 1e-3 })
          expectNear(box.y1, Math.max(...ys), { abs: 1e-3 })
          expect(box.x0 <= Math.min(...xs) + 1e-9 && box.x1 >= Math.max(...xs) - 1e-9).toBe(true)
          expect(box.y0 <= Math.min(...ys) + 1e-9 && box.y1 >= Math.max(...ys) - 1e-9).toBe(true)
        }
      }),
      { numRuns: 40 },
    )
  })
})

describe('ready-made rings', () => {
  it('are a circle of the diameter asked for, and a rectangle turned about its centre', () => {
    fc.assert(
      fc.property(
        point(200),
        mm(1, 300),
        mm(1, 100),
        fc.integer({ min: -360, max: 360 }),
        (at, d, w, facing) => {
          const circle = ringMoments(circleRing(at, d))
          expectMoments(circle, circleMoments(at.x, at.y, d / 2), 300 + d, 1e-12)
          const m = ringMoments(rectRing(at, d, w, facing), at)
          const own = boxMoments(-d / 2, -w / 2, d / 2, w / 2)
          const c = Math.cos((facing * Math.PI) / 180)
          const s = Math.sin((facing * Math.PI) / 180)
          expectNear(m.area, d * w, { rel: 1e-11 })
          expectNear(m.xx, c * c * own.xx + s * s * own.yy, { abs: 1e-11 * (own.xx + own.yy) })
          expectNear(m.xy, c * s * (own.xx - own.yy), { abs: 1e-11 * (own.xx + own.yy) })
        },
      ),
    )
  })
})
