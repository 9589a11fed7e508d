import { all, create, type BigNumber, type MathJsInstance } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { edgeBounds, pointOnEdge, rectRing, ringEdges } from '../../../src-core/geometry/edges.ts'
import { farthestFrom } from '../../../src-core/geometry/farthest.ts'
import { flattenRing } from '../../../src-core/geometry/flatten.ts'
import { ringMoments } from '../../../src-core/geometry/ringMoments.ts'
import { nearestTo } from '../../../src-core/geometry/nearest.ts'
import { segmentIntegrals } from '../../../src-core/geometry/segment.ts'
import { regionFaults } from '../../../src-core/geometry/validate.ts'
import { turned } from '../../helpers/arbitraries.ts'
import { expectMoments } from '../../helpers/moments.ts'
import { expectNear } from '../../helpers/near.ts'

/** 140 digits: the seventh power of 1e-9 is what is left of terms near 1e-9. */
const math = create(all!, { number: 'BigNumber', precision: 140 }) as MathJsInstance

/**
 * The segment's integrals of a circle of radius 1, from the handbook's forms about the circle's centre
 * (area φ − sin φ cos φ; first moment ⅔ sin³φ; second moments ¼(φ − sin φ cos φ) + ½ sin³φ cos φ along the axis
 * and … − ⅙ sin³φ cos φ across it) moved to the chord, in many digits and without any series.
 */
function exactSegment(phi: BigNumber) {
  const s = math.sin(phi) as unknown as BigNumber
  const c = math.cos(phi) as unknown as BigNumber
  const cube = s.times(s).times(s)
  const area = phi.minus(s.times(c))
  const first = cube.times(2).div(3)
  const along = area.div(4).plus(cube.times(c).div(2))
  const across = area.div(4).minus(cube.times(c).div(6))
  const n2 = first.minus(c.times(area))
  const n3 = along.minus(c.times(first).times(2)).plus(c.times(c).times(area))
  return [area, n2, n3, across].map((v) => v.toNumber())
}

describe('segmentIntegrals', () => {
  it('agrees with 140-digit arithmetic from 1e-12 rad to a whole circle', () => {
    const angles = [
      1e-12, 2e-9, 1e-6, 1e-4, 3e-3, 0.05, 0.3, 0.55, 0.599, 0.6, 0.61, 0.8, 1, 1.5, 2, 2.7, 3.14,
    ]
    for (const phi of angles) {
      const expected = exactSegment(math.bignumber(phi))
      const { n1, n2, n3, n4 } = segmentIntegrals(phi)
      // Just above the change from series to closed form, n3 loses most: φ⁷ out of φ.
      const digits = phi < 0.6 ? 4e-15 : 4e-13
      ;[n1, n2, n3, n4].forEach((n, i) => expectNear(n, expected[i]!, { rel: digits }))
    }
  })

  it('gives the half disc and the whole disc', () => {
    const half = segmentIntegrals(Math.PI / 2)
    expectNear(half.n1, Math.PI / 2, { rel: 1e-15 })
    expectNear(half.n2, 2 / 3, { rel: 1e-15 })
    expectNear(half.n3, Math.PI / 8, { rel: 1e-14 })
    expectNear(half.n4, Math.PI / 8, { rel: 1e-14 })
  })
})

