import { describe, expect, test } from 'vitest'
import {
  THREADS,
  findThread,
  inchSize,
  proofLoad,
  rootDiameter,
  threadDiameter,
  threadStressArea,
  yieldStress,
} from '../../src-core/hardware/threads.ts'
import { nutSize } from '../../src-core/hardware/nuts.ts'
import { washerSize } from '../../src-core/hardware/washers.ts'
import { expectNear } from '../helpers/near.ts'

/** ISO 898-1: stress areas and proof loads of coarse threads, as published by a fastener dealer (EN ISO 898-1). */
const METRIC = [
  ['M6', 20.1, { '4.6': 4520, '8.8': 11_600, '10.9': 16_700, '12.9': 19_500 }],
  ['M8', 36.6, { '4.6': 8240, '8.8': 21_200, '10.9': 30_400, '12.9': 35_500 }],
  ['M10', 58.0, { '4.6': 13_000, '8.8': 33_700, '10.9': 48_100, '12.9': 56_300 }],
  ['M12', 84.3, { '4.6': 19_000, '8.8': 48_900, '10.9': 70_000, '12.9': 81_800 }],
  ['M14', 115, { '4.6': 25_900, '8.8': 66_700, '10.9': 95_500, '12.9': 112_000 }],
  ['M16', 157, { '4.6': 35_300, '8.8': 91_000, '10.9': 130_000, '12.9': 152_000 }],
  ['M18', 192, { '4.6': 43_200, '8.8': 115_000, '10.9': 159_000, '12.9': 186_000 }],
  ['M20', 245, { '4.6': 55_100, '8.8': 147_000, '10.9': 203_000, '12.9': 238_000 }],
  ['M22', 303, { '4.6': 68_200, '8.8': 182_000, '10.9': 252_000, '12.9': 294_000 }],
  ['M24', 353, { '4.6': 79_400, '8.8': 212_000, '10.9': 293_000, '12.9': 342_000 }],
] as const

/** Proof stress in MPa by class; 8.8 rises above M16 (back-solved from the published loads). */
const STRESS = {
  '4.6': () => 225,
  '8.8': (d: number) => (d <= 16 ? 580 : 600),
  '10.9': () => 830,
  '12.9': () => 970,
}

describe('metric coarse threads (ISO 261, ISO 898-1)', () => {
  test.each(METRIC)('%s: area by formula and proof loads by area and stress', (name, area, loads) => {
    const thread = findThread(name)!
    expect(thread.stressArea).toBe(area)
    expectNear(threadStressArea(thread), area, { rel: 0.006 })
    for (const key of Object.keys(loads) as (keyof typeof loads)[]) {
      expect(proofLoad(thread, key)).toBe(loads[key])
      // Published loads are rounded area × stress, rounded to three figures again.
      expectNear(loads[key], area * STRESS[key](thread.diameter), { rel: 0.006 })
    }
  })
})

/** SAE J429 proof loads in lbf, areas of ASME B1.1: area × 55 (33 above ¾ in), 85 and 120 ksi. */
const UNIFIED = [
  ['1/4-20', 20.53, 1750, 2705, 3819],
  ['5/16-18', 33.83, 2884, 4457, 6292],
  ['3/8-16', 49.99, 4262, 6587, 9299],
  ['7/16-14', 68.59, 5847, 9036, 12_757],
  ['1/2-13', 91.55, 7804, 12_061, 17_028],
  ['9/16-12', 117.38, 10_007, 15_465, 21_833],
  ['5/8-11', 145.81, 12_430, 19_210, 27_120],
  ['3/4-10', 215.78, 18_395, 28_429, 40_135],
  ['7/8-9', 297.89, 15_237, 39_248, 55_408],
  ['1-8', 390.8, 19_990, 51_489, 72_690],
] as const

describe('unified coarse threads (SAE J429, ASME B1.1)', () => {
  test.each(UNIFIED)('%s', (name, area, grade2, grade5, grade8) => {
    const thread = findThread(name)!
    expectNear(thread.stressArea, area, { rel: 5e-4 })
    // 0.7854·(d − 0.9743/n)², from memory, against the printed area.
    const inches = thread.diameter / 25.4
    expectNear(0.7854 * (inches - (0.9743 * thread.pitch) / 25.4) ** 2 * 645.16, area, { rel: 2e-3 })
    const lbf = (grade: string) => proofLoad(thread, grade)! / 4.4482216152605
    expectNear(lbf('grade 2'), grade2, { rel: 3e-4 })
    expectNear(lbf('5'), grade5, { rel: 3e-4 })
    expectNear(lbf('Gr 8'), grade8, { rel: 3e-4 })
  })

  /** Areas of ASME B1.1 in in²: 1-1/8 as published by a fastener dealer, the others from memory, and J429 above 1 in. */
  test.each([
    ['1-1/8-7', 0.763],
    ['1-1/4-7', 0.969],
    ['1-3/8-6', 1.155],
    ['1-1/2-6', 1.405],
  ] as const)('%s: its area is the formula’s, grade 5 is 74 ksi above 1 in', (name, area) => {
    const thread = findThread(name)!
    expectNear(thread.stressArea / 645.16, area, { rel: 1e-9 })
    expectNear(area, 0.7854 * (thread.diameter / 25.4 - (0.9743 * thread.pitch) / 25.4) ** 2, { rel: 2e-3 })
    expectNear(proofLoad(thread, '5')! / 4.4482216152605, 74_000 * area, { rel: 1e-4 })
    expectNear(proofLoad(thread, '8')! / 4.4482216152605, 120_000 * area, { rel: 1e-4 })
    expect(nutSize(thread)).not.toBeNull()
    expect(washerSize(thread)).not.toBeNull()
  })

  test('grade 2 falls above ¾ in, so a ⅞ in bolt of it carries less than a ¾ in one', () => {
    expect(proofLoad(findThread('7/8')!, '2')!).toBeLessThan(proofLoad(findThread('3/4')!, '2')!)
  })
})

