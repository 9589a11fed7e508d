import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { circleRing, rectRing, type Edge } from '../../../src-core/geometry/edges.ts'
import { cutDisc, regionEdges } from '../../../src-core/geometry/discCut.ts'
import { addMoments, edgeMoments, regionMoments } from '../../../src-core/geometry/ringMoments.ts'
import type { Region } from '../../../src-core/geometry/types.ts'
import {
  linkRing,
  mm,
  point,
  reversed,
  scaled,
  slotRing,
  starRing,
  turned,
} from '../../helpers/arbitraries.ts'
import { circleMoments, expectMoments } from '../../helpers/moments.ts'
import { expectNear } from '../../helpers/near.ts'
import { manifoldIntersectionArea } from '../../helpers/peers.ts'

const CHORD = 1e-3
const areas = (edges: readonly Edge[], at: { x: number; y: number }, d: number) => {
  const { inside, outside } = cutDisc(edges, at, d)
  return { inside: edgeMoments(inside).area, outside: edgeMoments(outside).area }
}
const plain = (outline: Region['outline'], holes: Region['holes'] = []): readonly Edge[] =>
  regionEdges({ outline, holes })

const ringWithHole = fc
  .tuple(starRing(), fc.integer({ min: 20, max: 80 }), fc.boolean(), fc.boolean(), fc.boolean())
  .map(([ring, k, hole, flipOuter, flipHole]): Region => ({
    outline: flipOuter ? reversed(ring) : ring,
    holes: hole ? [scaled(flipHole ? reversed(ring) : ring, k / 100)] : [],
  }))

describe('regionEdges', () => {
  it('keep the material on the left whichever way the rings wind', () => {
    fc.assert(
      fc.property(ringWithHole, (region) => {
        expectMoments(edgeMoments(regionEdges(region)), regionMoments(region), 150, 1e-11)
      }),
    )
  })
})

describe('cutDisc', () => {
  it('splits any region into two that add up to the whole, in all six moments', () => {
    fc.assert(
      fc.property(ringWithHole, point(120), mm(1, 240), (region, at, d) => {
        const { inside, outside } = cutDisc(regionEdges(region), at, d)
        const sum = addMoments(edgeMoments(inside), edgeMoments(outside))
        expectMoments(sum, regionMoments(region), 150, 1e-10)
      }),
      { numRuns: 300 },
    )
  })

  it('takes what manifold-3d finds in both', () => {
    fc.assert(
      fc.property(ringWithHole, point(120), mm(1, 240), (region, at, d) => {
        const found = areas(regionEdges(region), at, d)
        const rings = [region.outline, ...region.holes]
        const expected = manifoldIntersectionArea(rings, [circleRing(at, d)], CHORD)
        expectNear(found.inside, expected, { abs: CHORD * 2500 })
        expect(found.inside).toBeGreaterThanOrEqual(-1e-6)
        expect(found.outside).toBeGreaterThanOrEqual(-1e-6)
      }),
      { numRuns: 300 },
    )
  })

  it('cut again by the same disc gives the same again, and nothing more', () => {
    fc.assert(
      fc.property(ringWithHole, point(80), mm(5, 160), (region, at, d) => {
        const once = cutDisc(regionEdges(region), at, d)
        const again = cutDisc(once.inside, at, d)
        const rest = cutDisc(once.outside, at, d)
        const area = edgeMoments(once.inside).area
        expectNear(edgeMoments(again.inside).area, area, { abs: 1e-4 })
        expectNear(edgeMoments(again.outside).area, 0, { abs: 1e-4 })
        expectNear(edgeMoments(rest.inside).area, 0, { abs: 1e-4 })
      }),
      { numRuns: 300 },
    )
  })

  it('of two discs in either order leaves the same', () => {
    fc.assert(
      fc.property(ringWithHole, point(80), mm(5, 160), point(80), mm(5, 160), (region, a, da, b, db) => {
        const edges = regionEdges(region)
        const ab = cutDisc(cutDisc(edges, a, da).outside, b, db).outside
        const ba = cutDisc(cutDisc(edges, b, db).outside, a, da).outside
        expectMoments(edgeMoments(ab), edgeMoments(ba), 150, 1e-9 * (1 + 2e4 / (edgeMoments(ab).area + 1e-3)))
      }),
      { numRuns: 300 },
    )
  })
})

