import { describe, expect, test } from 'vitest'
import { circleRing, rectRing } from '../../src-core/geometry/edges.ts'
import { addMoments, regionMoments, ringMoments, type Moments } from '../../src-core/geometry/ringMoments.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import { expectNear } from '../helpers/near.ts'

const ring = (...points: (readonly [number, number])[]): Ring => points.map(([x, y]) => ({ x, y }))
const centre = (m: Moments) => ({ x: m.x / m.area, y: m.y / m.area })
const O = { x: 0, y: 0 }
/** Arc from one angle to another about the origin, radians, with the chord or the two radii closing it. */
const segment = (r: number, theta: number): Ring => [
  { x: r * Math.cos(theta / 2), y: -r * Math.sin(theta / 2), bulge: Math.tan(theta / 4) },
  { x: r * Math.cos(theta / 2), y: r * Math.sin(theta / 2) },
]
const sector = (r: number, theta: number): Ring => [...segment(r, theta), { x: 0, y: 0 }]

/** Closed forms worked by hand: area, centroid, second moments about the origin. */
describe('polygons (shoelace sums)', () => {
  test.each([
    [
      'rectangle 60×40 with its corner at (10, 5)',
      ring([10, 5], [70, 5], [70, 45], [10, 45]),
      2400,
      40,
      25,
      1_820_000,
      4_560_000,
      2_400_000,
    ],
    ['trapezium', ring([0, 0], [11, 0], [5, 4], [0, 4]), 32, 4.1875, 1.75, 138.66667, 778.66667, 204],
    [
      'L of 20 on 100',
      ring([0, 0], [100, 0], [100, 20], [20, 20], [20, 100], [0, 100]),
      3600,
      32.222222,
      32.222222,
      6_880_000,
      6_880_000,
      1_960_000,
    ],
  ] as const)('%s', (_, shape, area, x, y, ix, iy, ixy) => {
    const m = ringMoments(shape)
    expectNear(m.area, area, { rel: 1e-9 })
    expectNear(centre(m).x, x, { rel: 1e-7 })
    expectNear(centre(m).y, y, { rel: 1e-7 })
    expectNear(m.yy, ix, { rel: 1e-7 })
    expectNear(m.xx, iy, { rel: 1e-7 })
    expectNear(m.xy, ixy, { rel: 1e-7 })
  })

  test('a circle of two arcs is exact where a 360-gon is 0.0051 % small', () => {
    const gon = ring(
      ...Array.from(
        { length: 360 },
        (_, i) => [50 * Math.cos((i * Math.PI) / 180), 50 * Math.sin((i * Math.PI) / 180)] as const,
      ),
    )
    expectNear(ringMoments(gon).area, 7853.5829, { abs: 1e-4 })
    expectNear(ringMoments(circleRing(O, 100)).area, 7853.981634, { abs: 1e-6 })
  })
})

