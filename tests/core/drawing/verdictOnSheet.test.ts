/** The verdict leads every sheet, and nothing that stops the job is left out. */
import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Analysis } from '../../../src-core/analysis/result.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { SHEETS, type SheetName } from '../../../src-core/drawing/sheet/sheetSizes.ts'
import type { Drawing } from '../../../src-core/drawing/model/model.ts'
import { finding } from '../../../src-core/findings/finding.ts'
import { shippedJob } from '../../helpers/jobs.ts'
import { lettering } from '../../helpers/sheetText.ts'

const job = shippedJob('bearing-bracket')
const sound = analyse(job, 'op10')
const sizes = Object.keys(SHEETS) as SheetName[]

const draw = (analysis: Analysis, sheet: (typeof sizes)[number]): Drawing[] =>
  setupSheet(job, 'op10', analysis, { sheet })

const textOf = (drawing: Drawing): string =>
  lettering(drawing)
    .map((t) => t.text)
    .join(' ')

describe.each(sizes)('on %s', (sheet) => {
  it.each([
    ['stop', '■ STOP'],
    ['not-judged', '◇ NOT JUDGED'],
    ['caution', '△ CAUTION'],
    ['go', '○ GO'],
  ] as const)('a verdict of %s leads every sheet with its reason', (state, words) => {
    const long = finding('stop', 'part-clash', 'c1', `The strap of c1 fouls the part. ${'More. '.repeat(40)}`)
    const findings = Array.from({ length: 40 }, () => long)
    const reason = 'strap c1 fouls the part'
    const drawn = draw({ ...sound, findings, verdict: { state, reason, finding: long } }, sheet)
    // The largest hold forty findings on one.
    const one = state === 'go' || SHEETS[sheet].width > 800
    expect(drawn.length).toBeGreaterThan(one ? 0 : 1)
    for (const page of drawn) {
      const texts = lettering(page)
      expect(textOf(page)).toContain(reason)
      const head = texts.find((t) => t.text.startsWith(words))!
      // Above every other line of lists and notes, or as high in a column of its own.
      const lists = texts.filter((t) => /^(Hardware|Spindle speeds|To put right|Balance)/.test(t.text))
      for (const l of lists) expect(head.primitive.at.y).toBeGreaterThanOrEqual(l.primitive.at.y)
    }
  })

  it('every stop is listed, the first of them on the first sheet', () => {
    const stops = Array.from({ length: 23 }, (_, i) =>
      finding('stop', 'part-clash', `c${i}`, `Strap number ${i} fouls the part. It is ${i} mm too long.`),
    )
    const drawn = draw({ ...sound, findings: stops }, sheet)
    const all = drawn.map(textOf).join(' ')
    for (let i = 0; i < 23; i++) expect(all).toContain(`Strap number ${i} fouls the part.`)
    expect(all).not.toMatch(/and \d+ more/)
    expect(textOf(drawn[0]!)).toContain('To put right first (23)')
    expect(textOf(drawn[0]!)).toContain('Strap number 0 fouls')
  })
})

it.each(sizes)('a reason of long names is said whole at the head on %s', (sheet) => {
  const name = 'an angle bracket that has a rather long name, with a web, of the second lot'
  const reason = `${name} (h5) fouls the cross-slide by 77.5 mm, and so does ${name} (h6)`
  const stop = finding('stop', 'part-clash', 'h5', `${reason}. It is in the way.`)
  for (const page of draw(
    { ...sound, findings: [stop], verdict: { state: 'stop', reason, finding: stop } },
    sheet,
  ))
    expect(textOf(page)).toContain(reason)
})

it('the heavy side stands in two lines where there is room for them anywhere', () => {
  const job = shippedJob('flat-link')
  const [first] = setupSheet(job, 'op20', analyse(job, 'op20'), { sheet: 'A3' })
  const words = lettering(first!).map((t) => t.text)
  expect(words).toEqual(expect.arrayContaining(['HEAVY SIDE', "180°, 9 o'clock"]))
})

it('a set-up without a heavy side names none', () => {
  const even = { ...sound, unbalance: { ...sound.unbalance, static_g_mm: 0.2 } }
  const text = draw(even, 'A3').map(textOf).join(' ')
  expect(text).toContain('Computed: no heavy side to speak of.')
  expect(text).toContain('No heavy side to speak of, 95 % bound')
  expect(text).not.toContain('HEAVY')
})

it('a stop that holds only above the chosen speed is told apart from those that hold now', () => {
  const later = finding('stop', 'over-plate-rating', 'plate', 'The plate is rated for less.', null, 400)
  const text = draw({ ...sound, findings: [later] }, 'A3')
    .map(textOf)
    .join(' ')
  expect(text).not.toContain('To put right first')
  expect(text).toContain('STOP above 400 rpm: The plate is rated for less.')
})
