import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Hardware, Job } from '../../../src-core/job/schema.ts'
import { block, bore, boreCut, disc, drillCut, jobWith, partOf, piece } from '../../helpers/jobs.ts'

const codes = (job: Job) => analyse(job, 'op10').findings.map((f) => `${f.severity} ${f.code} ${f.item}`)
const has = (job: Job, code: string) => codes(job).some((c) => c.startsWith(code))
const hardware = (...list: Hardware[]): Job => jobWith({ setup: { hardware: list } })

describe('hardware', () => {
  test('two pieces in one place clash; apart in plan or in height they do not', () => {
    const a = piece('a', 1, { x: 100, y: 0 })
    expect(codes(hardware(a, piece('b', 1, { x: 120, y: 0 })))).toContain('stop hardware-clash a')
    expect(has(hardware(a, piece('b', 1, { x: 141, y: 0 })), 'stop hardware-clash')).toBe(false)
    expect(has(hardware(a, piece('b', 1, { x: 120, y: 0 }, { base: 20 })), 'stop hardware-clash')).toBe(false)
  })

  test('a weight that runs into the part; under it, above it or in its hole it does not', () => {
    const at = { x: 55, y: 0 }
    // The disc of 120 stands 12 to 32 above the plate.
    expect(codes(hardware(piece('w', 1, at)))).toContain('stop part-clash w')
    expect(has(hardware(piece('w', 1, at, { height: 12 })), 'stop part-clash')).toBe(false)
    expect(has(hardware(piece('w', 1, at, { base: 32 })), 'stop part-clash')).toBe(false)
    const holed = partOf([
      block('b', { x: 0, y: 0 }, [200, 120, 20], {
        holes: [
          [
            { x: 30, y: 0, bulge: 1 },
            { x: 80, y: 0, bulge: 1 },
          ],
        ],
      }),
    ])
    expect(has(jobWith({ part: holed, setup: { hardware: [piece('w', 1, at)] } }), 'stop part-clash')).toBe(
      false,
    )
  })

  test('a clamp reaches over the part, but its bolt must not go through it', () => {
    const clamp = (radius: number) =>
      piece(
        'c',
        0.5,
        { slot: 'S1', radius },
        { kind: 'press', footprint: { rect: [90, 28] }, base: 32, height: 40 },
      )
    expect(has(hardware(clamp(80)), 'stop part-clash')).toBe(false)
    expect(has(hardware(clamp(80)), 'stop bolt-covered')).toBe(false)
    expect(codes(hardware(clamp(60)))).toContain('stop bolt-covered c')
  })

  test('slot ends, rim and overhang', () => {
    expect(codes(hardware(piece('w', 1, { slot: 'S1', radius: 140 })))).toContain('stop outside-slot w')
    expect(codes(hardware(piece('w', 1, { x: 160, y: 0 })))).toContain('stop off-plate w')
    expect(codes(hardware(piece('w', 1, { slot: 'S1', radius: 134 })))).toContain('caution overhangs-plate w')
    expect(has(hardware(piece('w', 1, { slot: 'S1', radius: 128 })), 'caution overhangs-plate')).toBe(false)
  })
})

const boring = (
  packing: number,
  diameter: number,
  start: number,
  more: { drill?: number; plateBore?: number; hardware?: Hardware[]; depth?: number } = {},
): Job =>
  jobWith({
    plate: { bore: more.plateBore ?? 38 },
    part: partOf(
      [
        disc(
          'd',
          { x: 0, y: 0 },
          120,
          20,
          start > 0
            ? {
                holes: [
                  [
                    { x: -start / 2, y: 0, bulge: 1 },
                    { x: start / 2, y: 0, bulge: 1 },
                  ],
                ],
              }
            : {},
        ),
      ],
      [bore('A', { x: 0, y: 0 }, diameter, { start, depth: more.depth ?? null })],
    ),
    setup: {
      centre: { bore: 'A' },
      packing,
      cuts: [...(more.drill ? [drillCut('A', more.drill)] : []), boreCut('A')],
      hardware: more.hardware ?? [],
    },
  })

describe('bore, bar and breakthrough', () => {
  test('a 118° point is 0.30 of the drill: 42 mm needs 12.6 mm of packing', () => {
    expect(codes(boring(12, 42, 0))).toContain('stop breakthrough-plate A')
    expect(has(boring(13, 42, 0), 'stop breakthrough')).toBe(false)
    expect(has(boring(12, 42, 0, { plateBore: 50 }), 'stop breakthrough')).toBe(false)
  })

  test('a smaller drill needs less, a boring tool its run-out, and a blind bore nothing', () => {
    expect(has(boring(8, 42, 0, { drill: 25 }), 'stop breakthrough')).toBe(false)
    expect(codes(boring(0.5, 42, 38))).toContain('stop breakthrough-plate A')
    expect(has(boring(2, 42, 38), 'stop breakthrough')).toBe(false)
    expect(has(boring(0.5, 42, 38, { depth: 10 }), 'stop breakthrough')).toBe(false)
  })

  test('packing under the bore, and a piece in the bar’s path', () => {
    const pack = piece(
      'p',
      0.1,
      { x: 18, y: 0 },
      { kind: 'packing', footprint: { rect: [20, 20] }, height: 12 },
    )
    expect(codes(boring(12, 42, 38, { hardware: [pack] }))).toContain('stop breakthrough-packing p')
    const clear = { ...pack, at: { x: 40, y: 0 } }
    expect(has(boring(12, 42, 38, { hardware: [clear] }), 'stop breakthrough-packing')).toBe(false)
    const over = piece('o', 0.1, { x: 25, y: 0 }, { kind: 'other', footprint: { circle: 20 }, base: 32 })
    expect(codes(boring(12, 42, 38, { hardware: [over] }))).toContain('stop in-bar-path o')
    expect(
      has(boring(12, 42, 38, { hardware: [{ ...over, at: { x: 32, y: 0 } }] }), 'stop in-bar-path'),
    ).toBe(false)
  })

  test('a bore to be cut must stand on the axis', () => {
    const job = boring(12, 42, 38)
    const off = { ...job, setups: job.setups.map((s) => ({ ...s, centre: { x: 3, y: 0 } })) }
    expect(codes(off)).toContain('stop bore-off-axis A')
    expect(has(job, 'stop bore-off-axis')).toBe(false)
  })
})

describe('the part as described', () => {
  test('bodies that overlap in plan and height are reported with the doubled mass', () => {
    const a = block('a', { x: 0, y: 0 }, [100, 40, 20])
    const f = (base: number) =>
      analyse(
        jobWith({ part: partOf([a, block('b', { x: 40, y: 0 }, [40, 40, 20], { base })]) }),
        'op10',
      ).findings.find((x) => x.code === 'bodies-overlap')
    // 30 × 40 mm over 10 mm of steel: 94 g.
    expect(f(10)!.message).toContain('94 g')
    expect(f(20)).toBeUndefined()
  })

  test('a weighing more than 10 % off is questioned, with the density it implies', () => {
    const mass = (Math.PI * 60 ** 2 * 20 * 7850) / 1e9
    const weighed = (factor: number) =>
      jobWith({ part: partOf([disc('d', { x: 0, y: 0 }, 120, 20)], [], { weighedMass: mass * factor }) })
    expect(codes(weighed(1.12))).toContain('caution density-questioned part')
    expect(codes(weighed(0.88))).toContain('caution density-questioned part')
    expect(has(weighed(1.08), 'caution density-questioned')).toBe(false)
    expect(analyse(weighed(1.08), 'op10').part.implied_density_kg_m3).toBeCloseTo(7850 * 1.08, 6)
  })
})
