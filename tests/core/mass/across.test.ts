/** Bodies that lie across the spindle axis: their mass, products of inertia and couple. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { circleRing, rectRing } from '../../../src-core/geometry/edges.ts'
import { turning } from '../../../src-core/geometry/angles.ts'
import type { Prism } from '../../../src-core/job/schema.ts'
import { acrossBlocks, acrossPose } from '../../../src-core/mass/across.ts'
import type { MassMoments } from '../../../src-core/mass/massMoments.ts'
import { partMass } from '../../../src-core/mass/part.ts'
import { boreRange } from '../../../src-core/mass/slabs.ts'
import { meshProperties } from '../../../src-core/mesh/properties.ts'
import { degrees, mm, moved, starRing } from '../../helpers/arbitraries.ts'
import { block, bore, partOf } from '../../helpers/jobs.ts'
import { expectNear } from '../../helpers/near.ts'
import { manifoldPrism } from '../../helpers/peers.ts'
import { meshOf, type Manifold } from '../../helpers/solids.ts'

const across = (id: string, direction: number, base: number, thickness: number, outline: Prism['outline']) =>
  ({ ...block(id, { x: 0, y: 0 }, [1, 1, thickness]), across: direction, base, outline }) as const

const massOf = (...bodies: Prism[]) => partMass(partOf(bodies), []).moments

/** I_xx, I_yy, I_zz and ∫xy, ∫yz, ∫xz about the origin, kg·mm². */
const inertia = (m: MassMoments) => [m.yy + m.zz, m.xx + m.zz, m.xx + m.yy, m.xy, m.yz, m.xz] as const

function expectInertia(m: MassMoments, kg: number, expected: readonly number[]) {
  expectNear(m.m, kg, { abs: 1e-6 })
  inertia(m).forEach((v, i) => expectNear(v, expected[i]!, { abs: 0.01 }))
}

describe('solids of steel, constructed and reckoned beforehand', () => {
  it('a block turned a quarter about x and about y', () => {
    // 120 by 80 by 40, turned about x: 120 by 40 by 80 about (50, 30, 40).
    const aboutX = across('b', 90, 10, 40, rectRing({ x: -50, y: 40 }, 120, 80, 0))
    expectInertia(massOf(aboutX), 3.0144, [9545.6, 17_584, 14_268.16, 4521.6, 3617.28, 6028.8])
    // Turned about y: 40 by 80 by 120 about (50, 30, 60).
    const aboutY = across('b', 0, 30, 40, rectRing({ x: 30, y: 60 }, 80, 120, 0))
    expectInertia(massOf(aboutY), 3.0144, [18_789.76, 22_407.04, 12_258.56, 4521.6, 5425.92, 9043.2])
  })

  it('an angle of a flat and a wall, where it stands and moved', () => {
    const angle = (x: number, y: number) =>
      massOf(
        block('base', { x: 75 + x, y }, [150, 100, 12]),
        across('wall', 0, x, 12, rectRing({ x: y, y: 81 }, 100, 138, 0)),
      )
    expectInertia(angle(0, 0), 2.71296, [12_920.6981, 21_319.7962, 12_920.6981, 0, 0, 1267.6306])
    expectInertia(
      angle(-60, 20),
      2.71296,
      [14_005.8821, 17_433.481, 10_119.5669, -980.0568, 2275.4952, -5558.855],
    )
  })

  it('a cylinder along x', () => {
    const rod = across('rod', 0, -50, 160, circleRing({ x: 25, y: 70 }, 60))
    expectInertia(
      massOf(rod),
      3.5512563,
      [21_218.7566, 28_972.3329, 13_790.7121, 2663.4423, 6214.6986, 7457.6383],
    )
  })
})

const KEYS = { m: 0, x: 1, y: 1, z: 1, xx: 2, xy: 2, yy: 2, zz: 2, xz: 2, yz: 2 } as const
const CHORD = 0.004

/** The same prism by another kernel: extruded, laid on its side, turned. */
function laid(body: Prism & { readonly across: number }): Manifold {
  const flat = manifoldPrism(body, body.base, body.base + body.thickness, CHORD)
  const { u, v, n } = acrossPose(body)
  const solid = flat.transform([u.x, u.y, u.z, 0, v.x, v.y, v.z, 0, n.x, n.y, n.z, 0, 0, 0, 0, 1])
  flat.delete()
  return solid
}

function momentsOf(solid: Manifold, density: number): MassMoments {
  const { volume, ...rest } = meshProperties(meshOf(solid))
  const scaled = Object.fromEntries(Object.entries(rest).map(([k, v]) => [k, v * density]))
  return { m: volume * density, ...scaled } as MassMoments
}

