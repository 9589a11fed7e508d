import { describe, expect, test } from 'vitest'
import { nutSize, nutVolume } from '../../../src-core/hardware/nuts.ts'
import {
  findThread,
  proofLoad,
  rootDiameter,
  THREADS,
  threadStressArea,
  yieldStress,
} from '../../../src-core/hardware/threads.ts'
import { washerSize, washerVolume } from '../../../src-core/hardware/washers.ts'
import { expectNear } from '../../helpers/near.ts'

const thread = (name: string) => findThread(name)!

describe('threads', () => {
  // Areas of ISO 898-1 from memory; the formula stands against them.
  test.each(['M5', 'M27', 'M30', 'M33', 'M36'])('%s: stress area by formula', (name) => {
    expectNear(threadStressArea(thread(name)), thread(name).stressArea, { rel: 0.004 })
  })

  test('proof loads that are worked out: stress × area, by hand', () => {
    expect(proofLoad(thread('M12'), '5.6')).toBeCloseTo(280 * 84.3, 6)
    expect(proofLoad(thread('M12'), '5.8')).toBeCloseTo(380 * 84.3, 6)
    expect(proofLoad(thread('M12'), '6.8')).toBeCloseTo(440 * 84.3, 6)
    expect(proofLoad(thread('M16'), '9.8')).toBeCloseTo(650 * 157, 6)
    expect(proofLoad(thread('M18'), '9.8')).toBeNull()
    expect(proofLoad(thread('M5'), '8.8')).toBeCloseTo(580 * 14.2, 6)
    expect(proofLoad(thread('M30'), '8.8')).toBeCloseTo(600 * 561, 6)
    // 0.9 × 105,000 lbf/in² × 0.1419 in² = 13,410 lbf.
    expectNear(proofLoad(thread('1/2-13'), 'b7')!, 13_409.55 * 4.4482216, { rel: 1e-6 })
    expect(proofLoad(thread('M12'), 'B7')).toBeNull()
    expect(proofLoad(thread('1/2-13'), '8.8')).toBeNull()
  })

  test('yield by class, with grade 2 falling above ¾ in', () => {
    expect(yieldStress(thread('M12'), '8.8')).toBe(640)
    expect(yieldStress(thread('M12'), '5.5')).toBeNull()
    expect(yieldStress(thread('M20'), '9.8')).toBeNull()
    // 1,000 lbf/in² is 6.894757 N/mm².
    expect(yieldStress(thread('3/4'), '2')).toBeCloseTo(57 * 6.894757, 3)
    expect(yieldStress(thread('7/8'), 'grade 2')).toBeCloseTo(36 * 6.894757, 3)
    expect(yieldStress(thread('1/2'), 'Gr 8')).toBeCloseTo(130 * 6.894757, 3)
    expect(yieldStress(thread('1/2'), 'B7')).toBeCloseTo(105 * 6.894757, 3)
    expect(yieldStress(thread('M12'), 'constructor')).toBeNull()
  })

  test('in every thread and class proof lies below yield, and a stronger class carries more', () => {
    for (const t of THREADS) {
      const metric = Object.entries(t.proof).filter(([name]) => name !== 'B7')
      for (const [name, load] of Object.entries(t.proof)) {
        const stress = load / t.stressArea
        expect(stress, `${t.name} ${name}`).toBeLessThan(yieldStress(t, name)!)
        expect(stress, `${t.name} ${name}`).toBeGreaterThan(0.85 * yieldStress(t, name)!)
      }
      // A Whitworth stud may be of either series of classes, which are no one order.
      if (t.standard === 'whitworth') continue
      for (const [i, [name, load]] of metric.entries())
        if (i > 0) expect(load, `${t.name} ${name}`).toBeGreaterThan(metric[i - 1]![1])
    }
  })

  // ASME B1.1 prints 0.4056 in for the root of an external 1/2-13; ISO 724 has d₃ = 9.853 mm for M12. From memory.
  test('root diameter', () => {
    expect(rootDiameter(thread('1/2-13'))).toBeCloseTo(0.4056 * 25.4, 2)
    expect(rootDiameter(thread('M12'))).toBeCloseTo(9.853, 3)
  })
})

describe('nuts and washers', () => {
  test('every thread has a nut, whose washer it sits on and goes over the stud', () => {
    for (const t of THREADS) {
      const washer = washerSize(t)!
      const nut = nutSize(t)!
      expect(washer.hole, t.name).toBeGreaterThan(t.diameter)
      expect(washer.hole, t.name).toBeLessThan(1.3 * t.diameter)
      expect(washer.outside, t.name).toBeGreaterThan(nut.flats)
      expect(nut.height, t.name).toBeGreaterThan(0.79 * t.diameter)
      expect(nut.height, t.name).toBeLessThan(t.diameter)
      expect(nutVolume(t, nut)).toBeGreaterThan(0)
    }
  })
  // DIN 6340 as an open data set has it.
  test('clamping washers', () => {
    expect(washerSize(thread('M12'), 'clamping')).toEqual({ hole: 13, outside: 35, thickness: 5 })
    expect(washerSize(thread('M20'), 'clamping')).toEqual({ hole: 21, outside: 50, thickness: 6 })
    expect(washerSize(thread('M24'), 'clamping')).toBeNull()
    expect(washerSize(thread('1/2'), 'large')).toBeNull()
  })
  test('a washer is a ring: M12 plain, π/4·(24² − 13²)·2.5 mm³', () => {
    expect(washerVolume(washerSize(thread('M12'))!)).toBeCloseTo(799.14, 1)
    expect(washerSize(thread('1/2'))!.outside).toBeCloseTo(1.375 * 25.4, 9)
  })
})
