import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { circleRing, rectRing, ringEdges, pointOnEdge } from '../../../src-core/geometry/edges.ts'
import { farthestFrom } from '../../../src-core/geometry/farthest.ts'
import { flattenRegion, flattenRing } from '../../../src-core/geometry/flatten.ts'
import { distanceToRegion, isInside, nearestTo } from '../../../src-core/geometry/nearest.ts'
import type { Point, Ring } from '../../../src-core/geometry/types.ts'
import { mm, moved, placedRing, point, reversed, starRing, turned } from '../../helpers/arbitraries.ts'
import { expectNear } from '../../helpers/near.ts'

const distance = (p: Point, q: Point) => Math.hypot(p.x - q.x, p.y - q.y)
const dense = (ring: Ring) =>
  ringEdges(ring).flatMap((e) => Array.from({ length: 400 }, (_, k) => pointOnEdge(e, k / 400)))

/** Even-odd rule on straight edges, the plain textbook loop. */
function evenOdd(points: readonly Point[], p: Point): boolean {
  let inside = false
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length]!
    if (a.y > p.y !== b.y > p.y && p.x < a.x + ((p.y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside
  })
  return inside
}

describe('farthestFrom', () => {
  it('is the corner of a rectangle and the far side of a circle', () => {
    const corner = farthestFrom(rectRing({ x: 30, y: 0 }, 40, 20, 0), { x: 0, y: 0 })
    expectNear(corner.distance, Math.hypot(50, 10), { rel: 1e-14 })
    expect(corner.point.x).toBeCloseTo(50, 9)
    const far = farthestFrom(circleRing({ x: 3, y: 4 }, 10), { x: 0, y: 0 })
    expectNear(far.distance, 10, { rel: 1e-14 })
    expectNear(far.point.x, 6, { rel: 1e-12 })
    expectNear(far.point.y, 8, { rel: 1e-12 })
  })

  it('takes in the top of an arc that bulges past its ends', () => {
    const ring = [
      { x: -20, y: 30, bulge: 0 },
      { x: 20, y: 30, bulge: 0.5 },
    ]
    // Height of the arc: bulge times half the chord.
    expectNear(farthestFrom(ring, { x: 0, y: 0 }).distance, 40, { rel: 1e-14 })
  })

  it('agrees with thousands of points on the ring, and lies on it', () => {
    fc.assert(
      fc.property(placedRing(), point(400), (ring, from) => {
        const { point: at, distance: d } = farthestFrom(ring, from)
        const sampled = Math.max(...dense(ring).map((p) => distance(p, from)))
        expect(d).toBeGreaterThanOrEqual(sampled - 1e-9)
        expectNear(d, sampled, { abs: 5e-3 })
        expectNear(distance(at, from), d, { rel: 1e-12 })
        expect(nearestTo(ring, at).distance).toBeLessThan(1e-9)
      }),
    )
  })
})

