import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { circleRing, rectRing } from '../../../src-core/geometry/edges.ts'
import type { Ring, Vertex } from '../../../src-core/geometry/types.ts'
import { regionFaults } from '../../../src-core/geometry/validate.ts'
import type { RingFaultKind } from '../../../src-core/geometry/ringFault.ts'
import {
  degrees,
  filletedL,
  linkRing,
  mirrored,
  mm,
  moved,
  placedRing,
  point,
  reversed,
  roundedRect,
  scaled,
  slotRing,
  starRing,
  startedAt,
  turned,
} from '../../helpers/arbitraries.ts'

const SQUARE = rectRing({ x: 0, y: 0 }, 100, 100, 0)
const v = (x: number, y: number, bulge = 0): Vertex => ({ x, y, bulge })
const faultsOf = (outline: Ring, holes: Ring[] = []) => regionFaults({ outline, holes })

/** The one fault of a region: what, in which ring, at which vertex, where. */
function expectFault(
  outline: Ring,
  holes: Ring[],
  expected: { kind: RingFaultKind; ring: number; vertex?: number; x?: number; y?: number },
) {
  const faults = faultsOf(outline, holes)
  const hit = faults.find(
    (f) => f.kind === expected.kind && f.ring === expected.ring && (expected.vertex ?? f.vertex) === f.vertex,
  )
  expect(hit, JSON.stringify(faults)).toBeDefined()
  if (expected.x !== undefined) expect(hit!.at.x).toBeCloseTo(expected.x, 6)
  if (expected.y !== undefined) expect(hit!.at.y).toBeCloseTo(expected.y, 6)
}

