/** What stands on a shelf is seen from the side: its number points at what shows of it, and every letter finds room. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { plainPrimitives } from '../../../src-core/drawing/model/plain.ts'
import { isInside } from '../../../src-core/geometry/nearest.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { shelfExample } from '../../helpers/jobs.ts'

/** Where leaders of item numbers end, plate frame. */
function leaderEnds(job: Job, sheet: 'A3' | 'A1') {
  const [first] = setupSheet(job, job.setups[0]!.id, analyse(job, job.setups[0]!.id), { sheet })
  const { scale, origin } = first!.model!
  return plainPrimitives(first!).flatMap((p) =>
    p.kind === 'circle' && p.layer === 'mark' && p.radius === 0.7
      ? [{ x: (p.centre.x - origin.x) / scale, y: (p.centre.y - origin.y) / scale }]
      : [],
  )
}

test.each(['bearing-block', 'round-casting'] as const)('%s: numbers point at heads and straps', (name) => {
  const job = shelfExample(name)
  const { pieces } = mountSetup(job, job.setups[0]!.id)
  const onShelf = pieces.filter((p) => p.shelf)
  expect(onShelf.length).toBe(2)
  for (const sheet of ['A3', 'A1'] as const) {
    const ends = leaderEnds(job, sheet)
    for (const piece of onShelf) {
      // Head or nut, or the strap: not the line along which it meets the shelf.
      const large = piece.solids.filter(({ role }) => role === 'strap' || role === 'nut')
      expect(
        ends.some((p) => large.some(({ ring }) => isInside(ring, p))),
        `${piece.item.id} on ${sheet}`,
      ).toBe(true)
    }
  }
})

test('the letter of the edge that lies on an angle plate finds room at full size', () => {
  const job = shelfExample('bearing-block')
  const [first] = setupSheet(job, 'op20', analyse(job, 'op20'), { sheet: 'A1' })
  expect(first!.unplaced).toBeUndefined()
})

test('lists stand under the views of a small plate, where that saves a sheet', () => {
  const job = shelfExample('bearing-block')
  const pages = setupSheet(job, 'op20', analyse(job, 'op20'), { sheet: 'A3' })
  expect(pages).toHaveLength(2)
  expect(pages[0]!.unplaced).toBeUndefined()
  const first = plainPrimitives(pages[0]!).flatMap((p) => (p.kind === 'text' ? [p.text] : []))
  for (const title of ['Hardware', 'Bolts', 'Weights, packing and blocks']) expect(first).toContain(title)
})
