/** Mass, centre and inertia in three dimensions against solids built and cut by manifold-3d. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import type { Bore, Part, Prism } from '../../../src-core/job/schema.ts'
import type { MassMoments } from '../../../src-core/mass/massMoments.ts'
import { partMass } from '../../../src-core/mass/part.ts'
import { boreRange } from '../../../src-core/mass/slabs.ts'
import { meshProperties } from '../../../src-core/mesh/properties.ts'
import { mm, moved, point, starRing } from '../../helpers/arbitraries.ts'
import { block, bore, disc, partOf } from '../../helpers/jobs.ts'
import { expectNear } from '../../helpers/near.ts'
import { manifoldPrism } from '../../helpers/peers.ts'
import { meshOf } from '../../helpers/solids.ts'

const KEYS = { m: 0, x: 1, y: 1, z: 1, xx: 2, xy: 2, yy: 2, zz: 2, xz: 2, yz: 2 } as const
const O = { x: 0, y: 0 }
/** mm: the solids' arcs are chords that stray no more than this. */
const CHORD = 0.004

/** The bodies, each with the tools' paths cut out of it, integrated over their triangles. */
function cutBySolids(part: Part, tools: readonly { bore: Bore; z0: number; z1: number }[]): MassMoments {
  const sum = { m: 0, x: 0, y: 0, z: 0, xx: 0, xy: 0, yy: 0, zz: 0, xz: 0, yz: 0 }
  for (const body of part.bodies as Prism[]) {
    let solid = manifoldPrism(body, body.base, body.base + body.thickness, CHORD)
    for (const { bore: b, z0, z1 } of tools) {
      const holes = b.start > 0 ? [circleRing(b, b.start)] : []
      const tool = manifoldPrism({ outline: circleRing(b, b.diameter), holes }, z0, z1, CHORD)
      const rest = solid.subtract(tool)
      for (const s of [solid, tool]) s.delete()
      solid = rest
    }
    const d = (body.effect === 'adds' ? 1 : -1) * (body.density ?? part.density) * 1e-9
    if (!solid.isEmpty()) {
      const p = meshProperties(meshOf(solid))
      sum.m += d * p.volume
      for (const key of ['x', 'y', 'z', 'xx', 'xy', 'yy', 'zz', 'xz', 'yz'] as const) sum[key] += d * p[key]
    }
    solid.delete()
  }
  return sum
}

/** kg: what the chords can miss, with a metre of curved outline and tool round each body. */
const missed = (part: Part) =>
  (part.bodies as Prism[]).reduce(
    (sum, b) => sum + (b.density ?? part.density) * 1e-9 * b.thickness * CHORD * 1000,
    0,
  )

function expectSame(actual: MassMoments, expected: MassMoments, part: Part, size: number) {
  for (const key of Object.keys(KEYS) as (keyof typeof KEYS)[])
    expectNear(actual[key], expected[key], { abs: missed(part) * size ** KEYS[key] })
}

const body = (id: string): fc.Arbitrary<Prism> =>
  fc
    .record({
      ring: starRing({ from: 15, to: 60 }),
      at: point(30),
      base: mm(0, 30),
      thickness: mm(2, 40),
      density: fc.constantFrom(null, 2700, 7200),
    })
    .map(({ ring, at, base, thickness, density }) => ({
      id,
      effect: 'adds',
      outline: moved(ring, at.x, at.y),
      holes: [],
      base,
      thickness,
      density,
    }))

const anyBore = (id: string): fc.Arbitrary<Bore> =>
  fc
    .record({
      at: point(40),
      d: mm(4, 70),
      share: fc.integer({ min: 0, max: 9 }),
      depth: fc.option(mm(1, 30)),
    })
    .map(({ at, d, share, depth }) => bore(id, at, d, { start: (d * share) / 10, depth }))

describe('a part against solids', () => {
  it('as drawn and with two bores through one to three bodies, blind or through, from solid or started', () => {
    const bodies = fc.tuple(body('a'), fc.option(body('b')), fc.option(body('c')))
    fc.assert(
      fc.property(bodies, anyBore('A'), anyBore('B'), (list, a, b) => {
        const part = partOf(
          list.filter((x) => x !== null),
          [a, b],
        )
        expectSame(partMass(part, []).moments, cutBySolids(part, []), part, 100)
        // What a bore takes is decided by the part as drawn: from the front of the bodies it meets.
        const tools = [a, b].flatMap((one) => {
          const range = boreRange(part, one)
          return range ? [{ bore: one, z0: range.z0, z1: range.z1 }] : []
        })
        expectSame(partMass(part, [a, b]).moments, cutBySolids(part, tools), part, 100)
      }),
      { numRuns: 25 },
    )
  })

  it('with a pocket that a bore runs through', () => {
    const web = block('web', O, [120, 80, 18])
    const boss = disc('boss', { x: 20, y: 0 }, 60, 26, { base: 18 })
    const pocket = block('pocket', { x: -10, y: 0 }, [50, 30, 10], { effect: 'removes', base: 8 })
    const a = bore('A', { x: 5, y: 0 }, 30)
    const part = partOf([web, boss, pocket], [a])
    const expected = cutBySolids(part, [{ bore: a, z0: 0, z1: 44 }])
    expectSame(partMass(part, [a]).moments, expected, part, 80)
  })
})

