/** The list of what may be painted: every sheet that is drawn passes, nothing else does. */
import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { readSheetSvg } from '../../../src-core/drawing/writers/sheetSvg.ts'
import { plateTemplate } from '../../../src-core/drawing/template/plateTemplate.ts'
import { SHEETS, type SheetName } from '../../../src-core/drawing/sheet/sheetSizes.ts'
import { writeSvg } from '../../../src-core/drawing/writers/writeSvg.ts'
import { EXAMPLES, exampleJob } from '../../helpers/jobs.ts'
import { SAMPLE } from '../../helpers/sampleDrawing.ts'

const sheet = writeSvg(SAMPLE)
const reasonOf = (svg: string) => {
  const read = readSheetSvg(svg)
  return read.ok ? 'ok' : read.reason
}
/** The sample with one more line where a layer's things stand. */
const withLine = (line: string) => sheet.replace('<circle', `${line}\n<circle`)

test('the sample sheet passes, with its size', () => {
  expect(readSheetSvg(sheet)).toEqual({ ok: true, width: SAMPLE.width, height: SAMPLE.height })
  expect(reasonOf(withLine('<circle cx="1" cy="1" r="1"/>'))).toBe('ok')
})

test.each(EXAMPLES)('the sheets and templates of %s pass on every size of paper', (name) => {
  const job = exampleJob(name)
  for (const { id } of job.setups) {
    const analysis = analyse(job, id)
    for (const size of Object.keys(SHEETS) as SheetName[])
      for (const drawing of [
        ...setupSheet(job, id, analysis, { sheet: size }),
        ...plateTemplate(job, id, size),
      ])
        expect(reasonOf(writeSvg(drawing))).toBe('ok')
  }
})

const long = (n: number, text: string) => text.repeat(n)
const track = (mm: number) => `<path d="M0 0L${mm} 0"/>`

describe('what a sheet never has is refused', () => {
  it.each([
    [
      'five thousand nested spans',
      withLine(`<text x="1" y="1">${long(5000, '<tspan>')}x${long(5000, '</tspan>')}</text>`),
    ],
    ['a span in a text', sheet.replace('>HEAVY', '><tspan>HEAVY')],
    ['a group in a group', withLine('<g id="layer-text" class="text">')],
    [
      'a group of its own making',
      sheet.replace('class="hidden" fill="none"', 'class="hidden" fill="url(#x)"'),
    ],
    ['dashes as fine as dust', sheet.replace(/stroke-dasharray="[^"]*"/, 'stroke-dasharray="0.0001 0.0001"')],
    ['a picture', withLine('<image href="/etc/passwd"/>')],
    ['a reference', withLine('<use href="#layer-text"/>')],
    ['a style', withLine('<style>*{}</style>')],
    ['a document type', sheet.replace('\n<svg', '\n<!DOCTYPE svg [<!ENTITY a "b">]>\n<svg')],
    ['an entity', sheet.replace('HEAVY', '&a;')],
    ['a comment', withLine('<!-- x -->')],
    ['text past its end', `${sheet}<svg/>\n`],
    ['two on one line', withLine('<circle cx="1" cy="1" r="1"/><circle cx="1" cy="1" r="1"/>')],
    ['a number with an exponent', withLine('<circle cx="1e9" cy="1" r="1"/>')],
    ['an attribute more', withLine('<circle cx="1" cy="1" r="1" filter="url(#f)"/>')],
    ['no end', sheet.replace('</svg>\n', '')],
    ['a group without an end', sheet.replace(/<\/g>\n<\/svg>/, '</svg>')],
    ['nothing', ''],
  ])('%s', (_, svg) => {
    expect(svg).not.toBe(sheet)
    expect(reasonOf(svg)).not.toBe('ok')
  })

  it('a sheet larger than any, or with no size', () => {
    expect(reasonOf(writeSvg({ ...SAMPLE, width: 1250, height: 1250 }))).toBe('no sheet is 1250 × 1250 mm')
    expect(reasonOf(writeSvg({ ...SAMPLE, width: 0 }))).toBe('it has no size')
  })

  it('more lines, letters or length than a sheet can hold', () => {
    expect(reasonOf(withLine(long(200_000, '<circle cx="1" cy="1" r="1"/>\n').trimEnd()))).toMatch(
      /more lines/,
    )
    const text = `<text x="1" y="1" font-size="3" text-anchor="start" fill="#000000" stroke="none">${long(500_000, 'x')}</text>`
    const path = `<path d="M0 0${long(400_000, 'L1 1')}"/>`
    for (const line of [text, path, track(999_999_999), '<circle cx="0" cy="0" r="999999999"/>'])
      expect(reasonOf(withLine(line))).toBe('it holds more than a sheet')
    expect(reasonOf(withLine(track(1000)))).toBe('ok')
  })
})

test('whatever is changed in a sheet, an answer comes: a sheet or a reason with its line', () => {
  const edit = fc.record({ at: fc.nat(sheet.length), cut: fc.nat(20), put: fc.string({ maxLength: 8 }) })
  fc.assert(
    fc.property(fc.array(edit, { maxLength: 3 }), (edits) => {
      const svg = edits.reduce((t, { at, cut, put }) => t.slice(0, at) + put + t.slice(at + cut), sheet)
      const read = readSheetSvg(svg)
      if (!read.ok) expect(read.line).toBeGreaterThan(0)
      else expect(svg).not.toMatch(/<(?!\?xml|\/?(svg|title|rect|g|path|circle|text)[ >])/)
    }),
  )
})
