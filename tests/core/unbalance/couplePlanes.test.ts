import { describe, expect, test } from 'vitest'
import { couplePlanes, coupleWords } from '../../../src-core/unbalance/couplePlanes.ts'
import { formatter } from '../../../src-core/units/format.ts'
import { bearingBlock } from '../../helpers/shelfJobs.ts'

const term = (item: string, x: number, z: number) => ({
  item,
  mass_kg: 1,
  centre_mm: { x: 0, y: 0, z },
  unbalance_g_mm: { x, y: 0 },
})
const setup = bearingBlock([
  {
    id: 'w1',
    kind: 'weight',
    at: { x: 100, y: 0 },
    stack: [{ stock: 's1', count: 1 }],
    stud: {},
    fixed: false,
  },
]).setups[0]!
const fmt = formatter('mm')

describe('the planes of a couple', () => {
  test('are the means of the heights, each by its pull', () => {
    // (300·80 + 100·40) / 400
    const planes = couplePlanes([term('part', 300, 80), term('A1', 100, 40)], setup)
    expect(planes).toEqual({ work: 70, weights: null })
    expect(couplePlanes([term('part', 300, 80), term('w1', -300, 20)], setup)).toEqual({
      work: 80,
      weights: 20,
    })
  })

  test('a weight on the heavy side settles nothing', () => {
    expect(couplePlanes([term('part', 300, 80), term('w1', 50, 20)], setup)?.weights).toBeNull()
  })

  test('nothing pulls: nothing is said', () => {
    expect(couplePlanes([term('part', 0, 80)], setup)).toBeNull()
  })

  test('the words follow which of them is further out, and ask only for what helps', () => {
    expect(coupleWords({ work: 80, weights: 20 }, 1.2, fmt)).toMatch(
      /^Weights near the plate, work far out: .*further out, or a slower speed/,
    )
    expect(coupleWords({ work: 20, weights: 80 }, null, fmt)).toMatch(/^Weights far out.*nearer the plate/)
    expect(coupleWords({ work: 20, weights: 22 }, null, fmt)).toMatch(/one plane/)
    expect(coupleWords({ work: 70, weights: null }, null, fmt)).toMatch(/70 mm in front/)
  })
})
