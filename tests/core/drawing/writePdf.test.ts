import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { beforeAll, describe, expect, it } from 'vitest'
import { writePdf } from '../../../src-core/drawing/writers/writePdf.ts'
import { rasterPage, readPdf } from '../../helpers/readback.ts'
import type { PdfFacts, Raster } from '../../helpers/readback.ts'
import { SAMPLE, sampleWith, WIDE_SAMPLE } from '../../helpers/sampleDrawing.ts'

const font = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)))
const fonts = { regular: font('DejaVuSans'), bold: font('DejaVuSans-Bold') }

const POINTS_PER_MM = 72 / 25.4
/** 254 dots an inch are ten a millimetre. */
const DOTS = 254

let pdf: Uint8Array
let facts: PdfFacts
let page: Raster
beforeAll(async () => {
  pdf = await writePdf([SAMPLE, WIDE_SAMPLE], fonts)
  facts = readPdf(pdf)
  page = rasterPage(pdf, 1, DOTS)
})

/** Row of pixels at a sheet height (mm, y up). */
const row = (y: number): number => Math.round((297 - y) * 10)
const dark = (column: number, line: number): boolean => page.pixels[line * page.width + column]! < 128
const greyAt = (x: number, y: number): number => page.pixels[row(y) * page.width + Math.round(x * 10)]!

/** First and last dark pixel of a strip, in tenths of a millimetre from its start; the strip runs along x or y. */
function extent(
  along: 'x' | 'y',
  from: number,
  to: number,
  at: (i: number) => boolean,
): { first: number; last: number } {
  const hits: number[] = []
  for (let i = from; i < to; i++) if (at(i)) hits.push(i)
  if (hits.length === 0) expect.fail(`nothing dark along ${along}`)
  return { first: hits[0]!, last: hits.at(-1)! }
}