describe('rings with small bulges', () => {
  /** Two equal arcs on one chord of 80 mm, nothing but two segments. */
  const lens = (bulge: number) => [
    { x: 10, y: 20, bulge },
    { x: 90, y: 20, bulge },
  ]

  it('keep all digits of a lens from a bulge of 1 down to 1e-9', () => {
    for (const bulge of [1, 0.3, 0.1, 1e-2, 1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9]) {
      const b = math.bignumber(bulge)
      const phi = (math.atan(b) as unknown as BigNumber).times(2)
      const r = b.times(b).plus(1).times(80).div(b.times(4)).toNumber()
      const [n1, , n3, n4] = exactSegment(phi)
      const m = ringMoments(lens(bulge), { x: 50, y: 20 })
      expectNear(m.area, 2 * r ** 2 * n1!, { rel: 1e-12 })
      expectNear(m.xx, 2 * r ** 4 * n4!, { rel: 1e-12 })
      expectNear(m.yy, 2 * r ** 4 * n3!, { rel: 1e-12 })
      expectNear(m.x, 0, { abs: 1e-12 * m.area * 80 })
      expectNear(m.y, 0, { abs: 1e-12 * m.area * 80 })
    }
  })

  it('have the first moment of the segment, to its own digits', () => {
    for (const bulge of [0.5, 1e-3, 1e-6, 1e-9]) {
      const b = math.bignumber(bulge)
      const [n1, n2] = exactSegment((math.atan(b) as unknown as BigNumber).times(2))
      const r = b.times(b).plus(1).times(80).div(b.times(4)).toNumber()
      // One arc and its own chord, run from right to left: the segment lies above.
      const m = ringMoments([
        { x: 40, y: 0, bulge },
        { x: -40, y: 0, bulge: 0 },
      ])
      expectNear(m.area, r ** 2 * n1!, { rel: 1e-12 })
      expectNear(m.y, r ** 3 * n2!, { rel: 1e-12 })
    }
  })

  it('near the straight edge as the bulge goes to nothing: area 2/3 · chord · height, height = chord · bulge / 2', () => {
    for (const bulge of [1e-4, 1e-6, 1e-9]) {
      const { area } = ringMoments(lens(bulge))
      expectNear(area / (2 * (2 / 3) * 80 * (80 * bulge) * 0.5), 1, { abs: 2 * bulge })
    }
  })

  it('agree with a great many chords, and twice as many chords come four times nearer', () => {
    const ring = [
      { x: -60, y: -10, bulge: 1e-3 },
      { x: 70, y: -30, bulge: 0.9 },
      { x: 55, y: 65, bulge: -0.4 },
      { x: -30, y: 50, bulge: 0.02 },
    ]
    const m = ringMoments(ring)
    const misses = [1e-2, 2.5e-3, 6.25e-4].map((error) => {
      const chords = ringMoments(flattenRing(ring, error))
      expectMoments(chords, m, 100, (3 * error * 400) / m.area)
      return Math.abs(chords.area - m.area)
    })
    expect(misses[0]! / misses[1]!).toBeGreaterThan(3)
    expect(misses[1]! / misses[2]!).toBeGreaterThan(3)
  })
})

describe('edges bent less than numbers can hold', () => {
  it('are as good as straight: places stay within a nanometre, moments finite', () => {
    const straight = turned(rectRing({ x: 30, y: 10 }, 120, 70, 0), 17)
    const from = { x: -20, y: 33 }
    const m = ringMoments(straight)
    const far = farthestFrom(straight, from)
    const near = nearestTo(straight, from)
    for (const bulge of [1e-8, 1e-9, 1e-10, 1e-12, 1e-14, 1e-16, 1e-80, 1e-300, 5e-324]) {
      for (const sign of [1, -1]) {
        const ring = straight.map((v) => ({ ...v, bulge: sign * bulge }))
        expectMoments(ringMoments(ring), m, 100, 4 * bulge + 1e-14)
        // The middle strays by half the chord times the bulge.
        const stray = 60 * bulge + 2e-6
        expectNear(farthestFrom(ring, from).distance, far.distance, { abs: stray })
        expectNear(nearestTo(ring, from).distance, near.distance, { abs: stray })
        for (const e of ringEdges(ring)) {
          const box = edgeBounds(e)
          expectNear(box.x0, Math.min(e.a.x, e.b.x), { abs: stray })
          expectNear(box.y1, Math.max(e.a.y, e.b.y), { abs: stray })
          const mid = pointOnEdge(e, 0.5)
          expectNear(mid.x, (e.a.x + e.b.x) / 2, { abs: stray })
          expectNear(mid.y, (e.a.y + e.b.y) / 2, { abs: stray })
        }
        expect(regionFaults({ outline: ring, holes: [] })).toEqual([])
      }
    }
  })
})
