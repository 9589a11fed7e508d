import PDFDocument from 'pdfkit'
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { describe, expect, it, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { plainFont } from '../../../src-core/drawing/writers/pdfFont.ts'
import { CAP_HEIGHT, settable, textWidth, wrapText } from '../../../src-core/drawing/text/textWidth.ts'
import { bracketJob } from '../../helpers/goldenSheet.ts'
import { lettering } from '../../helpers/sheetText.ts'

const font = (name: string) =>
  plainFont(readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)))
const every = [0x20, 0xa0, 0x180, 0x1e00, 0x2150, 0x2200].map((from) =>
  Array.from({ length: 90 }, (_, i) => String.fromCodePoint(from + i)).join(''),
)

describe('settable', () => {
  it.each([
    ['Ø47 ±0.5 ½ Łódź ⌀ Țepeș', 'Ø47 ±0.5 ½ Łódź ⌀ Țepeș'],
    ['cafe\u0301', 'café'],
    ['o\ufb03ce 5 \u338f', 'office 5 kg'],
    ['soft\u00adhyphen, x\u0304', 'softhyphen, x'],
    ['工 plate', '\ufffd plate'],
    ['🔩\ufe0f', '\ufffd'],
  ])('%j is set as %j', (text, set) => {
    expect(settable(text)).toBe(set)
    expect(settable(set)).toBe(set)
  })

  it.each([
    ['DejaVuSans', false],
    ['DejaVuSans-Bold', true],
  ] as const)('is as wide as %s sets it', (name, bold) => {
    const pdf = new PDFDocument({ font: null as unknown as string })
    pdf
      .registerFont('it', Buffer.from(font(name)))
      .font('it')
      .fontSize(1000)
    for (const text of every.map(settable))
      expect(Math.abs(textWidth(text, 1000 * CAP_HEIGHT, bold) - pdf.widthOfString(text))).toBeLessThan(
        2 * text.length,
      )
  })
})

describe('a job in letters that the typeface lacks', () => {
  const job = { ...bracketJob(), title: '轴承座', notes: 'Clean the face.' }
  const words = (j: typeof job) =>
    setupSheet(j, 'op10', analyse(j, 'op10'))
      .flatMap(lettering)
      .map((t) => t.text)

  it('prints a substitute for each and says so', () => {
    const all = words(job)
    expect(all).toContain('\ufffd\ufffd\ufffd')
    expect(all.join(' ')).toContain('stands for a character')
    expect(words({ ...job, title: 'Bracket' }).join(' ')).not.toContain('stands for a character')
  })
})

test.each([
  ["63.5 mm out, 6 o'clock", ['63.5 mm', 'out,', "6 o'clock"]],
  ['out, half past 3', ['out,', 'half', 'past 3']],
  ['bore A (x 0 mm, y -12 mm)', ['bore', 'A', '(x 0 mm,', 'y -12 mm)']],
  ['1 × steel disc, 4 × M12 bolt', ['1 × steel', 'disc,', '4 × M12', 'bolt']],
  ['100 mm × 32 mm', ['100 mm', '× 32 mm']],
  ['100 × 32', ['100', '× 32']],
])('%j is broken where it can be read on', (content, lines) => {
  expect(wrapText(content, 3.5, 1)).toEqual(lines)
})