describe('writePdf', () => {
  it('has a page for each drawing, in its own size', () => {
    expect(facts.info['Pages']).toBe('2')
    expect(facts.pages).toHaveLength(2)
    expect(facts.pages[0]!.width).toBeCloseTo(210 * POINTS_PER_MM, 2)
    expect(facts.pages[0]!.height).toBeCloseTo(297 * POINTS_PER_MM, 2)
    expect(facts.pages[1]!.width).toBeCloseTo(420 * POINTS_PER_MM, 2)
    expect(facts.pages[1]!.height).toBeCloseTo(297 * POINTS_PER_MM, 2)
  })

  it('has the title, and asks for no scaling in print', () => {
    expect(facts.info['Title']).toBe('Set-up <1> & Ø plate')
    expect(new TextDecoder('latin1').decode(pdf)).toContain('/PrintScaling /None')
  })

  it('has a bookmark for each page', () => {
    const text = new TextDecoder('latin1').decode(pdf)
    const outlines = /\/Type \/Outlines|\/Outlines (\d+) 0 R/.exec(text)
    expect(outlines).not.toBeNull()
    // An entry of the outline leads to a page and has a parent; nothing else does.
    const entries = text.split('endobj').filter((o) => o.includes('/Dest [') && o.includes('/Parent'))
    expect(entries).toHaveLength(2)
  })

  it('embeds its two fonts and no other, as subsets with a Unicode map', () => {
    expect(facts.fonts.map((f) => f.name.replace(/^[A-Z]{6}\+/, '')).sort()).toEqual([
      'DejaVuSans',
      'DejaVuSans-Bold',
    ])
    for (const { embedded, subset, unicode } of facts.fonts) {
      expect({ embedded, subset, unicode }).toEqual({ embedded: true, subset: true, unicode: true })
    }
  })

  it.each(['HEAVY SIDE 37°', 'kg·mm', 'Ø120 ±0.1', 'A<B & "C"', '50%%c ^J'])(
    'can be searched for %s',
    (text) => {
      expect(facts.text).toContain(text)
    },
  )

  it('draws at true scale: a 100 mm line, left to right', () => {
    const line = row(280)
    const { first, last } = extent('x', 0, page.width, (i) => dark(i, line))
    expect(Math.abs((last - first + 1) / 10 - 100)).toBeLessThanOrEqual(0.2)
    expect(Math.abs(first / 10 - 20)).toBeLessThanOrEqual(0.2)
  })

  it('draws at true scale: a circle of radius 20 with a 0.5 mm line, up and down', () => {
    const { first, last } = extent('y', row(135), row(85), (i) => dark(500, i))
    expect(Math.abs((last - first + 1) / 10 - 40.5)).toBeLessThanOrEqual(0.2)
    expect(Math.abs(297 - (first + last + 1) / 20 - 110)).toBeLessThanOrEqual(0.1)
  })

  it('draws arcs on the side the bulge says', () => {
    const diagonal = 20 * Math.SQRT1_2
    // A narrow line over pixel edges is grey at worst.
    expect(greyAt(60 - diagonal, 220 + diagonal)).toBeLessThan(200)
    expect(greyAt(40 + diagonal, 240 - diagonal)).toBe(255)
    expect(greyAt(160, 200)).toBeLessThan(128)
    expect(greyAt(120, 200)).toBeLessThan(128)
  })

  it('fills solid with holes, tint and paper', () => {
    expect(greyAt(100, 110)).toBe(0)
    expect(greyAt(172, 110)).toBe(0)
    expect(greyAt(180, 110)).toBe(255)
    expect(greyAt(130, 110)).toBe(0xe6)
    expect(greyAt(140, 110)).toBe(255)
  })

  it('draws dashes in their length', () => {
    const line = row(180)
    const starts: number[] = []
    for (let i = 150; i < page.width; i++) if (dark(i, line) && !dark(i - 1, line)) starts.push(i)
    // Dash 3 and gap 0.75: 170 mm hold 46 starts, 3.75 mm apart.
    expect(starts).toHaveLength(46)
    expect((starts.at(-1)! - starts[0]!) / 450).toBeCloseTo(3.75, 1)
  })

  it('sets text by its capital height on its baseline, at its anchor', () => {
    const columns = [205, 245] as const
    const someDark = (line: number): boolean => {
      for (let i = columns[0]; i < columns[1]; i++) if (dark(i, line)) return true
      return false
    }
    const { first, last } = extent('y', row(275), row(260), someDark)
    expect(Math.abs((last - first + 1) / 10 - 5)).toBeLessThanOrEqual(0.2)
    expect(Math.abs(297 - (last + 1) / 10 - 265)).toBeLessThanOrEqual(0.2)

    const inBand = (y0: number, y1: number) => (column: number) => {
      for (let line = row(y1); line < row(y0); line++) if (dark(column, line)) return true
      return false
    }
    const middle = extent('x', 500, 1500, inBand(24, 29))
    expect(Math.abs((middle.first + middle.last + 1) / 20 - 100)).toBeLessThanOrEqual(0.3)
    // Turned a quarter and ended at y = 140: nothing above it, something just below.
    const turned = extent('y', row(165), row(122), (line) => {
      for (let i = 1905; i < 1955; i++) if (dark(i, line)) return true
      return false
    })
    expect(297 - turned.first / 10).toBeGreaterThan(138.5)
    expect(297 - turned.first / 10).toBeLessThanOrEqual(140.1)
  })

  it('gives the same bytes twice', async () => {
    const again = await writePdf(structuredClone([SAMPLE, WIDE_SAMPLE]), fonts)
    expect(again).toEqual(pdf)
  })

  it('refuses no drawings, and numbers that are not finite', async () => {
    await expect(writePdf([], fonts)).rejects.toThrow(RangeError)
    const bad = { kind: 'circle', layer: 'outline', centre: { x: 0, y: 0 }, radius: Number.NaN } as const
    await expect(writePdf([sampleWith(bad)], fonts)).rejects.toThrow(RangeError)
    await expect(writePdf([{ ...SAMPLE, width: Number.NaN }], fonts)).rejects.toThrow(RangeError)
  })
})
