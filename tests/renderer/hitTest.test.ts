import { describe, expect, test } from 'vitest'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { handles, hitTest, turnHandleAt } from '../../src-renderer/editor/hitTest.ts'
import { exampleJob } from './example.ts'

const mounted = mountSetup(exampleJob(), 'op10')
const at = (x: number, y: number, pxPerMm = 2) => hitTest(mounted, null, { x, y }, pxPerMm)

describe('hit test', () => {
  test('a weight, a clamp, the part, a slot, nothing', () => {
    expect(at(-110, 0)).toEqual({ kind: 'piece', id: 'w1' })
    expect(at(0, 80)).toEqual({ kind: 'piece', id: 'c1' })
    expect(at(60, 0)).toEqual({ kind: 'part' })
    const c = Math.cos((135 * Math.PI) / 180) * 100
    expect(at(c, -c)).toEqual({ kind: 'slot', id: 'S4' })
    expect(at(-140, 140)).toBeNull()
  })
  test('a clamp lies over the part: where both are the clamp is meant', () => {
    expect(at(0, 36)).toEqual({ kind: 'piece', id: 'c1' })
  })
  test('packing under the part is not in the way of it, but can be had where it looks out', () => {
    expect(at(90, 0)).toEqual({ kind: 'part' })
    const moved = mountSetup({ ...mounted.job, setups: [{ ...mounted.setup, turn: 180 }] }, 'op10')
    expect(hitTest(moved, null, { x: 90, y: 0 }, 2)).toEqual({ kind: 'piece', id: 'p3' })
  })
  test('inside the hole of the part it is not the part', () => {
    expect(at(0, 0, 10)).not.toEqual({ kind: 'part' })
  })
  test('the edge may be missed by some pixels, which are fewer millimetres when zoomed in', () => {
    expect(at(-110, 32, 1)).toEqual({ kind: 'piece', id: 'w1' })
    expect(at(-110, 32, 10)).not.toEqual({ kind: 'piece', id: 'w1' })
  })
  test('handles come first and only for what is selected', () => {
    const knob = turnHandleAt(mounted)
    expect(at(knob.x, knob.y)).toBeNull()
    expect(hitTest(mounted, { kind: 'part' }, knob, 2)).toEqual({ kind: 'turn-handle' })
    expect(handles(mounted, { kind: 'piece', id: 'c1' })).toEqual([
      { target: { kind: 'nose-handle', id: 'c1' }, at: { x: 0, y: 36 } },
    ])
    expect(handles(mounted, { kind: 'piece', id: 'w1' })).toEqual([])
  })
})
