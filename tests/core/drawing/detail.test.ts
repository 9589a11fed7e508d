/** A part that the view shows too small is drawn again, enlarged, and dimensioned there. */
import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { largerSheet } from '../../../src-core/drawing/sheet/larger.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import type { SheetName } from '../../../src-core/drawing/sheet/sheetSizes.ts'
import type { DimensionPrimitive, Drawing } from '../../../src-core/drawing/model/model.ts'
import { writeDxf } from '../../../src-core/drawing/writers/writeDxf.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { block, bore, boreCut, jobWith, partOf, piece, shelfExample, shippedJob } from '../../helpers/jobs.ts'
import { readDxf } from '../../helpers/readback.ts'
import { lettering, overlaps, struckThrough } from '../../helpers/sheetText.ts'

/** A lug of 22 by 14 mm on a plate of 630 mm. */
function lug(turn = 20): Job {
  return jobWith({
    plate: { diameter: 630, bore: 0, slots: [], holes: [] },
    lathe: { swingOverBed: 800, swingOverCrossSlide: 400 },
    part: partOf(
      [block('lug', { x: 3, y: 2 }, [22, 14, 8])],
      [bore('A', { x: 0, y: 0 }, 6), bore('B', { x: 9, y: 4 }, 3)],
    ),
    setup: {
      centre: { bore: 'A' },
      packing: 0,
      turn,
      cuts: [boreCut('A')],
      hardware: [piece('w1', 1, { x: 120, y: 40 }, { footprint: { circle: 40 }, height: 20 })],
    },
  })
}

const draw = (job: Job, sheet: SheetName): Drawing[] =>
  setupSheet(job, 'op10', analyse(job, 'op10'), { sheet })
const dimensions = (drawings: readonly Drawing[]): DimensionPrimitive[] =>
  drawings.flatMap((d) => d.primitives).filter((p) => p.kind === 'dimension')
const words = (drawings: readonly Drawing[]) => drawings.flatMap(lettering).map((t) => t.text)

describe.each(['A4', 'A3', 'A2', 'ANSI-B'] as const)('a lug of 22 mm on %s', (sheet) => {
  const drawn = draw(lug(), sheet)
  const view = drawn[0]!.model!.scale

  it('has a detail with letter and scale, and the letter at its circle in the view', () => {
    const title = words(drawn).filter((t) => /^Z \(\d+:\d+\)$/.test(t))
    expect(title).toHaveLength(1)
    expect(words(drawn.slice(0, 1))).toContain('Z')
  })

  it('has each bore and dimension of the part once, at the scale of the detail, printing what it measures', () => {
    const [, over, under] = /Z \((\d+):(\d+)\)/.exec(words(drawn).join('\n'))!
    const scale = Number(over) / Number(under)
    expect(scale).toBeGreaterThanOrEqual(2 * view)
    const of = dimensions(drawn).filter((d) =>
      /^(diameter|distance|edge|part-(left|right|top|bottom))/.test(d.id!),
    )
    expect(new Set(of.map((d) => d.id)).size).toBe(of.length)
    expect(of.map((d) => d.id)).toEqual(expect.arrayContaining(['diameter:A', 'diameter:B', 'distance:B']))
    for (const d of of) {
      expect(d.scale).toBe(scale)
      const { a, b } = d.line
      expect(Math.hypot(b.x - a.x, b.y - a.y) / scale).toBeCloseTo(d.value, 6)
    }
    // By hand: from bore A to bore B, √(9² + 4²).
    expect(of.find((d) => d.id === 'distance:B')!.value).toBeCloseTo(Math.sqrt(97), 9)
  })

  it('has no text over text or line', () => {
    for (const page of drawn) {
      const all = lettering(page)
      expect(overlaps(all)).toEqual([])
      expect(struckThrough(page, all)).toEqual([])
    }
    const job = lug()
    expect(largerSheet(job, 'op10', analyse(job, 'op10'), { sheet })).toBeNull()
  })
})

describe('a detail', () => {
  it('shows nothing beyond its circle but dimensions and letters', () => {
    const drawn = draw(lug(), 'A3').find((page) => words([page]).some((t) => t.startsWith('Z (')))!
    const [around] = drawn.primitives.flatMap((p) =>
      p.kind === 'circle' && p.layer === 'outline-thin' && p.radius > 10 && p.radius < 30 ? [p] : [],
    )
    const { centre, radius } = around!
    const near = (x: number, y: number) => Math.hypot(x - centre.x, y - centre.y)
    const lines = drawn.primitives.flatMap((p) =>
      p.kind === 'path' && p.layer === 'outline' ? p.steps.flatMap((s) => (s.to === 'close' ? [] : [s])) : [],
    )
    const inside = lines.filter((s) => near(s.x, s.y) < radius + 8)
    expect(inside.length).toBeGreaterThan(3)
    for (const s of inside) expect(near(s.x, s.y)).toBeLessThanOrEqual(radius + 1e-6)
  })

  it('has room round it for labels, whatever wide block is cut off at its circle', () => {
    const job: Job = { ...shelfExample('round-casting'), displayUnits: 'in' }
    const drawn = draw(job, 'ANSI-B')
    expect(words(drawn)).toContain('A Ø1.181')
    expect(drawn.flatMap((d) => d.unplaced ?? [])).toEqual([])
    for (const page of drawn) expect(overlaps(lettering(page))).toEqual([])
  })

  it('is drawn for no part that the view shows well', () => {
    const job = shippedJob('bearing-bracket')
    expect(words(draw(job, 'A3')).some((t) => t.startsWith('Z ('))).toBe(false)
  })

  it('has its dimensions in a DXF in real size, where the part is', () => {
    const [sheet] = draw(lug(0), 'A3')
    const facts = readDxf(writeDxf(sheet!))
    expect([facts.errors, facts.fixes]).toEqual([[], []])
    const of = facts.entities.filter((e) => e.type === 'DIMENSION')
    const [right] = of.filter((e) => e.attributes['text'] === '14')
    // The lug's right edge: 3 + 22 / 2 from bore A.
    expect(right!.measured).toBeCloseTo(14, 5)
    const ends = ['defpoint2', 'defpoint3'].map((k) => right!.attributes[k] as number[])
    expect(Math.max(...ends.map((p) => p[0]!))).toBeCloseTo(14, 5)
    expect(Math.min(...ends.map((p) => p[0]!))).toBeCloseTo(0, 5)
  })
})