describe('regionFaults names what is wrong and where', () => {
  it('too few vertices', () => {
    expectFault([], [], { kind: 'too-few-vertices', ring: 0 })
    expectFault([v(3, 4)], [], { kind: 'too-few-vertices', ring: 0, vertex: 0, x: 3, y: 4 })
    expectFault([v(0, 0, 1)], [], { kind: 'too-few-vertices', ring: 0 })
    expectFault([v(0, 0), v(10, 0)], [], { kind: 'too-few-vertices', ring: 0 })
    expectFault(SQUARE, [[v(1, 1), v(2, 2)]], { kind: 'too-few-vertices', ring: 1, x: 1, y: 1 })
  })

  it('not finite', () => {
    for (const bad of [NaN, Infinity, -Infinity]) {
      expectFault([v(0, 0), v(bad, 0), v(0, 9)], [], { kind: 'not-finite', ring: 0, vertex: 1 })
      expectFault([v(0, 0), v(9, 0), v(0, bad)], [], { kind: 'not-finite', ring: 0, vertex: 2 })
      expectFault([v(0, 0, bad), v(9, 0), v(0, 9)], [], { kind: 'not-finite', ring: 0, vertex: 0 })
    }
  })

  it('the same vertex twice in a row, also over the join', () => {
    const twice = [v(0, 0), v(50, 0), v(50, 0), v(50, 50)]
    expectFault(twice, [], { kind: 'repeated-vertex', ring: 0, vertex: 1, x: 50, y: 0 })
    expectFault([v(0, 0), v(50, 0), v(50, 50), v(0, 0)], [], { kind: 'repeated-vertex', ring: 0, vertex: 3 })
    expectFault([v(0, 0, 1), v(0, 0, 1)], [], { kind: 'repeated-vertex', ring: 0, vertex: 0 })
  })

  it('no area: collinear, out and back, one arc on top of another', () => {
    expect(faultsOf([v(0, 0), v(10, 0), v(20, 0)]).length).toBeGreaterThan(0)
    expect(faultsOf([v(0, 0), v(10, 10), v(30, 30), v(20, 20)]).length).toBeGreaterThan(0)
    expectFault([v(-10, 0, 0.7), v(10, 0, -0.7)], [], { kind: 'no-area', ring: 0, vertex: 0, x: -10, y: 0 })
  })

  it('crossing itself, at the crossing', () => {
    const bow = [v(0, 0), v(40, 40), v(40, 0), v(0, 40)]
    expectFault(bow, [], { kind: 'crosses-itself', ring: 0, vertex: 0, x: 20, y: 20 })
    const pentagram = Array.from({ length: 5 }, (_, k) =>
      v(50 * Math.cos((k * 4 * Math.PI) / 5), 50 * Math.sin((k * 4 * Math.PI) / 5)),
    )
    expect(faultsOf(pentagram).filter((f) => f.kind === 'crosses-itself')).toHaveLength(5)
  })

  it('an arc that crosses a straight edge, and two arcs that cross', () => {
    // The bottom arc rises 30 mm into a plate 20 mm high.
    const pierced = [v(0, 0, -0.6), v(100, 0), v(100, 20), v(0, 20)]
    expectFault(pierced, [], { kind: 'crosses-itself', ring: 0, vertex: 0, y: 20 })
    const both = [v(0, 0, -0.6), v(100, 0), v(100, 40, -0.6), v(0, 40)]
    expectFault(both, [], { kind: 'crosses-itself', ring: 0, vertex: 0, y: 20 })
  })

  it('touching itself: a vertex on an edge, two vertices together, a spike, an edge run twice', () => {
    const onEdge = [v(0, 0), v(60, 0), v(60, 40), v(30, 0), v(0, 40)]
    expectFault(onEdge, [], { kind: 'crosses-itself', ring: 0, x: 30, y: 0 })
    const pinch = [v(0, 0), v(30, 20), v(60, 0), v(60, 40), v(30, 20), v(0, 40)]
    expectFault(pinch, [], { kind: 'crosses-itself', ring: 0, x: 30, y: 20 })
    expect(faultsOf([v(0, 0), v(60, 0), v(60, 40), v(90, 40), v(60, 40.0000001), v(0, 40)])).not.toEqual([])
    expect(faultsOf([v(0, 0), v(60, 0), v(30, 0), v(30, 40)])).not.toEqual([])
  })

  it('a hole across the outline is named as the hole, with the hole’s own edge', () => {
    const hole = rectRing({ x: 50, y: 0 }, 20, 10, 0)
    const faults = faultsOf(SQUARE, [circleRing({ x: 0, y: 0 }, 10), hole])
    expect(faults.length).toBeGreaterThan(0)
    for (const f of faults) {
      expect(f).toMatchObject({ kind: 'hole-crosses-outline', ring: 2 })
      // Edges 0 (bottom) and 2 (top) of the hole cross the outline's right side.
      expect([0, 2]).toContain(f.vertex)
      expect(f.at.x).toBeCloseTo(50, 9)
    }
  })

  it('a hole that touches the outline, is outside it, or is the outline again', () => {
    const touching = circleRing({ x: 40, y: 0 }, 20)
    expectFault(SQUARE, [touching], { kind: 'hole-crosses-outline', ring: 1, x: 50, y: 0 })
    const outside = rectRing({ x: 80, y: 0 }, 20, 20, 0)
    expectFault(SQUARE, [outside], { kind: 'hole-outside-outline', ring: 1, vertex: 0, x: 70, y: -10 })
    expectFault(SQUARE, [SQUARE], { kind: 'hole-crosses-outline', ring: 1 })
    const around = rectRing({ x: 0, y: 0 }, 300, 300, 0)
    expectFault(SQUARE, [around], { kind: 'hole-outside-outline', ring: 1 })
  })

  it('holes that cross, touch, or lie in one another', () => {
    const a = circleRing({ x: 0, y: 0 }, 30)
    expectFault(SQUARE, [a, circleRing({ x: 20, y: 0 }, 30)], { kind: 'holes-cross', ring: 2, x: 10 })
    expectFault(SQUARE, [a, circleRing({ x: 30, y: 0 }, 30)], { kind: 'holes-cross', ring: 2, x: 15, y: 0 })
    expectFault(SQUARE, [a, circleRing({ x: 0, y: 0 }, 20)], { kind: 'hole-inside-hole', ring: 2 })
    expectFault(SQUARE, [a, circleRing({ x: 0, y: 0 }, 50)], { kind: 'hole-inside-hole', ring: 1 })
  })

  it('lists two faults of one region together, and no more than asked', () => {
    const faults = faultsOf([v(0, 0), v(NaN, 0), v(0, 9)], [[v(1, 1)]])
    expect(faults.map((f) => [f.ring, f.kind])).toEqual([
      [0, 'not-finite'],
      [1, 'too-few-vertices'],
    ])
    const zigzag = Array.from({ length: 60 }, (_, i) => v(i % 2 ? 0 : 100, i))
    const folded = [...zigzag, ...zigzag.map((p) => v(p.x + 1, p.y + 0.3))]
    expect(regionFaults({ outline: folded, holes: [] }, 7)).toHaveLength(7)
  })

  it('finds a spike driven through the middle of any other edge of a sound ring', () => {
    fc.assert(
      fc.property(placedRing({ arcs: false }), fc.nat(100), fc.nat(100), (ring, j, k) => {
        const n = ring.length
        const from = j % n
        // Neither the edge that the spike leaves from nor the one before it.
        const edge = (from + 1 + (k % (n - 2))) % n
        const [a, b, p] = [ring[edge]!, ring[(edge + 1) % n]!, ring[from]!]
        const mid = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }
        const spike = v(mid.x + (mid.x - p.x) / 2, mid.y + (mid.y - p.y) / 2)
        const bad = [...ring.slice(0, from + 1), spike, ...ring.slice(from + 1)]
        const faults = faultsOf(bad)
        expect(faults.some((f) => Math.hypot(f.at.x - mid.x, f.at.y - mid.y) < 1e-6)).toBe(true)
      }),
    )
  })
})

