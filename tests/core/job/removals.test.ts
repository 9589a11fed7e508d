import { describe, expect, it } from 'vitest'
import { removalFaults } from '../../../src-core/job/removals.ts'
import type { Part, Prism } from '../../../src-core/job/schema.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import { block, disc, partOf } from '../../helpers/jobs.ts'

const O = { x: 0, y: 0 }
const plate = block('plate', O, [100, 60, 20])
const pocket = (
  id: string,
  at: { x: number; y: number },
  d: number,
  base: number,
  thickness: number,
): Prism => disc(id, at, d, thickness, { effect: 'removes', base })
const faults = (bodies: Part['bodies']) => removalFaults(partOf(bodies))

describe('a body that removes', () => {
  it('may take what is there: a pocket, a through hole, flush with a side or the whole height', () => {
    expect(faults([plate, pocket('p', O, 30, 8, 12)])).toEqual([])
    expect(faults([plate, pocket('p', O, 60, 0, 20)])).toEqual([])
    const corner = block('c', { x: 40, y: 20 }, [20, 20, 5], { effect: 'removes', base: 15 })
    expect(faults([plate, corner])).toEqual([])
  })

  it('may not reach beyond the outline, and says by how much and where', () => {
    const found = faults([plate, pocket('p', { x: 50, y: 0 }, 20, 0, 20)])
    expect(found).toHaveLength(1)
    expect(found[0]!.path).toBe('part.bodies[1]')
    // Half a disc of 20 mm hangs over: 157.1 mm².
    expect(found[0]!.message).toMatch(/^takes away more than is there: 157(\.\d)? mm² near x 5\d(\.\d)?, y /)
  })

  it('may not reach above or below its body', () => {
    for (const p of [pocket('p', O, 20, 15, 6), pocket('p', O, 20, -1, 6)]) {
      const found = faults([plate, p])
      expect(found).toHaveLength(1)
      expect(found[0]!.message).toContain('takes away more than is there: 314')
    }
  })

  it('may not be taken from a hole that is already drawn', () => {
    const drilled = { ...plate, holes: [circleRing(O, 20)] }
    expect(faults([drilled, pocket('p', O, 30, 0, 20)])[0]!.message).toContain(': 314')
    expect(faults([drilled, pocket('p', { x: 30, y: 0 }, 30, 0, 20)])).toEqual([])
  })

  it('may span two bodies that stand on one another, but not a space between them', () => {
    const boss = disc('boss', O, 50, 20, { base: 20 })
    expect(faults([plate, boss, pocket('p', O, 30, 5, 30)])).toEqual([])
    const raised = disc('boss', O, 50, 20, { base: 25 })
    expect(faults([plate, raised, pocket('p', O, 30, 5, 30)])).toHaveLength(1)
  })

  it('may not take twice what is there once', () => {
    const found = faults([plate, pocket('p', O, 30, 8, 12), pocket('q', { x: 5, y: 0 }, 30, 8, 12)])
    expect(found).toHaveLength(1)
    expect(found[0]!.path).toBe('part.bodies[2]')
    expect(found[0]!.message).toMatch(/^takes away again what part\.bodies\[1\] removes: \d+/)
    expect(faults([plate, pocket('p', O, 30, 0, 10), pocket('q', O, 30, 10, 10)])).toEqual([])
    // Where two adding bodies overlap, the material is counted twice and may be taken twice.
    const twin = block('twin', O, [100, 60, 20])
    expect(faults([plate, twin, pocket('p', O, 30, 8, 12), pocket('q', O, 30, 8, 12)])).toEqual([])
  })

  it('finds nothing to say about what no body removes', () => {
    expect(faults([plate])).toEqual([])
  })
})
