import fc from 'fast-check'
import { describe, it } from 'vitest'
import { farthestFrom } from '../../../src-core/geometry/farthest.ts'
import { ringEdges, type Edge } from '../../../src-core/geometry/edges.ts'
import {
  addMoments,
  edgeMoments,
  regionMoments,
  ringMoments,
  signedRingMoments,
} from '../../../src-core/geometry/ringMoments.ts'
import type { Ring, Vertex } from '../../../src-core/geometry/types.ts'
import {
  degrees,
  mirrored,
  moved,
  placedRing,
  point,
  reversed,
  scaled,
  startedAt,
  starRing,
  turned,
} from '../../helpers/arbitraries.ts'
import { boxMoments, circleMoments, expectMoments, mapMoments, moveMoments } from '../../helpers/moments.ts'
import { expectNear } from '../../helpers/near.ts'

const ORIGIN = { x: 0, y: 0 }
const reach = (ring: Ring) => farthestFrom(ring, ORIGIN).distance

/** A ring and whole numbers to pick vertices with. */
const ringAndPick = fc.tuple(placedRing(), fc.nat(1000), fc.nat(1000))

describe('moments of a ring', () => {
  it('are those of the rectangle and the circle, wherever they lie', () => {
    const box = [
      { x: 10, y: 5 },
      { x: 70, y: 5 },
      { x: 70, y: 45 },
      { x: 10, y: 45 },
    ]
    expectMoments(ringMoments(box), boxMoments(10, 5, 70, 45), 80, 1e-15)
    const circle = [
      { x: 13, y: -20, bulge: 1 },
      { x: 63, y: -20, bulge: 1 },
    ]
    expectMoments(ringMoments(circle), circleMoments(38, -20, 25), 70, 1e-14)
  })

  it('do not depend on the winding; the signed ones change sign', () => {
    fc.assert(
      fc.property(placedRing(), (ring) => {
        const m = ringMoments(ring)
        const back = reversed(ring)
        expectMoments(ringMoments(back), m, reach(ring), 1e-12)
        expectMoments(signedRingMoments(back), mapSigned(signedRingMoments(ring)), reach(ring), 1e-12)
      }),
    )
  })

  it('do not depend on the vertex they start at', () => {
    fc.assert(
      fc.property(ringAndPick, ([ring, k]) => {
        expectMoments(ringMoments(startedAt(ring, k % ring.length)), ringMoments(ring), reach(ring), 1e-12)
      }),
    )
  })

  it('move with the ring', () => {
    fc.assert(
      fc.property(placedRing(), point(500), (ring, by) => {
        const expected = moveMoments(ringMoments(ring), by.x, by.y)
        expectMoments(ringMoments(moved(ring, by.x, by.y)), expected, reach(ring) + 710, 1e-13)
      }),
    )
  })

  it('taken about a point are those of the ring moved the other way', () => {
    fc.assert(
      fc.property(placedRing(), point(500), (ring, about) => {
        const expected = ringMoments(moved(ring, -about.x, -about.y))
        expectMoments(ringMoments(ring, about), expected, reach(ring) + 710, 1e-13)
      }),
    )
  })

  it('turn with the ring', () => {
    fc.assert(
      fc.property(placedRing(), degrees, (ring, angle) => {
        const c = Math.cos((angle * Math.PI) / 180)
        const s = Math.sin((angle * Math.PI) / 180)
        const expected = mapMoments(ringMoments(ring), c, -s, s, c)
        expectMoments(ringMoments(turned(ring, angle)), expected, reach(ring), 1e-12)
      }),
    )
  })

  it('mirror with the ring, bulges changing sign', () => {
    fc.assert(
      fc.property(placedRing(), (ring) => {
        const expected = mapMoments(ringMoments(ring), -1, 0, 0, 1)
        expectMoments(ringMoments(mirrored(ring)), expected, reach(ring), 1e-12)
      }),
    )
  })

  it('grow with the square, cube and fourth power of the scale', () => {
    fc.assert(
      fc.property(placedRing(), fc.integer({ min: 1, max: 5000 }), (ring, n) => {
        const k = n / 100
        const m = ringMoments(ring)
        const expected = {
          area: k ** 2 * m.area,
          x: k ** 3 * m.x,
          y: k ** 3 * m.y,
          xx: k ** 4 * m.xx,
          xy: k ** 4 * m.xy,
          yy: k ** 4 * m.yy,
        }
        expectMoments(ringMoments(scaled(ring, k)), expected, k * reach(ring), 1e-12)
      }),
    )
  })

  it('keep area, centroid and central moments to 1e-10 ten metres away', () => {
    fc.assert(
      fc.property(starRing(), (ring) => {
        const near = ringMoments(ring)
        const c = { x: near.x / near.area, y: near.y / near.area }
        const central = ringMoments(ring, c)
        const far = moved(ring, 10_000, -10_000)
        const m = ringMoments(far)
        expectNear(m.area, near.area, { rel: 1e-10 })
        const at = { x: m.x / m.area, y: m.y / m.area }
        expectNear(at.x, c.x + 10_000, { rel: 1e-10 })
        expectNear(at.y, c.y - 10_000, { rel: 1e-10 })
        const size = Math.sqrt(near.area)
        expectMoments(ringMoments(far, at), central, size, 1e-10)
      }),
    )
  })

  it('of a ring cut along a chord from the middle add up to the whole', () => {
    fc.assert(
      fc.property(fc.tuple(starRing(), fc.nat(1000), fc.nat(1000), point(300)), ([star, i, k, by]) => {
        // Both parts share the origin, which sees every vertex.
        const n = star.length
        const first = i % n
        const ring = startedAt(star, first)
        const cut = 1 + (k % (n - 1))
        const middle: Vertex = { x: 0, y: 0, bulge: 0 }
        const one = [...ring.slice(0, cut), { ...ring[cut]!, bulge: 0 }, middle]
        const two = [...ring.slice(cut), { ...ring[0]!, bulge: 0 }, middle]
        const at = (r: Vertex[]) => signedRingMoments(moved(r, by.x, by.y))
        const whole = ringMoments(moved(star, by.x, by.y))
        expectMoments(addMoments(at(one), at(two)), whole, reach(moved(star, by.x, by.y)), 1e-12)
      }),
    )
  })

  it('of an arc cut in two at any fraction stay the same', () => {
    fc.assert(
      fc.property(placedRing(), fc.integer({ min: 1, max: 999 }), (ring, n) => {
        const t = n / 1000
        const finer = ringEdges(ring).flatMap(({ a, b, arc }): Vertex[] => {
          if (!arc) {
            const mid = { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) }
            return [{ x: a.x, y: a.y }, mid]
          }
          const angle = arc.start + t * arc.sweep
          const mid = {
            x: arc.centre.x + arc.radius * Math.cos(angle),
            y: arc.centre.y + arc.radius * Math.sin(angle),
          }
          return [
            { x: a.x, y: a.y, bulge: Math.tan((t * arc.sweep) / 4) },
            { ...mid, bulge: Math.tan(((1 - t) * arc.sweep) / 4) },
          ]
        })
        expectMoments(ringMoments(finer), ringMoments(ring), reach(ring), 1e-9)
      }),
    )
  })
})

describe('moments of regions and of loose edges', () => {
  it('take holes away, whichever way either winds', () => {
    fc.assert(
      fc.property(starRing({ from: 40 }), starRing({ to: 18 }), fc.boolean(), (outline, hole, flip) => {
        const region = { outline, holes: [flip ? reversed(hole) : hole] }
        const expected = addMoments(ringMoments(outline), ringMoments(hole), -1)
        expectMoments(regionMoments(region), expected, reach(outline), 1e-12)
      }),
    )
  })

  it('do not depend on the order of loose edges', () => {
    fc.assert(
      fc.property(placedRing(), fc.infiniteStream(fc.nat()), (ring, keys) => {
        const shuffled = ringEdges(ring)
          .map((edge): [number, Edge] => [keys.next().value, edge])
          .sort(([a], [b]) => a - b)
          .map(([, edge]) => edge)
        expectMoments(edgeMoments(shuffled), signedRingMoments(ring), reach(ring), 1e-12)
      }),
    )
  })
})

const mapSigned = (m: ReturnType<typeof signedRingMoments>) => addMoments(addMoments(m, m, -1), m, -1)
