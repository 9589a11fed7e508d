/** Nothing of plate and part is left without a name, on drawing or in a list. */
import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { bore, disc, jobWith, partOf } from '../../helpers/jobs.ts'
import { lettering } from '../../helpers/sheetText.ts'
import { onSubPlate } from '../../helpers/walkJobs.ts'

const textsOf = (job: Job) =>
  setupSheet(job, 'op10', analyse(job, 'op10'), { sheet: 'A3' })
    .flatMap(lettering)
    .map((t) => t.text)

describe('a part of nine bores', () => {
  const bores = Array.from({ length: 9 }, (_, i) =>
    bore(`B${i}`, { x: i === 0 ? 0 : 40 * Math.cos(i), y: i === 0 ? 0 : 40 * Math.sin(i) }, 8 + i),
  )
  const texts = textsOf(jobWith({ part: partOf([disc('d', { x: 0, y: 0 }, 120, 20)], bores) }))

  it('names each of them, the seventh and those after it in a list', () => {
    expect(texts).toContain('Bores')
    for (const { id, diameter } of bores) {
      expect(texts).toContain(id)
      expect(texts).toContain(String(diameter))
    }
  })
})

describe('a drilled plate without slots', () => {
  const holes = [0, 1, 2, 3].map((i) => ({
    id: `H${i}`,
    x: 110 * Math.cos(i * 1.5 + 0.4),
    y: 110 * Math.sin(i * 1.5 + 0.4),
    diameter: 13,
  }))
  const job = jobWith({ part: partOf([disc('d', { x: 0, y: 0 }, 60, 20)]), plate: { slots: [], holes } })

  it('has its holes named, once, and a mark from which angles are counted', () => {
    const texts = textsOf(job)
    for (const { id } of holes) expect(texts.filter((t) => t === id)).toHaveLength(1)
    expect(texts.join(' ')).toContain('index; angles counter-clockwise from it')
  })
})

describe('a sub-plate', () => {
  it('has its holes named, once, though clamps stand over them', () => {
    const texts = textsOf(onSubPlate())
    for (const id of ['F1 H1', 'F1 H2', 'F1 H3', 'F1 H4']) {
      // Once in the view and once in the list of hardware.
      expect(texts.filter((t) => t === id)).toHaveLength(2)
    }
  })
})
