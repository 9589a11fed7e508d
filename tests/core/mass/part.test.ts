import { describe, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import { centreOfMass } from '../../../src-core/mass/massMoments.ts'
import { partMass } from '../../../src-core/mass/part.ts'
import { expectNear } from '../../helpers/near.ts'
import { boreCut, block, bore, disc, jobWith, partOf } from '../../helpers/jobs.ts'
import { manifoldPrism } from '../../helpers/peers.ts'
import { Solid, meshOf, type Manifold } from '../../helpers/solids.ts'

const STEEL = 7850e-9
const meshArrays = (solid: Manifold) => {
  const { vertices, triangles } = meshOf(solid)
  return { vertices: Array.from(vertices), triangles: Array.from(triangles) }
}
const at = (x: number, y: number) => ({ x, y })

describe('meshes', () => {
  test('a removing mesh takes away what an adding one of its shape would add: mass, plan area and moments', () => {
    const box = (id: string, effect: 'adds' | 'removes', sides: [number, number, number], x: number) => ({
      id,
      effect,
      density: null,
      base: 0,
      mesh: meshArrays(Solid.cube(sides).translate([x, 0, 0])),
    })
    const whole = box('whole', 'adds', [100, 60, 20], 0)
    const { moments, area, volume } = partMass(partOf([whole, box('slot', 'removes', [20, 60, 20], 80)]), [])
    expectNear(moments.m, 80 * 60 * 20 * STEEL, { rel: 1e-12 })
    expectNear(area, 80 * 60, { rel: 1e-12 })
    expectNear(volume, 80 * 60 * 20, { rel: 1e-12 })
    expectNear(centreOfMass(moments).x, 40, { rel: 1e-12 })
    expectNear(moments.xx, ((80 ** 3 * 60 * 20) / 3) * STEEL, { rel: 1e-12 })
    expectNear(moments.xz, 80 * 40 * 60 * 20 * 10 * STEEL, { rel: 1e-12 })
  })
})

describe('bores', () => {
  const plain = block('b', at(0, 0), [100, 60, 20])

  test('a through bore takes its annulus, a blind one its depth', () => {
    const whole = partMass(partOf([plain]), []).moments
    expectNear(whole.m, 100 * 60 * 20 * STEEL, { rel: 1e-12 })
    const through = bore('A', at(20, 0), 30)
    const cut = partMass(partOf([plain], [through]), [through])
    expectNear(cut.moments.m, (6000 - Math.PI * 225) * 20 * STEEL, { rel: 1e-12 })
    expectNear(cut.area, 6000 - Math.PI * 225, { rel: 1e-12 })
    expectNear(centreOfMass(cut.moments).x, (-20 * Math.PI * 225) / (6000 - Math.PI * 225), { rel: 1e-12 })
    const blind = bore('A', at(20, 0), 30, { depth: 8 })
    const shallow = partMass(partOf([plain], [blind]), [blind])
    expectNear(shallow.moments.m, (6000 * 20 - Math.PI * 225 * 8) * STEEL, { rel: 1e-12 })
    expectNear(shallow.area, 6000, { rel: 1e-12 })
    expectNear(
      centreOfMass(shallow.moments).z,
      (6000 * 20 * 10 - Math.PI * 225 * 8 * 16) / (6000 * 20 - Math.PI * 225 * 8),
      { rel: 1e-12 },
    )
  })

  test('with a drawn start hole only the annulus goes', () => {
    const started = { ...plain, holes: [circleRing(at(0, 0), 20)] }
    const b = bore('A', at(0, 0), 30, { start: 20 })
    const mass = partMass(partOf([started], [b]), [b]).moments.m
    expectNear(mass, (6000 - Math.PI * 225) * 20 * STEEL, { rel: 1e-12 })
  })

  test('a bore over the edge, through two bodies and a pocket, against solids cut by manifold-3d', () => {
    const boss = disc('boss', at(40, 10), 50, 15, { base: 20 })
    const pocket = block('pocket', at(-20, 0), [30, 20, 8], { effect: 'removes', base: 12 })
    const b = bore('A', at(35, 18), 36)
    const p = partMass(partOf([plain, boss, pocket], [b]), [b])
    const tool = manifoldPrism({ outline: circleRing(b, b.diameter), holes: [] }, -1, 50)
    const volumes = [plain, boss, pocket].map((body) => {
      const solid = manifoldPrism(
        { outline: body.outline, holes: body.holes },
        body.base,
        body.base + body.thickness,
      )
      const rest = solid.subtract(tool)
      const v = rest.volume()
      for (const s of [solid, rest]) s.delete()
      return v * (body.effect === 'adds' ? 1 : -1)
    })
    tool.delete()
    expectNear(
      p.volume,
      volumes.reduce((a, v) => a + v, 0),
      { rel: 1e-5 },
    )
    expectNear(p.moments.m, p.volume * STEEL, { rel: 1e-12 })
  })
})

describe('weighing and setups', () => {
  const part = partOf(
    [block('b', at(0, 0), [100, 60, 20])],
    [bore('A', at(20, 0), 30), bore('B', at(-20, 0), 30)],
  )

  test('a weighed mass scales the part as drawn; bores are taken from it after', () => {
    const weighed = { ...part, weighedMass: 1.5 }
    expectNear(partMass(weighed, []).moments.m, 1.5, { rel: 1e-12 })
    expectNear(partMass(weighed, [part.bores[0]!]).moments.m, (1.5 * (6000 - Math.PI * 225)) / 6000, {
      rel: 1e-12,
    })
  })

  test('what an earlier setup bored is gone; boring on the axis hardly changes the unbalance', () => {
    const job = jobWith({
      part,
      setups: [
        { centre: { bore: 'A' }, cuts: [boreCut('A')] },
        { centre: { bore: 'B' }, cuts: [boreCut('B')] },
      ],
    })
    const [first, second] = [analyse(job, 'op10'), analyse(job, 'op20')]
    expectNear(first.part.mass_kg, 6000 * 20 * STEEL, { rel: 1e-12 })
    expectNear(second.part.mass_kg, (6000 - Math.PI * 225) * 20 * STEEL, { rel: 1e-12 })
    for (const a of [first, second])
      expectNear(a.unbalance.after_cut_g_mm, a.unbalance.static_g_mm, { rel: 1e-9 })
    // Bore A's missing disc stands 40 mm from bore B.
    expectNear(
      second.unbalance.static_g_mm,
      6000 * 20 * STEEL * 1000 * 20 - Math.PI * 225 * 20 * STEEL * 1000 * 40,
      { rel: 1e-9 },
    )
  })

  test('a setup with no cut cuts nothing', () => {
    const job = jobWith({ part, setups: [{ centre: { bore: 'A' } }, { centre: { bore: 'B' } }] })
    expectNear(analyse(job, 'op20').part.mass_kg, 6000 * 20 * STEEL, { rel: 1e-12 })
  })
})
