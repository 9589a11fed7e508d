import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import type { SheetOptions } from '../../../src-core/drawing/sheet/setupSheet.ts'
import type { Drawing } from '../../../src-core/drawing/model/model.ts'
import { readSheetSvg } from '../../../src-core/drawing/writers/sheetSvg.ts'
import { writeDxf } from '../../../src-core/drawing/writers/writeDxf.ts'
import { writeSvg } from '../../../src-core/drawing/writers/writeSvg.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { disc, jobWith, largeJob, partOf, piece, steps } from '../../helpers/jobs.ts'
import { randomJob } from '../../helpers/randomJob.ts'
import { lettering, outside, overlaps } from '../../helpers/sheetText.ts'

const AXIS = { x: 0, y: 0 }

function draw(job: Job, options: SheetOptions = {}): Drawing[] {
  const drawings = setupSheet(job, 'op10', analyse(job, 'op10'), options)
  // Both throw on a number that is not finite; the painter takes what `readSheetSvg` lets through.
  drawings.forEach((d) => {
    expect(readSheetSvg(writeSvg(d))).toMatchObject({ ok: true })
    writeDxf(d)
  })
  return drawings
}

const faults = (drawings: readonly Drawing[]) =>
  drawings.flatMap((d) => {
    const texts = lettering(d)
    const sheet = { x0: 15, y0: 5, x1: d.width - 5, y1: d.height - 5 }
    return [...overlaps(texts), ...outside(texts, sheet)]
  })

const crowd = Array.from({ length: 100 }, (_, i) =>
  piece(
    `h${i}`,
    0.2,
    { x: 30 + (i % 10) * 10, y: -50 + Math.floor(i / 10) * 10 },
    { footprint: { circle: 9 } },
  ),
)
const manyVertices = Array.from({ length: 20_000 }, (_, i) => {
  const angle = (i / 20_000) * 2 * Math.PI
  const radius = 100 + (i % 2)
  return { x: radius * Math.cos(angle), y: radius * Math.sin(angle), bulge: 0.2 }
})
const slots = Array.from({ length: 64 }, (_, i) => ({
  id: `Slot number ${i}`,
  angle: i * 5.6,
  from: 100,
  to: 140,
  width: 5,
  kind: 'tee' as const,
}))
const words = 'Wört '.repeat(4000)

const jobs: Record<string, Job> = {
  'thirty pieces': largeJob(),
  'a hundred pieces': jobWith({ setup: { hardware: crowd } }),
  'twenty thousand vertices': jobWith({
    part: partOf([{ ...disc('b', AXIS, 10, 20), outline: manyVertices }]),
  }),
  'texts as long as they may be': {
    ...jobWith({
      part: partOf([disc('b', AXIS, 100, 20)], [], { name: words, material: 'x'.repeat(20_000) }),
      setup: {
        title: words,
        hardware: [
          piece('h', 1, { x: 50, y: 0 }, { name: words }),
          piece('漢字'.repeat(40), 1, { x: 50, y: 60 }, { name: '漢'.repeat(300) }),
        ],
      },
    }),
    title: 'W'.repeat(20_000),
    partNumber: words,
    notes: words,
  },
  'a hundred speeds': jobWith({
    lathe: { speeds: steps(...Array.from({ length: 100 }, (_, i) => 10 + i * 7.3)) },
  }),
  'a plate of a hundred metres': jobWith({
    plate: { diameter: 1e5, slots: [{ ...slots[0]!, to: 4e4 }] },
    lathe: { swingOverBed: 1e5 },
  }),
  'a plate of half a millimetre': jobWith({
    plate: { diameter: 0.5, bore: 0.1, thickness: 0.1, slots: [], holes: [] },
    part: partOf([disc('b', AXIS, 0.3, 0.1)]),
    setup: { packing: 0 },
  }),
  'a part far from the axis': jobWith({ part: partOf([disc('b', { x: 9e4, y: 9e4 }, 100, 20)]) }),
  'a part ninety metres long': jobWith({ part: partOf([disc('b', AXIS, 100, 9e4)]) }),
  'a bare plate without a bore': jobWith({ plate: { slots: [], holes: [], bore: 0 } }),
  'sixty-four slots': jobWith({ plate: { slots } }),
}

describe.each(Object.entries(jobs))('the sheet of %s', (_, job) => {
  it.each(['A3', 'A4'] as const)('keeps its texts apart and on the paper, on %s', (sheet) => {
    const drawings = draw(job, { sheet })
    expect(faults(drawings)).toEqual([])
    expect(drawings.length).toBeLessThan(20)
  })
})

describe('the sheet of a crowded set-up', () => {
  it('says which labels found no room', () => {
    const texts = draw(jobs['a hundred pieces']!)
      .flatMap(lettering)
      .map((t) => t.text)
    const note = texts.slice(texts.indexOf('Not labelled') + 1).join(' ')
    const missing = [...note.matchAll(/item (\d+)/g)].map((m) => Number(m[1]))
    expect(missing.length).toBeGreaterThan(0)
    // Shown in a balloon and in the list, or in the list alone.
    for (let i = 1; i <= 100; i++)
      expect(texts.filter((t) => t === String(i)).length).toBeGreaterThanOrEqual(missing.includes(i) ? 1 : 2)
  })
})

describe('the sheet of any sound job', () => {
  it('can be drawn, its texts apart and on the paper', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        expect(faults(draw(job))).toEqual([])
      }),
      { numRuns: 40 },
    )
  })
})