describe('how far a bore goes', () => {
  const low = block('low', O, [100, 60, 20])
  const high = disc('high', { x: 30, y: 0 }, 40, 15, { base: 20 })
  const range = (b: Bore, bodies: Prism[] = [low, high]) => boreRange(partOf(bodies, [b]), b)

  it('through: from the front of the foremost body it meets to the back of the hindmost', () => {
    expect(range(bore('A', { x: 30, y: 0 }, 20))).toEqual({ z0: 0, z1: 35, through: true })
    expect(range(bore('A', { x: -30, y: 0 }, 20))).toEqual({ z0: 0, z1: 20, through: true })
  })

  it('blind: its depth from that front, and through where the depth reaches the back', () => {
    expect(range(bore('A', { x: 30, y: 0 }, 20, { depth: 10 }))).toEqual({ z0: 25, z1: 35, through: false })
    expect(range(bore('A', { x: 30, y: 0 }, 20, { depth: 35 }))).toMatchObject({ z0: 0, through: true })
    expect(range(bore('A', { x: 30, y: 0 }, 20, { depth: 99 }))).toMatchObject({ z0: 0, through: true })
  })

  it('meets nothing beside the part, and a body that only touches it does not count', () => {
    expect(range(bore('A', { x: 200, y: 0 }, 20))).toBeNull()
    expect(range(bore('A', { x: 60, y: 0 }, 20), [low])).toBeNull()
    const removes = { ...low, effect: 'removes' as const }
    expect(range(bore('A', O, 20), [removes])).toBeNull()
  })
})

describe('a bore cut twice', () => {
  it('takes nothing the second time, and a wider one only its annulus', () => {
    const plain = block('b', O, [100, 60, 20])
    const [a, b] = [bore('A', O, 30), bore('B', O, 40)]
    const part = partOf([plain], [a, b])
    const mass = (...bores: Bore[]) => partMass(part, bores).moments.m
    expectNear(mass(a, { ...a, id: 'again' }), mass(a), { rel: 1e-12 })
    expectNear(mass(a, b), mass(b), { rel: 1e-12 })
    const part2 = partOf([plain], [b, a])
    expectNear(partMass(part2, [b, a]).moments.m, mass(b), { rel: 1e-12 })
  })

  it('keeps a part drawn ten metres off as exact as one at the origin', () => {
    const far = { x: 10_000, y: -10_000 }
    const at = (p: { x: number; y: number }) => ({ x: p.x + far.x, y: p.y + far.y })
    const make = (to: typeof at) =>
      partOf([block('b', to(O), [100, 60, 20])], [bore('A', to({ x: 20, y: 7 }), 30)])
    const near = partMass(
      make((p) => p),
      make((p) => p).bores,
    ).moments
    const away = partMass(make(at), make(at).bores).moments
    expectNear(away.m, near.m, { rel: 1e-10 })
    expectNear(away.x / away.m - far.x, near.x / near.m, { abs: 1e-8 })
    expectNear(away.y / away.m - far.y, near.y / near.m, { abs: 1e-8 })
  })
})

describe('the plan area of a part', () => {
  it('is that of all bodies, removing ones less, through bores out, a core that was not drilled left in', () => {
    const plate = block('b', O, [100, 60, 20])
    const boss = disc('boss', O, 40, 10, { base: 20 })
    const pocket = block('p', { x: 30, y: 0 }, [20, 30, 5], { effect: 'removes', base: 15 })
    const area = (bores: Bore[], bodies: Prism[] = [plate]) => partMass(partOf(bodies, bores), bores).area
    const circle = (d: number) => (Math.PI * d * d) / 4
    expectNear(area([], [plate, boss, pocket]), 6000 + circle(40) - 600, { rel: 1e-12 })
    expectNear(area([bore('A', O, 30)]), 6000 - circle(30), { rel: 1e-12 })
    expectNear(area([bore('A', O, 30, { start: 20 })]), 6000 - circle(30) + circle(20), { rel: 1e-12 })
    expectNear(area([bore('A', O, 30, { depth: 12 })]), 6000, { rel: 1e-12 })
    // Blind from the boss's front: through the boss, not through the plate.
    expectNear(area([bore('A', O, 30, { depth: 12 })], [plate, boss]), 6000 + circle(40) - circle(30), {
      rel: 1e-12,
    })
  })
})
