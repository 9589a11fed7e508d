/** What names a sheet: never in part, and the same for everyone who holds it. */
import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import type { Drawing } from '../../../src-core/drawing/model/model.ts'
import { checkSum } from '../../../src-core/job/checkSum.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { shippedJob } from '../../helpers/jobs.ts'
import { lettering, overlaps, struckThrough } from '../../helpers/sheetText.ts'

const link = shippedJob('flat-link')
const draw = (job: Job, sheet: 'A4' | 'A3' | 'ANSI-A' | 'ANSI-B', file = '') =>
  setupSheet(job, 'op10', analyse(job, 'op10'), { sheet, file })

/** All that stands in the block of a sheet, cell by cell, in the order in which it is written. */
const blockOf = (page: Drawing) =>
  lettering(page).filter(({ primitive: { at } }) => at.x > page.width - 190 && at.y < 110)
const wordsOf = (page: Drawing) => blockOf(page).map((t) => t.text)
const run = (page: Drawing) => wordsOf(page).join('').replaceAll(' ', '')

const REVISIONS = [
  { mark: 'A', date: '2026-01-05', text: 'First issue' },
  { mark: 'B', date: '2026-02-10', text: 'Strap c3 longer, for it did not reach' },
]

describe.each(['A4', 'A3', 'ANSI-A', 'ANSI-B'] as const)('the title block on %s', (sheet) => {
  it('has document number, revision, file and check sum on the first sheet, and what names it on the others', () => {
    const job = { ...link, documentNumber: 'D-4417-02', revisions: REVISIONS }
    const pages = draw(job, sheet, 'crank-link.evenswing')
    const sum = checkSum(job, job.setups[0]!)
    for (const words of ['D-4417-02', 'B', 'EV-0417', sum, `1 of ${pages.length}`])
      for (const [i, page] of pages.entries())
        expect(wordsOf(page)).toContain(words.replace(/^1 of/, `${i + 1} of`))
    expect(wordsOf(pages[0]!)).toContain('crank-link.evenswing')
    const all = pages
      .flatMap(lettering)
      .map((t) => t.text)
      .join(' ')
    for (const { date, text } of REVISIONS)
      for (const words of [date, text]) expect(all.split(words), words).toHaveLength(2)
  })

  it('wraps a long part number, document number, revision and file name, and cuts none of them', () => {
    const long = {
      partNumber: 'EV-0417/left-hand/forged/second-operation/customer-specification-88172-rev-C',
      documentNumber: 'WORKS-3/BAY-12/LATHE-7/SETUP-SHEET-000417-02',
      file: 'crank link of the mill engine, both ends, second operation.evenswing',
    }
    const job = {
      ...link,
      ...{ partNumber: long.partNumber, documentNumber: long.documentNumber },
      titleBlock: { revision: 'C2-draft-for-approval' },
    }
    const [first, second] = draw(job, sheet, long.file)
    for (const words of [long.partNumber, long.documentNumber, long.file, 'C2-draft-for-approval'])
      expect(run(first!)).toContain(words.replaceAll(' ', ''))
    for (const words of [long.partNumber, long.documentNumber, 'C2-draft-for-approval'])
      expect(run(second!)).toContain(words)
    for (const page of [first!, second!]) {
      expect(overlaps(lettering(page))).toEqual([])
      expect(struckThrough(page, blockOf(page))).toEqual([])
    }
  })

  it('gives lathe, plate and file a line each where the row has room for the three', () => {
    const names = ['Bench lathe, 165 mm centre height', 'Plate of 300', 'bearing-bracket.evenswing']
    for (const [lathe, plate, file] of [names, [names[1]!, names[0]!, 'a']] as const) {
      const job = { ...link, lathe: { ...link.lathe, name: lathe! }, plate: { ...link.plate, name: plate! } }
      const [first] = draw(job, sheet, file)
      for (const words of [lathe, plate, file]) expect(wordsOf(first!)).toContain(words)
    }
  })

  it('sets several lines of a value apart from each other and from their label', () => {
    const lathe = { ...link.lathe, name: 'Bench lathe of the long bay, 165 mm centre height, with gap' }
    const [first] = draw({ ...link, lathe }, sheet)
    const [label] = blockOf(first!).filter((t) => t.text === 'Lathe')
    const { at } = label!.primitive
    const rows = blockOf(first!)
      .filter((t) => t.primitive.at.x === at.x && t.primitive.at.y <= at.y && lathe.name.includes(t.text))
      .map((t) => t.primitive)
    expect(rows.length).toBeGreaterThan(1)
    // From a baseline to the capitals under it: clear of descenders, a quarter of their height.
    const lines = [label!.primitive, ...rows]
    for (const [i, row] of lines.entries())
      if (i > 0) expect(lines[i - 1]!.at.y - row.at.y - row.height).toBeGreaterThan(row.height / 4)
  })

  it('shows nothing of a number that no cell holds, and says it among the notes', () => {
    const job = { ...link, partNumber: '8-'.repeat(300) }
    const pages = draw(job, sheet)
    expect(wordsOf(pages[0]!)).toContain('see the notes')
    expect(wordsOf(pages[0]!).join('')).not.toContain('8-8-8-')
    const all = pages.flatMap(lettering).map((t) => t.text)
    expect(all.join(' ')).toContain('Part number in full:')
    // As much of it as notes hold; the step that fetches the part has all of it.
    const numbers = all.map((t) => /^(?:8-)+/.exec(t)?.[0] ?? '').join('')
    expect(numbers.length).toBeGreaterThanOrEqual(400)
  })
})

it('letters that the typeface lacks are explained on every sheet that may have them, the first too', () => {
  const stock = link.stock.map((s) => ({ ...s, name: '錘' }))
  const cases: Job[] = [
    { ...link, documentNumber: '図面 12' },
    { ...link, revisions: [{ mark: 'A', date: '', text: '変更' }] },
    { ...link, stock },
  ]
  const explained = (pages: Drawing[]) =>
    pages.map((p) => lettering(p).some((t) => t.text.includes('stands for a character')))
  for (const job of cases) expect(new Set(explained(draw(job, 'A3')))).toEqual(new Set([true]))
  expect(new Set(explained(draw(link, 'A3', '部品.evenswing')))).toEqual(new Set([true]))
  expect(new Set(explained(draw(link, 'A3')))).toEqual(new Set([false]))
})