describe('nearestTo and isInside', () => {
  it('agree with thousands of points and with even-odd on chords', () => {
    fc.assert(
      fc.property(placedRing(), point(400), (ring, from) => {
        const { point: at, distance: d } = nearestTo(ring, from)
        const sampled = Math.min(...dense(ring).map((p) => distance(p, from)))
        expect(d).toBeLessThanOrEqual(sampled + 1e-9)
        expectNear(d, sampled, { abs: 2 })
        expectNear(distance(at, from), d, { abs: 1e-9 })
        if (d < 0.01) return
        const expected = evenOdd(flattenRing(ring, 0.005), from)
        expect(isInside(ring, from)).toBe(expected)
        expect(isInside(reversed(ring), from)).toBe(expected)
      }),
    )
  })

  it('know points on a chord, level with a vertex, and at a full circle’s centre', () => {
    const circle = circleRing({ x: 0, y: 0 }, 50)
    for (const p of [
      { x: 0, y: 0 },
      { x: 10, y: 0 },
      { x: -24.9, y: 0 },
      { x: 0, y: 24.9 },
    ])
      expect(isInside(circle, p)).toBe(true)
    for (const p of [
      { x: 25.1, y: 0 },
      { x: -25.1, y: 0 },
      { x: 0, y: -25.1 },
      { x: 18, y: 18 },
    ])
      expect(isInside(circle, p)).toBe(false)
    const star = moved(rectRing({ x: 0, y: 0 }, 20, 20, 45), 0, 0)
    expect(isInside(star, { x: 0, y: 0 })).toBe(true)
    expect(isInside(star, { x: -30, y: 0 })).toBe(false)
    expect(isInside(star, { x: 30, y: 0 })).toBe(false)
  })

  it('know the middle of a circle wherever its halves meet and however it is rounded', () => {
    const halves = [
      { x: -1.6496819476328528, y: 21.940067307819593, bulge: 1 },
      { x: 1.6496819476328533, y: -21.940067307819596, bulge: 1 },
    ]
    expect(isInside(halves, { x: -9.71445146547012e-17, y: 2.1152784385192192e-16 })).toBe(true)
    fc.assert(
      fc.property(
        point(200),
        fc.double({ min: 0, max: 360, noNaN: true }),
        mm(5, 300),
        fc.boolean(),
        fc.record({ x: fc.integer({ min: -2, max: 2 }), y: fc.integer({ min: -2, max: 2 }) }),
        (at, turn, diameter, back, ulps) => {
          const circle = moved(turned(circleRing({ x: 0, y: 0 }, diameter), turn), at.x, at.y)
          const ring = back ? reversed(circle) : circle
          const off = (v: number, n: number) => v + n * Number.EPSILON * Math.max(Math.abs(v), diameter)
          expect(isInside(ring, { x: off(at.x, ulps.x), y: off(at.y, ulps.y) })).toBe(true)
        },
      ),
      { numRuns: 2000 },
    )
  })

  it('give no distance inside the material, and the distance to the edge in a hole and outside', () => {
    const region = {
      outline: rectRing({ x: 0, y: 0 }, 100, 60, 0),
      holes: [circleRing({ x: 20, y: 0 }, 20)],
    }
    expect(distanceToRegion(region, { x: -20, y: 0 })).toBe(0)
    expectNear(distanceToRegion(region, { x: 22, y: 0 }), 8, { rel: 1e-12 })
    expectNear(distanceToRegion(region, { x: 53, y: 34 }), 5, { rel: 1e-12 })
  })
})

describe('flattenRing', () => {
  it('keeps every vertex and strays from the arcs by no more than asked', () => {
    fc.assert(
      fc.property(starRing(), fc.constantFrom(0.5, 0.05, 0.001), (ring, error) => {
        const points = flattenRing(ring, error)
        for (const v of ring) expect(points.some((p) => p.x === v.x && p.y === v.y)).toBe(true)
        points.forEach((a, i) => {
          const b = points[(i + 1) % points.length]!
          const mid = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }
          expect(nearestTo(ring, a).distance).toBeLessThan(1e-9)
          expect(nearestTo(ring, mid).distance).toBeLessThanOrEqual(error * 1.001 + 1e-9)
        })
      }),
    )
  })

  it('spends few chords on small arcs and none on straight edges', () => {
    expect(flattenRing(rectRing({ x: 0, y: 0 }, 10, 10, 3))).toHaveLength(4)
    // Chord error e on radius r: step 2·acos(1 − e/r); 2π over that, rounded up for each half.
    const half = Math.ceil(Math.PI / (2 * Math.acos(1 - 0.01 / 5)))
    expect(flattenRing(circleRing({ x: 0, y: 0 }, 10), 0.01)).toHaveLength(2 * half)
    const rings = flattenRegion({
      outline: circleRing({ x: 0, y: 0 }, 90),
      holes: [circleRing({ x: 0, y: 0 }, 9)],
    })
    expect(rings).toHaveLength(2)
  })
})
