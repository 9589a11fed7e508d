/** What stands on a shelf is seen from the side: its number points at what shows of it, and every letter finds room. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { plainPrimitives } from '../../../src-core/drawing/model/plain.ts'
import { isInside } from '../../../src-core/geometry/nearest.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { shelfExample } from '../../helpers/jobs.ts'
import { lettering, outside } from '../../helpers/sheetText.ts'

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

test.each(['bearing-block', 'round-casting'] as const)(
  '%s: the view square to the shelf numbers what is on it',
  (name) => {
    const job = shelfExample(name)
    const { pieces } = mountSetup(job, job.setups[0]!.id)
    for (const sheet of ['A4', 'A3', 'ANSI-B'] as const) {
      const pages = setupSheet(job, job.setups[0]!.id, analyse(job, job.setups[0]!.id), { sheet })
      const balloons = pages.flatMap((page) => {
        const all = plainPrimitives(page)
        const rounds = all.flatMap((p) => (p.kind === 'circle' && p.radius === 4 ? [p.centre] : []))
        return all.flatMap((p) =>
          p.kind === 'text' && rounds.some((c) => Math.hypot(c.x - p.at.x, c.y - p.at.y) < 3) ? [p.text] : [],
        )
      })
      if (sheet === 'A4') expect(pages.length).toBeLessThanOrEqual(4)
      for (const page of pages) {
        const within = { x0: 20, y0: 10, x1: page.width - 10, y1: page.height - 10 }
        const inner = lettering(page).filter(
          ({ primitive: { at } }) => at.x > 20 && at.x < within.x1 && at.y > 10 && at.y < within.y1,
        )
        expect(outside(inner, within)).toEqual([])
      }
      pieces.forEach((piece, i) => {
        const times = piece.shelf || piece.item.kind === 'anglePlate' || piece.item.kind === 'vee' ? 2 : 1
        expect(
          balloons.filter((t) => t === String(i + 1)),
          `${i + 1} on ${sheet}`,
        ).toHaveLength(times)
      })
    }
  },
)

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