function expectSame(actual: MassMoments, expected: MassMoments, abs: number) {
  for (const key of Object.keys(KEYS) as (keyof typeof KEYS)[])
    expectNear(actual[key], expected[key], { abs: abs * 200 ** KEYS[key] })
}

const STEEL = 7850e-9
const lying = fc
  .record({
    ring: starRing({ from: 15, to: 60 }),
    at: fc.tuple(mm(-40, 40), mm(0, 90)),
    direction: degrees,
    base: mm(-60, 30),
    thickness: mm(2, 60),
  })
  .map(({ ring, at, direction, base, thickness }) =>
    across('b', direction, base, thickness, moved(ring, at[0], at[1])),
  )

describe('against solids by another kernel', () => {
  it('whole bodies weigh and lie the same', () => {
    fc.assert(
      fc.property(lying, (body) => {
        const solid = laid(body)
        expectSame(massOf(body), momentsOf(solid, STEEL), STEEL * body.thickness * CHORD * 1000)
        solid.delete()
      }),
      { numRuns: 60 },
    )
  })

  it('so does what a bore leaves of a block', () => {
    fc.assert(
      fc.property(degrees, mm(20, 100), mm(-20, 20), mm(10, 50), (direction, long, off, diameter) => {
        const body = across('b', direction, -30, 60, rectRing({ x: off, y: 35 }, long, 50, 0))
        const hole = bore('A', { x: 5, y: -3 }, diameter)
        const part = partOf([body], [hole])
        const tool = manifoldPrism({ outline: circleRing(hole, diameter), holes: [] }, 0, 100, CHORD)
        const solid = laid(body)
        const left = solid.subtract(tool)
        expectSame(partMass(part, [hole]).moments, momentsOf(left, STEEL), STEEL * 60 * CHORD * 1000)
        expect(boreRange(part, hole)?.z0 ?? 10).toBeCloseTo(10, 6)
        for (const s of [solid, tool, left]) s.delete()
      }),
      { numRuns: 40 },
    )
  })

  it('and of any outline within what its steps miss', () => {
    fc.assert(
      fc.property(lying, mm(10, 60), (body, diameter) => {
        const hole = bore('A', { x: 0, y: 0 }, diameter)
        const part = partOf([body], [hole])
        const tool = manifoldPrism({ outline: circleRing(hole, diameter), holes: [] }, -100, 200, CHORD)
        const solid = laid(body)
        const both = solid.intersect(tool)
        const cut = massOf(body).m - partMass(part, [hole]).moments.m
        const volume = both.isEmpty() ? 0 : meshProperties(meshOf(both)).volume
        // Half a step over the surface that the tool goes through.
        expectNear(cut, volume * STEEL, { abs: STEEL * diameter * Math.min(diameter, body.thickness) * 2 })
        for (const s of [solid, tool, both]) s.delete()
      }),
      { numRuns: 40 },
    )
  })
})

describe('its steps', () => {
  const area = (body: Prism & { readonly across: number }, stairs: 'outside' | 'inside' | 'middle') =>
    acrossBlocks(body, stairs).reduce((sum, { ring, z0, z1 }) => {
      const [a, b] = [ring[0]!, ring[1]!]
      return sum + Math.hypot(b.x - a.x, b.y - a.y) * (z1 - z0)
    }, 0)

  it('hold all of it outside, are held by it inside, and agree with it between', () => {
    fc.assert(
      fc.property(lying, (body) => {
        const whole = massOf(body).m / STEEL / body.thickness
        expect(area(body, 'outside')).toBeGreaterThan(whole - 10)
        expect(area(body, 'inside')).toBeLessThan(whole + 10)
        expectNear(area(body, 'middle'), whole, { abs: 0.01 * whole + 5 })
      }),
      { numRuns: 60 },
    )
  })

  it('turn with it', () => {
    const ring = rectRing({ x: 10, y: 20 }, 30, 40, 0)
    const { c, s } = turning(37)
    const [still] = acrossBlocks(across('b', 0, 5, 12, ring), 'outside')
    const [turned] = acrossBlocks(across('b', 37, 5, 12, ring), 'outside')
    still!.ring.forEach(({ x, y }, i) => {
      expect(turned!.ring[i]!.x).toBeCloseTo(c * x - s * y, 9)
      expect(turned!.ring[i]!.y).toBeCloseTo(s * x + c * y, 9)
    })
  })
})
