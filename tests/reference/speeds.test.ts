import { describe, expect, test } from 'vitest'
import { CUTTING_GROUPS, ROW_FEEDS, findGroup, specificCuttingForce } from '../../src-core/cutting/groups.ts'
import { CUTTING_SPEEDS, advisedSpeed, type SpeedRange } from '../../src-core/cutting/speeds.ts'
import { findMaterial, MATERIALS } from '../../src-core/job/materials.ts'
import { convert } from '../../src-core/units/convert.ts'
import { expectNear } from '../helpers/near.ts'

const feet = (fpm: number) => convert(fpm, 'ft', 'm')
const expectRange = (range: SpeedRange, low: number, high: number, abs: number) => {
  expectNear(range[0], low, { abs })
  expectNear(range[1], high, { abs })
}
const entry = (group: string) => CUTTING_SPEEDS.find((e) => e.group === group)!

describe('cutting speeds', () => {
  /** Drilling with high-speed steel, ft/min (US Navy training manual for machinery repairmen). */
  test.each([
    ['low-carbon steel', 80, 110],
    ['medium-carbon steel', 70, 80],
    ['alloy steel', 50, 70],
    ['stainless steel', 30, 40],
    ['grey cast iron', 70, 150],
    ['brass', 200, 300],
    ['wrought aluminium', 200, 300],
  ])('drilling %s: %i to %i ft/min', (group, low, high) => {
    expectRange(entry(group).drilling!.range, feet(low), feet(high), 0.5)
  })

  /** Turning with high-speed steel, m/min (tutorial table of nominal cutting speeds): the highest figure. */
  test.each([
    ['low-carbon steel', 45],
    ['stainless steel', 18],
    ['grey cast iron', 30],
    ['brass', 120],
    ['wrought aluminium', 150],
  ])('turning %s: up to %i m/min', (group, high) => expect(entry(group).turning.range[1]).toBe(high))

  /** Turning, ft/min (Jones, Turning and Boring, 1914): the careful lower end. */
  test.each([
    ['low-carbon steel', 45],
    ['grey cast iron', 40],
    ['bronze', 35],
  ])('turning %s from 1914’s %i ft/min', (group, low) =>
    expectNear(entry(group).turning.range[0], feet(low), { abs: 0.4 }),
  )

  /**
   * ft/min with high-speed steel: a machine maker's manual (tool steel 50, titanium 50, copper 100, cast steel 80, hard
   * alloy steel 40), a tool dealer's table (A2 from 80, 1027 to 1052 from 55), USAF TO 1-1A-9 (303 and 416: 25 to 105).
   */
  test.each([
    ['tool steel', 50, 80],
    ['titanium', 30, 50],
    ['copper', 70, 100],
    ['cast steel', 70, 80],
    ['alloy steel', 40, 70],
    ['medium-carbon steel', 55, 90],
    ['free-cutting stainless steel', 25, 105],
  ])('turning %s: %i to %i ft/min', (group, low, high) =>
    expectRange(entry(group).turning.range, feet(low), feet(high), 0.5),
  )

  test('phosphor bronze is not turned at brass’s speeds, nor tool steel held to 1914’s', () => {
    expect(findMaterial('phosphor bronze')!.group).toBe('bronze')
    expect(advisedSpeed('bronze', 'HSS', 'bore')!.range[1]).toBeLessThan(85)
    expect(advisedSpeed('bronze', 'HSS', 'drill')!.range[1]).toBeLessThan(85)
    // 35 ft/min was the highest for annealed tool steel in 1914.
    expect(advisedSpeed('tool steel', 'HSS', 'bore')!.range[1]).toBeGreaterThan(feet(35))
  })

  /** Stainless steel 302 to 316, carbide: rough 150–200, finish to 300 ft/min (USAF TO 1-1A-9). */
  test('carbide on stainless steel', () => {
    expectRange(advisedSpeed('stainless steel', 'carbide', 'turn')!.range, feet(150), feet(300), 0.5)
  })

  test('carbide is three to six times high-speed steel in turning; a drill two to three times', () => {
    expect(advisedSpeed('low-carbon steel', 'carbide', 'bore')!.range).toEqual([3 * 13.7, 270])
    expect(advisedSpeed('alloy steel', 'carbide', 'drill')!.range).toEqual([30, 63])
  })

  test('a reamer runs at a third to half of the drill’s speed', () => {
    expectRange(advisedSpeed('low-carbon steel', 'HSS', 'ream')!.range, 24 / 3, 34 / 2, 1e-9)
  })

  test('every group has a range, in order, with what it rests on; memory is said', () => {
    for (const { id } of CUTTING_GROUPS) {
      const { range, basis } = advisedSpeed(id, 'HSS', 'turn')!
      expect(range[0]).toBeGreaterThan(0)
      expect(range[1]).toBeGreaterThan(range[0])
      expect(basis).toContain('turning figures')
      expect(basis.includes('memory')).toBe(entry(id).turning.source.includes('memory'))
    }
    for (const { group } of MATERIALS) if (group) expect(findGroup(group)).not.toBeNull()
  })
})

