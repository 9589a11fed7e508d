import { describe, expect, test } from 'vitest'
import {
  jackFor,
  jackVolume,
  stepBlockVolume,
  stepFor,
  stepHeights,
  USUAL_HEEL_BLOCKS,
  USUAL_SCREW_JACKS,
  USUAL_STEP_BLOCKS,
} from '../../../src-core/hardware/heels.ts'
import { findStrapSteel, STRAP_STEELS, strapYield, WEAKEST_STEEL } from '../../../src-core/hardware/steels.ts'
import {
  greatestToeForce,
  strapSectionModulus,
  strapStress,
  strapVolume,
  USUAL_STRAPS,
} from '../../../src-core/hardware/straps.ts'
import { findThread } from '../../../src-core/hardware/threads.ts'

describe('straps', () => {
  const strap = { length: 90, width: 32, thickness: 16, boltFrom: 30, opening: 14, slotted: 0 }
  test('bending at the bolt, by hand', () => {
    // (32 − 14)·16²/6 = 768 mm³; 225 N/mm² × 768 mm³ / 30 mm = 5760 N.
    expect(strapSectionModulus(strap)).toBe(768)
    expect(greatestToeForce(strap, 30, 225)).toBe(5760)
    expect(strapStress(strap, 5760, 30)).toBe(225)
  })
  test('a hole as wide as the strap carries nothing; no lever is refused, not taken for strength without end', () => {
    expect(greatestToeForce({ ...strap, opening: 40 }, 30, 225)).toBe(0)
    expect(strapStress({ ...strap, opening: 32 }, 1, 30)).toBe(Infinity)
    for (const lever of [0, -5, NaN]) expect(() => greatestToeForce(strap, lever, 225)).toThrow(RangeError)
  })
  test('volume less a hole and less a slot with round ends', () => {
    expect(strapVolume(strap)).toBeCloseTo((90 * 32 - Math.PI * 49) * 16, 6)
    expect(strapVolume({ ...strap, slotted: 20 })).toBeCloseTo((90 * 32 - Math.PI * 49 - 14 * 20) * 16, 6)
    expect(strapVolume({ ...strap, opening: 200 })).toBe(0)
  })
  test('usual straps: bolt a third in, its thread through the opening, slot within the strap', () => {
    for (const s of USUAL_STRAPS) {
      expect(s.boltFrom / s.length, s.thread).toBeCloseTo(1 / 3, 1)
      expect(s.opening, s.thread).toBeGreaterThan(findThread(s.thread)!.diameter)
      expect(s.opening, s.thread).toBeLessThan(s.width / 2)
      expect(s.boltFrom + s.slotted + s.opening / 2, s.thread).toBeLessThan(s.length)
    }
  })
})

describe('strap steels', () => {
  test('what is not said or not known is the weakest', () => {
    expect(WEAKEST_STEEL.yieldsAt).toBe(Math.min(...STRAP_STEELS.map((s) => s.yieldsAt)))
    for (const name of [null, undefined, '', 'wonder steel']) expect(strapYield(name)).toBe(225)
    expect(strapYield(' c45 ')).toBe(305)
    expect(findStrapSteel('wonder steel')).toBeNull()
  })
  test('no name means two steels', () => {
    const names = STRAP_STEELS.flatMap((s) => [s.name, ...s.aliases]).map((n) => n.toLowerCase())
    expect(new Set(names).size).toBe(names.length)
  })
})

describe('heels', () => {
  const block = { length: 40, width: 25, lowest: 10, highest: 34, pitch: 3 }
  test('steps of a step block and the one for a height', () => {
    expect(stepHeights(block)).toEqual([10, 13, 16, 19, 22, 25, 28, 31, 34])
    expect(stepFor(block, 20)).toBe(22)
    expect(stepFor(block, 22)).toBe(22)
    expect(stepFor(block, 5)).toBe(10)
    expect(stepFor(block, 34.1)).toBeNull()
    expect(() => stepHeights({ ...block, pitch: 0 })).toThrow(RangeError)
  })
  test('a decimal pitch keeps its last step', () => {
    expect(stepHeights({ ...block, lowest: 1, highest: 2, pitch: 0.1 })).toHaveLength(11)
  })
  test('volume of a stair: mean height 22 over 40 × 25', () => {
    expect(stepBlockVolume(block)).toBeCloseTo(22_000, 9)
  })
  test('a jack reaches what its screw gives, and never stands taller than three bases', () => {
    const jack = { base: 20, thread: 'M10', lowest: 40, highest: 70 }
    expect(jackFor(jack, 39)).toBeNull()
    expect(jackFor(jack, 60)).toBe(60)
    expect(jackFor(jack, 61)).toBeNull()
    // π/4·20²·40 and 10 mm of M10 at 58 mm².
    expect(jackVolume(jack, 50)).toBeCloseTo(Math.PI * 4000 + 580, 6)
    expect(() => jackVolume({ ...jack, thread: 'M11' }, 50)).toThrow(RangeError)
  })
  test('every usual heel can stand', () => {
    for (const b of USUAL_HEEL_BLOCKS) expect(b.length * b.width * b.height).toBeGreaterThan(0)
    for (const b of USUAL_STEP_BLOCKS) expect(stepHeights(b).at(-1)).toBe(b.highest)
    for (const j of USUAL_SCREW_JACKS) {
      expect(jackFor(j, j.highest)).toBe(j.highest)
      expect(jackVolume(j, j.lowest)).toBeGreaterThan(0)
    }
  })
})