describe('sound outlines pass', () => {
  /** Shapes whose arcs run into their straight neighbours tangentially, as machined parts have them. */
  const tangentShape = fc.oneof(
    fc.tuple(mm(5, 400), mm(1, 200)).map(([a, w]) => slotRing(a, w)),
    fc.tuple(mm(20, 400), mm(20, 400), mm(0.2, 9.9)).map(([a, b, r]) => roundedRect(a, b, r)),
    fc.tuple(mm(60, 400), mm(5, 25), mm(0.5, 30)).map(([a, w, r]) => filletedL(a, w, r)),
    fc.tuple(mm(120, 400), mm(10, 70), mm(5, 45)).map(([c, r1, r2]) => linkRing(c, r1, r2)),
    fc.tuple(mm(0.5, 400)).map(([d]) => circleRing({ x: 0, y: 0 }, d)),
  )

  it('with tangent arcs, at any size, turn, place, winding, mirror and start', () => {
    fc.assert(
      fc.property(
        tangentShape,
        degrees,
        point(2000),
        fc.boolean(),
        fc.boolean(),
        fc.nat(20),
        (shape, angle, at, flip, mirror, first) => {
          let ring = moved(turned(shape, angle), at.x, at.y)
          if (flip) ring = reversed(ring)
          if (mirror) ring = mirrored(ring)
          expect(faultsOf(startedAt(ring, first % ring.length))).toEqual([])
        },
      ),
      { numRuns: 1000 },
    )
  })

  it('with tangent arcs rounded to a micrometre and bulges to six decimals, as files hold them', () => {
    const grid = (n: number, k: number) => Math.round(n * k) / k
    fc.assert(
      fc.property(tangentShape, degrees, point(500), (shape, angle, at) => {
        const ring = moved(turned(shape, angle), at.x, at.y).map((p) => ({
          x: grid(p.x, 1e3),
          y: grid(p.y, 1e3),
          bulge: grid(p.bulge ?? 0, 1e6),
        }))
        expect(faultsOf(ring)).toEqual([])
      }),
      { numRuns: 1000 },
    )
  })

  it('of random straight and arc edges, with a hole', () => {
    fc.assert(
      fc.property(
        starRing(),
        fc.integer({ min: 1, max: 99 }),
        fc.boolean(),
        point(300),
        (ring, k, flip, at) => {
          // A ring that can be seen whole from the origin holds every smaller copy of itself.
          const hole = scaled(flip ? reversed(ring) : ring, k / 100)
          const by = (r: Ring) => moved(r, at.x, at.y)
          expect(faultsOf(by(ring), [by(hole)])).toEqual([])
        },
      ),
      { numRuns: 1000 },
    )
  })

  it('with hardly bent edges', () => {
    fc.assert(
      fc.property(placedRing({ arcs: false }), fc.constantFrom(1e-3, 1e-5, 1e-7, 1e-9), (ring, bulge) => {
        const bent = ring.map((p, i) => ({ ...p, bulge: i % 2 ? bulge : -bulge }))
        expect(faultsOf(bent)).toEqual([])
      }),
      { numRuns: 1000 },
    )
  })

  it('with 10,000 edges', () => {
    const ring = Array.from({ length: 10_000 }, (_, i) => {
      const a = (i / 10_000) * 2 * Math.PI
      const r = 100 + (i % 2)
      return v(r * Math.cos(a), r * Math.sin(a))
    })
    expect(faultsOf(ring)).toEqual([])
  })
})
