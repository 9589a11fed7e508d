import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { beforeAll, describe, expect, it } from 'vitest'
import { SHEETS } from '../../../src-core/drawing/sheet/sheetSizes.ts'
import type { SheetName } from '../../../src-core/drawing/sheet/sheetSizes.ts'
import { writeDxf } from '../../../src-core/drawing/writers/writeDxf.ts'
import { writePdf } from '../../../src-core/drawing/writers/writePdf.ts'
import { writeSvg } from '../../../src-core/drawing/writers/writeSvg.ts'
import { bracketJob, bracketSheets } from '../../helpers/goldenSheet.ts'
import { rasterPage, readDxf, readPdf, readXml } from '../../helpers/readback.ts'
import type { PdfFacts } from '../../helpers/readback.ts'
import { lettering } from '../../helpers/sheetText.ts'

const font = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)))
const fonts = { regular: font('DejaVuSans'), bold: font('DejaVuSans-Bold') }
const POINTS_PER_MM = 72 / 25.4

describe.each(Object.keys(SHEETS) as SheetName[])('a sheet of %s as PDF', (name) => {
  const drawings = bracketSheets({ sheet: name })
  let pdf: Uint8Array
  let facts: PdfFacts
  beforeAll(async () => {
    pdf = await writePdf(drawings, fonts)
    facts = readPdf(pdf)
  })

  it('has the size of the paper on every page', () => {
    expect(facts.pages).toHaveLength(drawings.length)
    for (const page of facts.pages) {
      expect(page.width).toBeCloseTo(SHEETS[name].width * POINTS_PER_MM, 1)
      expect(page.height).toBeCloseTo(SHEETS[name].height * POINTS_PER_MM, 1)
    }
  })

  it('has every word of the drawing as text that can be searched', () => {
    const words = (text: string) => text.split(/\s+/).filter((w) => w.length > 1)
    const found = new Set(words(facts.text))
    const upright = drawings.flatMap(lettering).filter((t) => t.primitive.angle === 0)
    const missing = upright.flatMap((t) => words(t.text)).filter((w) => !found.has(w))
    expect(missing).toEqual([])
    expect(facts.fonts.every((f) => f.embedded && f.subset && f.unicode)).toBe(true)
  })

  it('is drawn to scale: the rim of the plate stands within 0.1 mm of where it belongs, all round', () => {
    const { origin, scale } = drawings[0]!.model!
    const radius = (bracketJob().plate.diameter / 2) * scale
    const perMm = 20
    const page = rasterPage(pdf, 1, perMm * 25.4)
    const isDark = (r: number, angle: number) => {
      const column = Math.round((origin.x + r * Math.cos(angle)) * perMm)
      const row = Math.round((drawings[0]!.height - origin.y - r * Math.sin(angle)) * perMm)
      return page.pixels[row * page.width + column]! < 128
    }
    // In each eighth of a turn the middle one of what is as dark and as wide as the rim: letters and leaders meet it too.
    for (let eighth = 0; eighth < 8; eighth++) {
      const middles = Array.from({ length: 24 }, (_, k) => ((eighth + (k + 0.5) / 24) * Math.PI) / 4).flatMap(
        (angle) => {
          const steps = Array.from({ length: 61 }, (_, i) => radius - 1.5 + i / perMm)
          const dark = steps.filter((r) => isDark(r, angle))
          const width = dark.length / perMm
          return width > 0.3 && width < 0.7 ? [(dark[0]! + dark.at(-1)!) / 2] : []
        },
      )
      expect(middles.length).toBeGreaterThan(6)
      const [middle] = middles.sort((a, b) => a - b).slice(Math.floor(middles.length / 2))
      expect(Math.abs(middle! - radius)).toBeLessThan(0.1)
    }
  })

  it('has a check line that is 100 mm long', () => {
    const left = SHEETS[name].left + 6
    const y = SHEETS[name].bottom + 3 + (SHEETS[name].large ? 0 : 52.5)
    const page = rasterPage(pdf, 1, 254)
    const row = Math.round((SHEETS[name].height - y) * 10)
    const isDark = (column: number) => page.pixels[row * page.width + column]! < 200
    let from = Math.round(left * 10) - 5
    while (!isDark(from)) from++
    let to = from
    while (isDark(to + 1)) to++
    expect(Math.abs(from / 10 - left)).toBeLessThan(0.3)
    expect(Math.abs((to - from + 1) / 10 - 100)).toBeLessThanOrEqual(0.4)
  })
})

