import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { uncertaintiesOf } from '../../../src-core/doubt/defaults.ts'
import type { Box, Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { assemble } from '../../../src-core/unbalance/assembly.ts'
import { degrees, mm, point } from '../../helpers/arbitraries.ts'
import { block, bore, disc, jobWith, partOf, piece } from '../../helpers/jobs.ts'
import { expectNear } from '../../helpers/near.ts'

const O = { x: 0, y: 0 }
const all = (job: Job, setup = 'op10') => assemble(mountSetup(job, setup), uncertaintiesOf(job))
const steelBlock = (a: number, b: number, c: number) => a * b * c * 7850e-9

describe('what turns, about the axis at the plate’s face', () => {
  it('a block on packing: mass, centre, inertia and products, worked by hand', () => {
    // 80 × 40 × 20 mm of steel centred at (50, 30), its back 12 mm off the plate.
    const m = steelBlock(80, 40, 20)
    const a = all(jobWith({ part: partOf([block('b', { x: 50, y: 30 }, [80, 40, 20])]) }))
    const part = a.mountedPart
    expectNear(part.m, m, { rel: 1e-12 })
    expectNear(part.z, m * 22, { rel: 1e-12 })
    expectNear(part.xx, m * (80 ** 2 / 12 + 50 ** 2), { rel: 1e-12 })
    expectNear(part.yy, m * (40 ** 2 / 12 + 30 ** 2), { rel: 1e-12 })
    expectNear(part.xz, m * 50 * 22, { rel: 1e-12 })
    expectNear(part.yz, m * 30 * 22, { rel: 1e-12 })
    expectNear(a.unbalance.x, 1000 * m * 50, { rel: 1e-12 })
    expectNear(a.unbalance.y, 1000 * m * 30, { rel: 1e-12 })
    expectNear(a.couple.x, 1000 * m * 50 * 22, { rel: 1e-12 })
    expectNear(a.couple.y, 1000 * m * 30 * 22, { rel: 1e-12 })
  })

  it('turned a quarter about a chosen point, the block stands where it should', () => {
    const part = partOf([block('b', { x: 50, y: 30 }, [80, 40, 20])])
    const a = all(jobWith({ part, setup: { centre: { x: 10, y: 30 }, turn: 90 } }))
    // 40 mm along +x of the centred point becomes 40 mm along +y of the plate.
    const m = steelBlock(80, 40, 20)
    expectNear(a.unbalance.x, 0, { abs: 1e-9 })
    expectNear(a.unbalance.y, 1000 * m * 40, { rel: 1e-12 })
    expectNear(a.mountedPart.xx, (m * 40 ** 2) / 12, { rel: 1e-9 })
  })

  it('the plate: a ring of its mass behind the face, and its own residual in the plane of the face', () => {
    const base = { part: partOf([disc('d', O, 100, 10)]), plate: { residual: { amount: 5000, angle: 120 } } }
    const a = all(jobWith(base))
    expectNear(a.unbalance.x, -2500, { rel: 1e-9 })
    expectNear(a.unbalance.y, 2500 * Math.sqrt(3), { rel: 1e-9 })
    expectNear(Math.hypot(a.couple.x, a.couple.y), 0, { abs: 1e-9 })
    const disc7850 = Math.PI * 50 ** 2 * 10 * 7850e-9
    const zz = (11 * (150 ** 2 + 19 ** 2)) / 2 + (disc7850 * 50 ** 2) / 2
    expectNear(a.zz, zz, { rel: 1e-12 })
    expectNear(a.total.z, -11 * 14 + disc7850 * (12 + 5), { rel: 1e-12 })
    const none = all(jobWith({ ...base, plate: { residual: null } }))
    expectNear(Math.hypot(none.unbalance.x, none.unbalance.y), 0, { abs: 1e-9 })
  })

  it('hardware: mass at its footprint’s centre and half height unless it says otherwise', () => {
    const triangle = [
      { x: 0, y: 0 },
      { x: 30, y: 0 },
      { x: 0, y: 30 },
    ]
    const u = (more: Partial<Box>) =>
      all(
        jobWith({ setup: { hardware: [piece('w', 2, { x: 0, y: 100 }, { base: 4, height: 20, ...more })] } }),
      )
    const plain = u({})
    expectNear(plain.unbalance.y, 200_000, { rel: 1e-12 })
    expectNear(plain.couple.y, 200_000 * 14, { rel: 1e-12 })
    const outline = u({ footprint: { outline: triangle }, facing: 0 })
    expectNear(outline.unbalance.x, 20_000, { rel: 1e-9 })
    expectNear(outline.unbalance.y, 220_000, { rel: 1e-9 })
    // The mass sits 5 mm along the piece's own length, which faces +y, and 3 mm above its base.
    const own = u({ massCentre: { x: 5, y: 0, z: 3 }, facing: 90 })
    expectNear(own.unbalance.x, 0, { abs: 1e-6 })
    expectNear(own.unbalance.y, 2000 * 105, { rel: 1e-12 })
    expectNear(own.couple.y, 2000 * 105 * 7, { rel: 1e-12 })
  })

  it('hardware turns with the inertia of its footprint as a plate of its height, about its own centre', () => {
    const bare = all(jobWith())
    const own = (more: Partial<Box>) => {
      const a = all(
        jobWith({ setup: { hardware: [piece('w', 2, { x: 0, y: 100 }, { height: 20, ...more })] } }),
      )
      const { xx, yy, xy } = a.total
      return {
        xx: xx - bare.total.xx,
        yy: yy - bare.total.yy,
        xy: xy - bare.total.xy,
      }
    }
    const rect = own({ footprint: { rect: [60, 30] }, facing: 0 })
    expectNear(rect.xx, (2 * 60 ** 2) / 12, { rel: 1e-9 })
    expectNear(rect.yy, 2 * (100 ** 2 + 30 ** 2 / 12), { rel: 1e-9 })
    // A right triangle of 30 mm: b²/18 about its centroid, product −b²/36; its corner stands at (0, 100).
    const corner = [
      { x: 0, y: 0 },
      { x: 30, y: 0 },
      { x: 0, y: 30 },
    ]
    const triangle = own({ footprint: { outline: corner }, facing: 0 })
    expectNear(triangle.xx, 2 * (10 ** 2 + 30 ** 2 / 18), { rel: 1e-9 })
    expectNear(triangle.yy, 2 * (110 ** 2 + 30 ** 2 / 18), { rel: 1e-9 })
    expectNear(triangle.xy, 2 * (10 * 110 - 30 ** 2 / 36), { rel: 1e-9 })
  })

  it('a piece in a slot or a hole stands there, its length along the slot', () => {
    const rect = { footprint: { rect: [60, 20] as const }, height: 10 }
    const mounted = mountSetup(
      jobWith({
        setup: {
          hardware: [piece('s', 1, { slot: 'S2', radius: 100 }, rect), piece('h', 1, { hole: 'H1' }, rect)],
        },
      }),
      'op10',
    )
    const [s, h] = mounted.pieces
    expectNear(s!.at.x, 0, { abs: 1e-9 })
    expectNear(s!.at.y, 100, { rel: 1e-12 })
    expectNear(Math.max(...s!.footprint.map((p) => p.y)), 130, { rel: 1e-12 })
    expect(h!.at).toEqual({ x: 0, y: 70 })
    expectNear(Math.max(...h!.footprint.map((p) => p.y)), 100, { rel: 1e-12 })
    expect(s!.bolt!.diameter).toBe(14)
    expect(h!.bolt!.diameter).toBe(13)
  })

  it('adds its terms up', () => {
    const job = jobWith({
      part: partOf([block('b', { x: 40, y: -12 }, [80, 50, 20])]),
      plate: { residual: { amount: 900, angle: 33 } },
      setup: { hardware: [piece('a', 0.4, { slot: 'S3', radius: 90 }), piece('b', 0.7, { x: 10, y: 110 })] },
    })
    const a = all(job)
    const sum = (key: 'x' | 'y') => a.terms.reduce((s, t) => s + t.unbalance_g_mm[key], 0)
    expectNear(sum('x'), a.unbalance.x, { rel: 1e-12 })
    expectNear(sum('y'), a.unbalance.y, { rel: 1e-12 })
    expectNear(
      a.terms.reduce((s, t) => s + t.mass_kg, 0),
      a.total.m,
      { rel: 1e-12 },
    )
    const { assembly, unbalance } = analyse(job, 'op10')
    const e = Math.hypot(assembly.centroid_mm[0], assembly.centroid_mm[1])
    expectNear(e * 1000, assembly.eccentricity_um, { rel: 1e-12 })
    expectNear(e * 1000 * assembly.mass_kg, unbalance.static_g_mm, { rel: 1e-12 })
  })
})

describe('laws of the assembly', () => {
  const weights = fc.array(fc.record({ mass: mm(0.05, 3), at: point(130) }), { maxLength: 6 })
  const make = (
    list: { mass: number; at: { x: number; y: number } }[],
    more: Partial<Job['setups'][0]> = {},
  ) =>
    jobWith({
      part: partOf([block('b', { x: 40, y: 10 }, [100, 60, 20])]),
      setup: { hardware: list.map(({ mass, at }, i) => piece(`w${i}`, mass, at)), ...more },
    })

  it('is linear: unbalance and couple of two sets of weights add, less what both share', () => {
    fc.assert(
      fc.property(weights, weights, (one, two) => {
        const [a, b, both, bare] = [
          all(make(one)),
          all(make(two)),
          all(make([...one, ...two])),
          all(make([])),
        ]
        for (const axis of ['x', 'y'] as const) {
          expectNear(both.unbalance[axis], a.unbalance[axis] + b.unbalance[axis] - bare.unbalance[axis], {
            abs: 1e-5,
          })
          expectNear(both.couple[axis], a.couple[axis] + b.couple[axis] - bare.couple[axis], { abs: 1e-3 })
        }
        expectNear(both.zz, a.zz + b.zz - bare.zz, { rel: 1e-12 })
      }),
      { numRuns: 50 },
    )
  })

  it('does not care where the part is drawn, if it is centred on the same bore', () => {
    const drawn = (at: { x: number; y: number }, turn: number) =>
      all(
        jobWith({
          part: partOf(
            [block('b', { x: at.x + 40, y: at.y + 10 }, [100, 60, 20]), disc('c', at, 50, 30)],
            [bore('A', at, 30)],
          ),
          setup: { centre: { bore: 'A' }, turn },
        }),
      )
    fc.assert(
      fc.property(point(10_000), degrees, (at, turn) => {
        const [near, far] = [drawn(O, turn), drawn(at, turn)]
        const size = Math.hypot(near.unbalance.x, near.unbalance.y)
        for (const axis of ['x', 'y'] as const) {
          expectNear(far.unbalance[axis], near.unbalance[axis], { abs: 1e-9 * size })
          expectNear(far.couple[axis], near.couple[axis], { abs: 1e-9 * size * 30 })
        }
        expectNear(far.zz, near.zz, { rel: 1e-8 })
      }),
      { numRuns: 50 },
    )
  })

  it('more packing moves no static unbalance, and the couple by U·Δz of the part', () => {
    fc.assert(
      fc.property(mm(0, 60), (packing) => {
        const [a, b] = [all(make([], { packing: 0 })), all(make([], { packing }))]
        expectNear(b.unbalance.x, a.unbalance.x, { rel: 1e-12 })
        expectNear(b.couple.x - a.couple.x, a.unbalance.x * packing, { abs: 1e-9 * Math.abs(b.couple.x) })
      }),
    )
  })
})
