import { describe, expect, test } from 'vitest'
import type { Photograph } from '../../src-core/job/schema.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { describePhotograph, photographGrips } from '../../src-renderer/scene/photograph.ts'
import { describePart } from '../../src-renderer/scene/work.ts'
import { exampleJob } from './example.ts'

const photograph: Photograph = {
  picture: { name: '', type: 'image/png', width: 10, height: 10, data: '' },
  ties: [
    { u: 0, v: 0, x: 10, y: 0 },
    { u: 10, v: 0, x: 20, y: 0 },
  ],
  opacity: 0.4,
  locked: false,
}
const placed = { image: {} as ImageBitmap, toPlan: { a: 1, b: 0, c: 0, d: -1, e: 10, f: 0 } }

describe('the photograph in the picture', () => {
  test('moves and turns with the part', () => {
    const [item] = describePhotograph(photograph, placed, { x: 3, y: 4, turn: 90 })
    expect(item).toMatchObject({ kind: 'picture', opacity: 0.4, layer: 'work' })
    // The upper left pixel lies at 10, 0 of the part: a quarter turn brings it to 0, 10, then the shift.
    expect(item?.kind === 'picture' && item.map).toEqual({ a: 0, b: 1, c: 1, d: 0, e: 3, f: 14 })
  })
  test('is not there while it is not ready, or faded to nothing', () => {
    expect(describePhotograph(photograph, null, { x: 0, y: 0, turn: 0 })).toEqual([])
    expect(describePhotograph({ ...photograph, opacity: 0 }, placed, { x: 0, y: 0, turn: 0 })).toEqual([])
  })
  test('has grips only while it may be moved', () => {
    const at = { x: 0, y: 0, turn: 0 }
    expect(photographGrips(photograph, at).filter((i) => i.kind === 'points')).toHaveLength(2)
    expect(photographGrips({ ...photograph, locked: true }, at)).toEqual([])
  })
  test('shows through the part that is drawn over it', () => {
    const mounted = mountSetup(exampleJob(), 'op10')
    expect(describePart(mounted, true).some((i) => i.role === 'part')).toBe(false)
    expect(describePart(mounted, true).some((i) => i.role === 'part-traced')).toBe(true)
    expect(describePart(mounted, false).some((i) => i.role === 'part')).toBe(true)
  })
})