describe('a sheet in every format', () => {
  const drawings = bracketSheets()

  it('gives the same bytes twice', async () => {
    const again = bracketSheets()
    expect(again).toEqual(drawings)
    expect(await writePdf(again, fonts)).toEqual(await writePdf(drawings, fonts))
    expect(again.map((d) => writeDxf(d))).toEqual(drawings.map((d) => writeDxf(d)))
    expect(again.map(writeSvg)).toEqual(drawings.map(writeSvg))
  })

  it('is well-formed SVG with every text once', () => {
    for (const drawing of drawings) {
      const tags = readXml(writeSvg(drawing)).filter((t) => t.endsWith('}text'))
      expect(tags).toHaveLength(lettering(drawing).length)
    }
  })

  it.each(['mm', 'in'] as const)(
    'passes an audit as DXF in %s, with dimensions that measure what they print',
    (units) => {
      const sheets = bracketSheets({}, units)
      for (const drawing of sheets) {
        const facts = readDxf(writeDxf(drawing, { units }))
        expect([facts.errors, facts.fixes]).toEqual([[], []])
        expect(facts.header['$INSUNITS']).toBe(units === 'mm' ? 4 : 1)
      }
      const facts = readDxf(writeDxf(sheets[0]!, { units }))
      const dimensions = facts.entities.filter((e) => e.type === 'DIMENSION')
      expect(dimensions.length).toBe(sheets[0]!.primitives.filter((p) => p.kind === 'dimension').length)
      expect(dimensions.length).toBeGreaterThan(8)
      const place = units === 'mm' ? 0.05 : 0.0005
      for (const d of dimensions) {
        const { factor } = facts.dimensionStyles[String(d.attributes['dimstyle'])]!
        expect(factor).toBe(1)
        const shown = Number(/([\d.]+)$/.exec(String(d.attributes['text']))![1])
        expect(Math.abs(d.measured! * factor - shown)).toBeLessThanOrEqual(place + 1e-4)
      }
    },
  )

  it.each(['mm', 'in'] as const)(
    'has the model in real size as DXF in %s, and the sheet beside it at its own',
    (units) => {
      const unit = units === 'mm' ? 1 : 1 / 25.4
      const sheet = bracketSheets({}, units)[0]!
      const facts = readDxf(writeDxf(sheet, { units }))
      const job = bracketJob()
      const circles = facts.entities
        .filter((e) => e.type === 'CIRCLE' && e.layer === 'OUTLINE')
        .map((e) => ({
          centre: e.attributes['center'] as number[],
          radius: e.attributes['radius'] as number,
        }))
      const rims = (radius: number) => circles.filter((c) => Math.abs(c.radius - radius * unit) < 1e-5)
      // The plate's rim about the origin at its own size, and once more on the sheet at the sheet's scale.
      const [real, ...more] = rims(job.plate.diameter / 2)
      expect(more).toEqual([])
      expect(Math.hypot(real!.centre[0]!, real!.centre[1]!)).toBeLessThan(1e-5)
      const [drawn] = rims((job.plate.diameter / 2) * sheet.model!.scale)
      const right = real!.radius
      expect(drawn!.centre[0]! - drawn!.radius).toBeGreaterThan(right)
      // What makes the sheet is all to the right of the model.
      const frames = facts.entities.filter((e) => e.layer === 'BORDER' && e.type === 'LWPOLYLINE')
      const xs = frames.flatMap((e) => e.points!.map((p) => p[0]!))
      expect(Math.min(...xs)).toBeGreaterThan(right)
      const frame = frames.find((e) => e.closed)!.points!.map((p) => p[0]!)
      expect(Math.max(...frame) - Math.min(...frame)).toBeCloseTo((sheet.width - 30) * unit, 5)
      for (const d of facts.entities.filter((e) => e.type === 'DIMENSION'))
        expect((d.attributes['text_midpoint'] as number[])[0]).toBeLessThan(Math.min(...xs))
    },
  )

  it('draws hidden lines in real size with dashes as they are on the sheet', () => {
    const facts = readDxf(writeDxf(drawings[0]!))
    const scales = facts.entities
      .filter((e) => e.layer === 'HIDDEN')
      .map((e) => (e.attributes['ltscale'] as number | undefined) ?? 1)
    expect(new Set(scales)).toEqual(new Set([1 / drawings[0]!.model!.scale, 1]))
  })
})