describe('cutDisc in the places where rounding bites', () => {
  const square = plain(rectRing({ x: 0, y: 0 }, 100, 100, 0))

  it('wholly inside, wholly outside, round everything', () => {
    const disc = circleMoments(10, 5, 20)
    expectMoments(edgeMoments(cutDisc(square, { x: 10, y: 5 }, 40).inside), disc, 60, 1e-13)
    expect(areas(square, { x: 200, y: 0 }, 50)).toEqual({ inside: 0, outside: 10_000 })
    expectNear(areas(square, { x: 0, y: 0 }, 142).inside, 10_000, { rel: 1e-13 })
    expectNear(areas(square, { x: 0, y: 0 }, 142).outside, 0, { abs: 1e-9 })
  })

  it('tangent to a side from within and without, on a corner, through corners', () => {
    expectNear(areas(square, { x: 40, y: 0 }, 20).inside, Math.PI * 100, { rel: 1e-9 })
    expectNear(areas(square, { x: 60, y: 0 }, 20).inside, 0, { abs: 1e-9 })
    expectNear(areas(square, { x: 0, y: 0 }, 100).inside, Math.PI * 2500, { rel: 1e-9 })
    expectNear(areas(square, { x: 50, y: 50 }, 20).inside, Math.PI * 25, { rel: 1e-12 })
    const corners = areas(square, { x: 0, y: 0 }, 100 * Math.SQRT2)
    expectNear(corners.inside, 10_000, { rel: 1e-9 })
    expectNear(corners.outside, 0, { abs: 1e-5 })
  })

  it('on a side: half the disc', () => {
    expectNear(areas(square, { x: 50, y: 10 }, 30).inside, (Math.PI * 225) / 2, { rel: 1e-12 })
    expectNear(areas(square, { x: -50, y: -35 }, 30).inside, (Math.PI * 225) / 2, { rel: 1e-9 })
  })

  it('centred on a vertex, through a vertex, or tangent to an edge', () => {
    fc.assert(
      fc.property(ringWithHole, fc.nat(), fc.nat(), fc.nat(2), (region, i, k, how) => {
        const ring = region.outline
        const [p, q] = [ring[i % ring.length]!, ring[k % ring.length]!]
        const next = ring[(i + 1) % ring.length]!
        const across = { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 }
        const far = Math.hypot(p.x - q.x, p.y - q.y)
        if (far === 0) return
        // The foot of the perpendicular from q on the chord from p to its neighbour gives a tangent circle.
        const chord = Math.hypot(next.x - p.x, next.y - p.y)
        const off = Math.abs((next.x - p.x) * (q.y - p.y) - (next.y - p.y) * (q.x - p.x)) / chord
        const [at, d] = (
          [
            [p, 2 * far],
            [across, far],
            [q, 2 * Math.max(off, 1)],
          ] as const
        )[how]!
        const edges = regionEdges(region)
        const { inside, outside } = cutDisc(edges, at, d)
        const sum = addMoments(edgeMoments(inside), edgeMoments(outside))
        expectMoments(sum, regionMoments(region), 150, 1e-7)
        const expected = manifoldIntersectionArea([ring, ...region.holes], [circleRing(at, d)], CHORD)
        expectNear(edgeMoments(inside).area, expected, { abs: CHORD * 2500 })
      }),
      { numRuns: 500 },
    )
  })

  it('along a hole or an outline of the same circle, turned anyhow', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 359 }), mm(4, 60), (angle, d) => {
        const at = { x: 20 * Math.cos(angle), y: 20 * Math.sin(angle) }
        const circle = turned(circleRing({ x: 0, y: 0 }, d), angle).map((p) => ({
          ...p,
          x: p.x + at.x,
          y: p.y + at.y,
        }))
        const holed = areas(plain(rectRing({ x: 0, y: 0 }, 200, 200, 0), [circle]), at, d)
        const area = (Math.PI * d * d) / 4
        expectNear(holed.inside, 0, { abs: 1e-6 * area })
        expectNear(holed.outside, 40_000 - area, { rel: 1e-9 })
        const disc = areas(plain(circle), at, d)
        expectNear(disc.inside, area, { rel: 1e-6 })
        expectNear(disc.outside, 0, { abs: 1e-6 * area })
        const larger = areas(plain(rectRing({ x: 0, y: 0 }, 200, 200, 0), [circle]), at, d + 10)
        expectNear(larger.inside, (Math.PI * ((d + 10) ** 2 - d * d)) / 4, { rel: 1e-9 })
      }),
      { numRuns: 300 },
    )
  })

  it('round the end of a slot and of a link, whose end arcs lie on the disc’s circle', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 3599 }), mm(30, 200), mm(5, 29), (tenth, length, width) => {
        const angle = tenth / 10
        const c = Math.cos((angle * Math.PI) / 180)
        const s = Math.sin((angle * Math.PI) / 180)
        const end = { x: (c * length) / 2, y: (s * length) / 2 }
        const slot = areas(plain(turned(slotRing(length, width), angle)), end, width)
        const disc = (Math.PI * width * width) / 4
        expectNear(slot.inside, disc, { rel: 1e-6 })
        expectNear(slot.outside, length * width + disc - disc, { rel: 1e-6 })
        const link = turned(linkRing(length, width, width / 2), angle)
        const whole = edgeMoments(plain(link)).area
        const cut = areas(plain(link), { x: c * length, y: s * length }, width)
        expectNear(cut.inside, disc, { rel: 1e-6 })
        expectNear(cut.outside, whole - disc, { rel: 1e-6 })
      }),
      { numRuns: 300 },
    )
  })
})