/** Machinery's Handbook, 31st ed., pp. 229–230: b = c³/(12A) for a segment, 2r·sin α/(3α) for a sector; r = 100. */
describe('segments and sectors', () => {
  test.each([
    [60, 905.86074, 91.993537],
    [90, 2853.9816, 82.587168],
    [120, 6141.8485, 70.502016],
    [180, 15_707.963, 42.441318],
  ])('segment of %i°', (degrees, area, b) => {
    const m = ringMoments(segment(100, (degrees * Math.PI) / 180))
    expectNear(m.area, area, { rel: 1e-7 })
    expectNear(m.x / m.area, b, { rel: 1e-7 })
    expectNear(m.y, 0, { abs: 1e-6 })
    const chord = 200 * Math.sin((degrees * Math.PI) / 360)
    expectNear(m.x / m.area, chord ** 3 / (12 * m.area), { rel: 1e-12 })
  })

  test.each([
    [60, 63.661977],
    [90, 60.021088],
    [120, 55.13289],
    [180, 42.441318],
    [270, 20.007029],
  ])('sector of %i°', (degrees, b) => {
    const m = ringMoments(sector(100, (degrees * Math.PI) / 180))
    expectNear(m.area, (degrees / 360) * Math.PI * 1e4, { rel: 1e-12 })
    expectNear(m.x / m.area, b, { rel: 1e-7 })
  })

  test('half ring, and the spandrel of a fillet: 0.2146 R², 0.2234 R', () => {
    const half = addMoments(ringMoments(segment(100, Math.PI)), ringMoments(segment(60, Math.PI)), -1)
    const alpha = 90
    expectNear(half.x / half.area, (38.197 * (100 ** 3 - 60 ** 3) * 1) / ((100 ** 2 - 60 ** 2) * alpha), {
      rel: 1e-5,
    })
    const spandrel: Ring = [
      { x: 0, y: 0 },
      { x: 10, y: 0, bulge: -Math.tan(Math.PI / 8) },
      { x: 0, y: 10 },
    ]
    const m = ringMoments(spandrel)
    expectNear(m.area, 0.2146 * 100, { rel: 1e-4 })
    expectNear(m.x / m.area, 0.2234 * 10, { rel: 3e-4 })
    expectNear(m.y / m.area, 0.2234 * 10, { rel: 3e-4 })
  })
})

describe('composite areas', () => {
  test('Baker & Haynes, Engineering Statics, §7.5: the printed ȳ 1.692 is a slip for 41.86/24.93 = 1.679', () => {
    const m = addMoments(
      addMoments(
        ringMoments(ring([0, 0], [5, 0], [5, 4], [0, 4])),
        ringMoments(ring([5, 0], [11, 0], [5, 4])),
      ),
      ringMoments(circleRing({ x: 3, y: 2 }, 3)),
      -1,
    )
    expectNear(m.area, 24.931417, { rel: 1e-7 })
    expectNear(centre(m).x, 4.5241813, { rel: 1e-7 })
    expectNear(centre(m).y, 1.6791197, { rel: 1e-7 })
  })

  test('square, half disc and half-disc notch (an exam answer of 144.65, 108.50 is rounded along the way)', () => {
    const outline: Ring = [
      { x: 0, y: 0 },
      { x: 40, y: 0, bulge: -1 },
      { x: 160, y: 0 },
      { x: 200, y: 0, bulge: 1 },
      { x: 200, y: 200 },
      { x: 0, y: 200 },
    ]
    const m = ringMoments(outline)
    expectNear(m.area, 50_053.096, { rel: 1e-7 })
    expectNear(centre(m).x, 144.70179, { rel: 1e-7 })
    expectNear(centre(m).y, 108.42079, { rel: 1e-7 })
  })

  test('Mumbai University paper: 22.5161 m², 4.3715, 1.8223', () => {
    const half: Ring = [
      { x: 6, y: 0, bulge: 1 },
      { x: 6, y: 4 },
    ]
    const parts = [rectRing({ x: 4.5, y: 2 }, 3, 4, 0), ring([3, 0], [3, 4], [0, 0]), half]
    const sum = parts.map((p) => ringMoments(p)).reduce((a, b) => addMoments(a, b))
    const m = addMoments(sum, ringMoments(circleRing({ x: 6, y: 2 }, 1.5)), -1)
    expectNear(m.area, 22.5161, { abs: 1e-4 })
    expectNear(centre(m).x, 4.3715, { abs: 1e-4 })
    expectNear(centre(m).y, 1.8223, { abs: 1e-4 })
  })

  test('20 cm² at 5 less 4 cm² at 8 is at 4.25', () => {
    const m = regionMoments({ outline: rectRing({ x: 5, y: 0 }, 5, 4, 0), holes: [] })
    const less = addMoments(m, ringMoments(rectRing({ x: 8, y: 0 }, 2, 2, 0)), -1)
    expect(centre(less).x).toBeCloseTo(4.25, 12)
  })
})