/** k_c in N/mm² at 0.1, 0.2, 0.3, 0.4 and 0.6 mm (Mitsubishi Materials, Formulae for Cutting Power, turning). */
test.each([
  ['low-carbon steel', [3610, 3100, 2720, 2500, 2280]],
  ['medium-carbon steel', [4050, 3600, 3250, 2950, 2640]],
  ['alloy steel', [4510, 3900, 3400, 3150, 2850]],
] as const)('%s: the highest printed k_c is used at each feed', (id, printed) => {
  const group = findGroup(id)!
  ROW_FEEDS.forEach((feed, i) => expectNear(specificCuttingForce(group, feed), printed[i]!, { rel: 1e-9 }))
})

test('k_c falls as the chip thickens, between the printed feeds and beyond them', () => {
  for (const group of CUTTING_GROUPS)
    for (let h = 0.02; h < 2; h *= 1.1)
      expect(specificCuttingForce(group, h * 1.1)).toBeLessThan(specificCuttingForce(group, h))
})

test('a harder steel is never reckoned to cut with less force than mild steel', () => {
  const mild = findGroup('low-carbon steel')!
  for (const id of ['medium-carbon steel', 'alloy steel', 'tool steel'] as const)
    for (const feed of ROW_FEEDS)
      expect(specificCuttingForce(findGroup(id)!, feed)).toBeGreaterThanOrEqual(
        specificCuttingForce(mild, feed),
      )
})

/** kg/m³; the sources print ranges (Gere, Mechanics of Materials, and tables of metals, die castings and plastics). */
describe('densities', () => {
  test.each([
    ['mild steel', 7850, 7850],
    ['grey cast iron', 7000, 7400],
    ['ductile iron', 7100, 7200],
    ['stainless 304', 7480, 8000],
    ['6061', 2700, 2720],
    ['brass', 8400, 8730],
    ['phosphor bronze', 8780, 8920],
    ['copper', 8900, 8960],
    ['titanium', 4500, 4500],
    ['magnesium alloy', 1760, 1870],
    ['lead', 11_340, 11_340],
    ['steel casting', 7800, 7860],
    ['free-cutting steel', 7800, 7900],
    ['aluminium bronze', 7500, 7800],
    ['babbitt', 7270, 10_500],
    ['303', 7480, 8030],
    ['zinc', 7135, 7135],
    ['Zamak 3', 6600, 6600],
    ['POM', 1410, 1410],
    ['cast nylon', 1160, 1160],
    ['PTFE', 2140, 2200],
    ['oak', 640, 720],
  ])('%s lies in %i to %i', (name, low, high) => {
    const { density } = findMaterial(name)!
    expect(density).toBeGreaterThanOrEqual(low)
    expect(density).toBeLessThanOrEqual(high)
  })

  test('names are found whatever their case and punctuation, mean one thing each, and nothing else is found', () => {
    for (const name of ['Low-Carbon  STEEL', 'low carbon steel', 'LOW_CARBON_STEEL'])
      expect(findMaterial(name)?.name).toBe('mild steel')
    expect(findMaterial('Aluminum 6061')?.name).toBe('aluminium')
    for (const name of ['', '  ', '-', 'unobtainium', 'constructor']) expect(findMaterial(name)).toBeNull()
    for (const m of MATERIALS)
      for (const name of [m.name, ...m.aliases]) expect(findMaterial(name)?.name).toBe(m.name)
  })
})
