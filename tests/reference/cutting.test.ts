import { describe, expect, test } from 'vitest'
import { boringForce, boringTorque, reamingForce } from '../../src-core/cutting/forces.ts'
import {
  CUTTING_GROUPS,
  findGroup,
  specificCuttingForce,
  type CuttingGroup,
} from '../../src-core/cutting/groups.ts'
import { cuttingRpm, speedToSet, surfaceSpeed } from '../../src-core/cutting/rpm.ts'
import { advisedSpeed } from '../../src-core/cutting/speeds.ts'
import { rimRpm, IRON_RIM_SPEED } from '../../src-core/checks/rating.ts'
import { jobWith, steps } from '../helpers/jobs.ts'
import { expectNear } from '../helpers/near.ts'

const { lathe } = jobWith()
const setOf = (rpms: readonly number[], ideal: number) =>
  speedToSet({ ...lathe, speeds: steps(...rpms) }, ideal)

const curve = (kc11: number, mc: number): CuttingGroup => ({
  id: 'brass',
  drillFactors: { handbook: null, maker: null },
  curves: [{ kc11, mc, source: 'test' }],
})

describe('tangential force at 2 mm depth, κ = 90° (Kienzle with the k_c1.1 and m_c of a carbide maker’s VDI 3323 table)', () => {
  test.each([
    ['P1', 1350, 0.21, 437.9, 757.1, 1043.0],
    ['P2', 1500, 0.22, 497.9, 854.9, 1172.9],
    ['M14', 2150, 0.2, 681.5, 1186.6, 1641.2],
    ['K15', 1150, 0.2, 364.5, 634.7, 877.9],
    ['K17', 1225, 0.25, 435.7, 732.7, 993.1],
    ['aluminium', 800, 0.25, 284.5, 478.5, 648.6],
    ['brass', 700, 0.27, 260.7, 432.4, 581.3],
  ] as const)('%s', (_, kc11, mc, at01, at02, at03) => {
    for (const [feed, force] of [
      [0.1, at01],
      [0.2, at02],
      [0.3, at03],
    ] as const)
      expectNear(boringForce(curve(kc11, mc), 2, feed), force, { abs: 0.06 })
  })

  /** k_c by feed printed by a tool maker (mild steel 520 MPa; grey iron 200 HB): the fitted curves lie within 3 %. */
  test.each([
    ['low-carbon steel', [3610, 3100, 2720, 2500, 2280]],
    ['grey cast iron', [2110, 1800, 1600, 1400, 1330]],
  ] as const)('%s: the group is never below the printed k_c', (id, printed) => {
    const group = findGroup(id)!
    const feeds = [0.1, 0.2, 0.3, 0.4, 0.6]
    feeds.forEach((feed, i) => expect(specificCuttingForce(group, feed)).toBeGreaterThan(printed[i]! * 0.96))
  })

  test('where sources disagree the higher is taken', () => {
    for (const group of CUTTING_GROUPS)
      for (const c of group.curves)
        expect(specificCuttingForce(group, 0.2)).toBeGreaterThanOrEqual(c.kc11 * 0.2 ** -c.mc - 1e-9)
  })

  test('a tool maker’s power example: v_c 120, a_p 3, f 0.2, k_c 3100, η 0.8 is 4.65 kW', () => {
    const force = 3100 * 3 * 0.2
    expectNear((force * 120) / 60_000 / 0.8, 4.65, { abs: 1e-9 })
    expectNear(boringForce(curve(3100 / 0.2 ** -0.25, 0.25), 3, 0.2), force, { rel: 1e-12 })
  })

  test('a reamer’s edges share the feed: thinner chips, more force than one edge would make', () => {
    const iron = findGroup('grey cast iron')!
    expect(reamingForce(iron, 0.1, 0.4)).toBeGreaterThan(boringForce(iron, 0.1, 0.4))
    // Eight edges: k_c1.1·(f/8)^(−m)·a·f.
    expectNear(reamingForce(curve(1000, 0.25), 0.1, 0.4), 1000 * 0.05 ** -0.25 * 0.1 * 0.4, { rel: 1e-12 })
  })

  test('torque is force at the bore’s radius', () => expect(boringTorque(500, 42)).toBeCloseTo(10.5, 12))
})

describe('cutting speeds', () => {
  test('common practice, no source: a 31 mm bore at 155 rpm is about 15 m/min and suits steel with high-speed steel', () => {
    const speed = surfaceSpeed(31, 155)
    expectNear(speed, 15, { abs: 0.2 })
    const [low, high] = advisedSpeed('low-carbon steel', 'HSS', 'bore')!.range
    expect(speed).toBeGreaterThanOrEqual(low)
    expect(speed).toBeLessThanOrEqual(high)
    expect(setOf([45, 70, 110, 155, 240], cuttingRpm(15.2, 31))).toBe(155)
  })

  test('n = 1000·v/(π·D); in inches n ≈ 3.82·ft/min over D', () => {
    expectNear(cuttingRpm(20, 42), 151.576, { abs: 1e-3 })
    expectNear(cuttingRpm((100 * 304.8) / 1000, 25.4), 382, { abs: 0.1 })
  })

  test('the gear is the nearest by ratio that is not more than a fifth too fast, and none is null', () => {
    expect(setOf([45, 70, 110], 110)).toBe(110)
    // 160 against 159 wanted is the right gear.
    expect(setOf([110, 160, 240], 159)).toBe(160)
    // 110/92 is 1.196, under a fifth; 110/91 is 1.209.
    expect(setOf([60, 110], 92)).toBe(110)
    expect(setOf([60, 110], 91)).toBe(60)
    expect(setOf([45, 70], 38)).toBe(45)
    expect(setOf([45, 70], 37)).toBeNull()
  })

  test('iron goes slower than aluminium, carbide faster than high-speed steel', () => {
    const top = (...of: Parameters<typeof advisedSpeed>) => advisedSpeed(...of)?.range[1]
    expect(top('grey cast iron', 'HSS', 'bore')!).toBeLessThan(top('wrought aluminium', 'HSS', 'bore')!)
    for (const { id } of CUTTING_GROUPS)
      for (const kind of ['turn', 'drill', 'ream'] as const) {
        const hss = top(id, 'HSS', kind)
        if (hss) expect(top(id, 'carbide', kind)!).toBeGreaterThan(hss)
      }
  })
})

/** Rim speed 6500 ft/min above which iron sheaves need special consideration (MPTA-B13i-2013). */
test.each([
  [9, 2759],
  [12, 2069],
  [18, 1379],
  [24, 1035],
] as const)('a %i in iron rim reaches it at %i rpm', (inches, rpm) => {
  expectNear(IRON_RIM_SPEED, 33.02, { abs: 5e-3 })
  expectNear(rimRpm(inches * 25.4, IRON_RIM_SPEED), rpm, { abs: 0.6 })
})