test('threads are found by the names people write, and not by others', () => {
  for (const [name, diameter] of [
    ['m12', 12],
    ['M12x1.75', 12],
    ['1/2 UNC', 12.7],
    ['½', 12.7],
    ['1/2-13', 12.7],
  ] as const)
    expect(threadDiameter(name)).toBeCloseTo(diameter, 9)
  for (const name of ['', 'M11', 'M', '12', '1/2-19', 'G1/2', '1/2 BSP']) expect(findThread(name)).toBeNull()
  for (const [name, found] of [
    ['1-1/8 UNC', '1-1/8-7'],
    ['1 1/4', '1-1/4-7'],
    ['1½ UNF', '1-1/2-12'],
    ['1-1/2-6', '1-1/2-6'],
    ['1 1/8 in BSW', '1-1/8 BSW'],
    ['1', '1-8'],
  ] as const)
    expect(findThread(name)?.name, name).toBe(found)
  expect(findThread('1/2 UNF')!.name).toBe('1/2-20')
  expect(findThread('½ whit')!.name).toBe('1/2 BSW')
  expect(findThread('1/2 bsf')!.name).toBe('1/2 BSF')
  expect(findThread('1/2')!.name).toBe('1/2-13')
  expect(proofLoad(findThread('M12')!, '5.5')).toBeNull()
  expect(new Set(THREADS.map((t) => t.name)).size).toBe(THREADS.length)
})

/** Fine threads: areas by 0.7854·(d − 0.9743/n)² (from memory), three figures as printed. */
test.each(THREADS.filter((t) => t.standard === 'unified' && findThread(inchSize(t)) !== t))(
  '$name: its area is the formula’s, and more than the coarse thread’s',
  (thread) => {
    const { diameter, pitch, stressArea } = thread
    const [inches, per] = [diameter / 25.4, 25.4 / pitch]
    expectNear(stressArea / 645.16, 0.7854 * (inches - 0.9743 / per) ** 2, { rel: 4e-3 })
    const coarse = findThread(inchSize(thread))!
    expect(stressArea).toBeGreaterThan(coarse.stressArea)
    expect(pitch).toBeLessThan(coarse.pitch)
  },
)

/** Grades of BS 1083 by letter, from memory: a T stud of half an inch yields at 44 tons to the square inch of its core. */
test('British grades rise by letter, and are no grades of other threads', () => {
  const half = findThread('1/2 BSW')!
  const loads = ['A', 'R', 'S', 'T'].map((g) => proofLoad(half, g)!)
  expect([...loads].sort((a, b) => a - b)).toEqual(loads)
  // 44 long tons to the square inch are 679.5 N/mm².
  expectNear(yieldStress(half, 'grade T')!, 679.5, { rel: 1e-3 })
  expectNear(loads[3]!, 0.9 * 679.5 * half.stressArea, { rel: 1e-3 })
  expect(proofLoad(findThread('1/2')!, 'R')).toBeNull()
  expect(proofLoad(half, 'constructor')).toBeNull()
})

/** Core diameters of British Standard Whitworth, in (BS 84, from memory), against d − 1.280654·P. */
test.each([
  ['1/4 BSW', 0.186],
  ['5/16 BSW', 0.2414],
  ['3/8 BSW', 0.295],
  ['1/2 BSW', 0.3933],
  ['5/8 BSW', 0.5086],
  ['3/4 BSW', 0.622],
  ['7/8 BSW', 0.7328],
  ['1 BSW', 0.84],
  ['1/4 BSF', 0.2008],
  ['1/2 BSF', 0.42],
  ['1 BSF', 0.872],
  ['1-1/4 BSW', 1.067],
  ['1-1/2 BSW', 1.2866],
] as const)('%s has a core of %f in, and holds on that', (name, core) => {
  const thread = findThread(name)!
  expectNear(rootDiameter(thread) / 25.4, core, { abs: 2e-4 })
  expectNear(thread.stressArea, (Math.PI / 4) * (core * 25.4) ** 2, { rel: 2e-3 })
  expectNear(proofLoad(thread, '4.6')!, 225 * thread.stressArea, { rel: 1e-9 })
  expect(proofLoad(thread, 'B7')!).toBeGreaterThan(proofLoad(thread, 'grade 5')!)
})
