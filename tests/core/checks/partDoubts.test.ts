import { describe, expect, it, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import type { Job, Part } from '../../../src-core/job/schema.ts'
import { boreCut, block, bore, disc, jobWith, partOf, piece } from '../../helpers/jobs.ts'

const O = { x: 0, y: 0 }
const found = (j: Job, code: string, setup = 'op10') =>
  analyse(j, setup).findings.find((f) => f.code === code)
const withPart = (part: Part, setup: Partial<Job['setups'][0]> = {}) => jobWith({ part, setup })

describe('bores', () => {
  const plain = block('b', O, [100, 60, 20])
  const boring = (b: ReturnType<typeof bore>, body = plain) =>
    withPart(partOf([body], [b]), { centre: { bore: 'A' }, cuts: [boreCut('A')] })

  it('that meet no material', () => {
    expect(found(boring(bore('A', { x: 200, y: 0 }, 30)), 'bore-in-air')).toMatchObject({ item: 'A' })
    expect(found(boring(bore('A', O, 30)), 'bore-in-air')).toBeUndefined()
  })

  it('that are said to start from a hole which is not drawn', () => {
    expect(found(boring(bore('A', O, 30, { start: 20 })), 'bore-start-solid')).toMatchObject({ item: 'A' })
    const drawn = { ...plain, holes: [circleRing(O, 20)] }
    expect(found(boring(bore('A', O, 30, { start: 20 }), drawn), 'bore-start-solid')).toBeUndefined()
    expect(found(boring(bore('A', O, 30)), 'bore-start-solid')).toBeUndefined()
  })
})

describe('material and weighing', () => {
  it('a density that does not suit the material named is questioned beyond ten per cent', () => {
    const with_ = (material: string, density: number) =>
      found(withPart(partOf([disc('d', O, 100, 10)], [], { material, density })), 'density-unlikely')
    expect(with_('steel', 7850)).toBeUndefined()
    expect(with_('steel', 7200)).toBeUndefined()
    expect(with_('steel', 5000)).toMatchObject({ severity: 'caution', item: 'part' })
    expect(with_('something of my own', 2700)).toBeUndefined()
  })

  it.each([
    ['a tenth of it', 'steel', 785, null],
    ['a third of it', 'steel', 2700, null],
    ['ten times it', 'steel', 78_500, null],
    ['of nothing that is turned', 'something of my own', 72, null],
    // A disc of 100 by 10 of steel is 0.617 kg.
    ['weighed at a third', 'steel', 7850, 0.2],
  ] as const)('what cannot be is not judged: %s', (_, material, density, weighedMass) => {
    const part = partOf([disc('d', O, 100, 10)], [], { material, density, weighedMass })
    expect(found(withPart(part), 'density-contradicted')).toMatchObject({ item: 'part', effect: 'unknown' })
  })

  it('weighed, the density written is no matter; a body has its own', () => {
    const weighed = partOf([disc('d', O, 100, 10)], [], { material: 'steel', density: 72, weighedMass: 0.6 })
    expect(found(withPart(weighed), 'density-contradicted')).toBeUndefined()
    const light = partOf([disc('d', O, 100, 10, { density: 27 })], [], { material: 'steel', density: 7850 })
    expect(found(withPart(light), 'density-contradicted')).toMatchObject({ item: 'd' })
  })
})

describe('overlapping bodies', () => {
  const a = block('a', O, [100, 40, 20])
  const over = (...more: Part['bodies']) => found(withPart(partOf([a, ...more])), 'bodies-overlap')

  it('side by side, stacked, and in the hole of another they do not overlap', () => {
    expect(over(block('b', { x: 60, y: 0 }, [20, 40, 20]))).toBeUndefined()
    expect(over(disc('b', O, 30, 10, { base: 20 }))).toBeUndefined()
    const holed = { ...a, holes: [circleRing(O, 30)] }
    expect(found(withPart(partOf([holed, disc('b', O, 30, 20)])), 'bodies-overlap')).toBeUndefined()
  })

  it('a tenth of a millimetre is an overlap, a boss drawn along the arc of a web is none', () => {
    expect(over(block('b', { x: 59.9, y: 0 }, [20, 40, 20]))).toBeDefined()
    // The sector below a disc of 76, from its flank down.
    const meets = -Math.sqrt(38 ** 2 - 26.6 ** 2)
    const web: Part['bodies'][number] = {
      id: 'web', effect: 'adds', base: 0, thickness: 60, holes: [],
      outline: [
        { x: -28, y: -41 }, { x: 28, y: -41 },
        { x: 26.6, y: meets, bulge: -Math.tan(Math.asin(26.6 / 38) / 2) }, { x: -26.6, y: meets },
      ],
    } // prettier-ignore
    expect(found(withPart(partOf([web, disc('boss', O, 76, 80)])), 'bodies-overlap')).toBeUndefined()
  })

  it('the doubled mass goes by the density of the second, and the place is in the overlap', () => {
    const one = over(block('b', { x: 40, y: 0 }, [40, 40, 20], { base: 10, density: 2700 }))!
    // 30 × 40 × 10 mm at 2700 kg/m³: 32 g.
    expect(one.message).toContain('32 g')
    expect(one.at!.x).toBeGreaterThan(20)
    expect(one.at!.x).toBeLessThan(50)
  })

  it('of very many pairs the first are named, and that there are more', () => {
    const heap = (n: number) =>
      analyse(
        withPart(partOf(Array.from({ length: n }, (_, i) => disc(`d${i}`, { x: i, y: 0 }, 30, 20)))),
        'op10',
      )
        .findings.filter((f) => f.code === 'bodies-overlap')
        .map((f) => f.message)
    // 36 pairs of 9, 45 of 10.
    expect(heap(9)).toHaveLength(36)
    expect(heap(9).at(-1)).not.toMatch(/^More/)
    expect(heap(10)).toHaveLength(41)
    expect(heap(10).at(-1)).toMatch(/^More than 40 pairs of bodies overlap/)
  })

  it('a pocket right through the overlap takes it away again', () => {
    const twin = block('b', { x: 40, y: 0 }, [40, 40, 20])
    const pocket = block('p', { x: 35, y: 0 }, [30, 40, 20], { effect: 'removes' })
    expect(over(twin)).toBeDefined()
    expect(over(twin, pocket)).toBeUndefined()
  })
})

describe('what stands in the way depends on what is gone', () => {
  // A weight of 30 mm stands 12 to 32 mm off the plate, where the part is unless it has a hole there.
  const weight = piece('w', 1, { x: 60, y: 0 }, { footprint: { circle: 30 }, base: 12, height: 20 })
  const plain = block('b', { x: 30, y: 0 }, [160, 80, 20])

  it('a bore that an earlier setup cut lets it in; one that is still to come does not', () => {
    const job = jobWith({
      part: partOf([plain], [bore('A', { x: 60, y: 0 }, 40), bore('B', O, 30)]),
      setups: [
        { centre: { bore: 'A' }, cuts: [boreCut('A')] },
        { centre: { bore: 'B' }, cuts: [boreCut('B')], hardware: [weight] },
      ],
    })
    expect(found(job, 'part-clash', 'op20')).toBeUndefined()
    const first = { ...job, setups: [job.setups[1]!] }
    expect(found(first, 'part-clash', 'op20')).toMatchObject({ item: 'w', severity: 'stop' })
  })

  it('a pocket through the whole height lets it in; a shallow one does not', () => {
    const pocket = (base: number, thickness: number) =>
      withPart(partOf([plain, disc('p', { x: 60, y: 0 }, 40, thickness, { effect: 'removes', base })]), {
        hardware: [weight],
      })
    expect(found(pocket(0, 20), 'part-clash')).toBeUndefined()
    expect(found(pocket(10, 10), 'part-clash')).toBeDefined()
  })
})

describe('outlines and packing', () => {
  it('a faulty outline is a stop, and the checks that need it are not made', () => {
    const bow = [
      { x: -50, y: -50 },
      { x: 50, y: 50 },
      { x: 50, y: -50 },
      { x: -50, y: 30 },
    ]
    const job = withPart(partOf([block('b', O, [1, 1, 20], { outline: bow })]), {
      hardware: [piece('a', 1, { x: 100, y: 0 }), piece('b', 1, { x: 110, y: 0 })],
    })
    const { findings } = analyse(job, 'op10')
    expect(findings.find((f) => f.code === 'outline-fault')).toMatchObject({ severity: 'stop', item: 'b' })
    expect(findings.some((f) => f.code === 'hardware-clash')).toBe(false)
  })

  it('packing that is said and not there is a stop', () => {
    const part = partOf([disc('d', O, 100, 10)])
    expect(found(withPart(part), 'part-not-carried')).toMatchObject({ severity: 'stop' })
    expect(found(withPart(part, { packing: 0 }), 'part-not-carried')).toBeUndefined()
    const pack = piece('p', 0.1, { x: 30, y: 0 }, { kind: 'packing', height: 12 })
    expect(found(withPart(part, { hardware: [pack] }), 'part-not-carried')).toBeUndefined()
  })
})

test('a cored hole is not called solid for what lies behind a blind bore', () => {
  const base = block('base', O, [100, 60, 10])
  const boss = disc('boss', O, 50, 30, { base: 10, holes: [circleRing(O, 20)] })
  const blind = bore('A', O, 30, { start: 20, depth: 30 })
  const job = (b: typeof blind) =>
    withPart(partOf([base, boss], [b]), { centre: { bore: 'A' }, cuts: [boreCut('A')] })
  expect(found(job(blind), 'bore-start-solid')).toBeUndefined()
  expect(found(job({ ...blind, depth: 35 }), 'bore-start-solid')).toBeDefined()
})
