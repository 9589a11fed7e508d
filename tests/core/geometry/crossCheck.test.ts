import fc from 'fast-check'
import { describe, it } from 'vitest'
import { ringEdges } from '../../../src-core/geometry/edges.ts'
import { flattenRing } from '../../../src-core/geometry/flatten.ts'
import { regionMoments, ringMoments } from '../../../src-core/geometry/ringMoments.ts'
import type { Ring } from '../../../src-core/geometry/types.ts'
import { placedRing, reversed, scaled, starRing } from '../../helpers/arbitraries.ts'
import { expectMoments } from '../../helpers/moments.ts'
import { expectNear } from '../../helpers/near.ts'
import { flattenJsPolygon, manifoldArea } from '../../helpers/peers.ts'

/** mm: how far chords may stray from the arcs they stand for. */
const CHORD = 1e-3
const around = (ring: Ring) =>
  ringEdges(ring).reduce((sum, { a, b, arc }) => {
    return sum + (arc ? arc.radius * Math.abs(arc.sweep) : Math.hypot(b.x - a.x, b.y - a.y))
  }, 0)

describe('areas against other libraries', () => {
  it('@flatten-js/core, straight and arc edges', () => {
    fc.assert(
      fc.property(placedRing(), (ring) => {
        expectNear(ringMoments(ring).area, Math.abs(flattenJsPolygon(ring).area()), { rel: 1e-9 })
      }),
      { numRuns: 300 },
    )
  })

  it('manifold-3d, straight edges', () => {
    fc.assert(
      fc.property(placedRing({ arcs: false }), (ring) => {
        expectNear(ringMoments(ring).area, manifoldArea([ring], CHORD), { rel: 1e-6 })
      }),
      { numRuns: 300 },
    )
  })

  it('manifold-3d, arcs as chords within 1 µm, holes out', () => {
    fc.assert(
      fc.property(starRing(), fc.integer({ min: 10, max: 90 }), fc.boolean(), (outline, k, flip) => {
        const hole = scaled(flip ? reversed(outline) : outline, k / 100)
        const expected = manifoldArea([outline, hole], CHORD)
        // All chords lie on one side of their arc at worst; the library rounds to about a micrometre's digits.
        const abs = CHORD * (around(outline) + around(hole)) + 1e-6 * expected
        expectNear(regionMoments({ outline, holes: [hole] }).area, expected, { abs })
      }),
      { numRuns: 300 },
    )
  })
})

describe('all six moments against chords', () => {
  /** Sum over triangles to the origin with three midpoints of their sides, exact for second powers. */
  function triangleMoments(points: readonly { x: number; y: number }[]) {
    const m = { area: 0, x: 0, y: 0, xx: 0, xy: 0, yy: 0 }
    points.forEach((p, i) => {
      const q = points[(i + 1) % points.length]!
      const third = (p.x * q.y - q.x * p.y) / 6
      for (const at of [
        { x: p.x / 2, y: p.y / 2 },
        { x: q.x / 2, y: q.y / 2 },
        { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 },
      ]) {
        m.area += third
        m.x += third * at.x
        m.y += third * at.y
        m.xx += third * at.x * at.x
        m.xy += third * at.x * at.y
        m.yy += third * at.y * at.y
      }
    })
    return m
  }

  it('each to the area that the chords can miss', () => {
    fc.assert(
      fc.property(starRing(), (ring) => {
        const expected = triangleMoments(flattenRing(ring, CHORD))
        const size = 200
        expectMoments(ringMoments(ring), expected, size, (CHORD * around(ring)) / expected.area)
      }),
      { numRuns: 300 },
    )
  })

  it('exactly for straight edges', () => {
    fc.assert(
      fc.property(placedRing({ arcs: false }), (ring) => {
        expectMoments(ringMoments(ring), triangleMoments(ring), 500, 1e-11)
      }),
    )
  })
})
