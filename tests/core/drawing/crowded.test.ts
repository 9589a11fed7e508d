/** Nothing is dropped in silence: what has no room stands in the tables and notes, and a larger sheet is proposed that is clean. */
import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { largerSheet, largerSheetWords } from '../../../src-core/drawing/sheet/larger.ts'
import { largerSheets } from '../../../src-core/drawing/sheet/sheetSizes.ts'
import { setupSheet, type SheetOptions } from '../../../src-core/drawing/sheet/setupSheet.ts'
import type { Drawing } from '../../../src-core/drawing/model/model.ts'
import { crowded } from '../../helpers/crowded.ts'
import { shippedJob } from '../../helpers/jobs.ts'
import { sheetCases } from '../../helpers/sheetJobs.ts'
import { lettering, overlaps, struckThrough } from '../../helpers/sheetText.ts'

const words = (drawings: readonly Drawing[]): string[] => drawings.flatMap(lettering).map((t) => t.text)
const joined = (drawings: readonly Drawing[]): string => words(drawings).join(' ')

describe('thirty pieces', () => {
  const job = crowded(shippedJob('flat-link'), 30, 30, 18)
  const analysis = analyse(job, 'op10')
  const draw = (options: SheetOptions) => setupSheet(job, 'op10', analysis, options)

  it.each(['A4', 'ANSI-A'] as const)(
    'on %s each has its balloon, or is named and stands in the list',
    (sheet) => {
      const drawn = draw({ sheet })
      const missing = drawn[0]!.unplaced ?? []
      expect(missing.length).toBeGreaterThan(0)
      const balloons = drawn[0]!.primitives.flatMap((p) =>
        p.kind === 'text' && p.bold && p.anchor === 'middle' && /^\d+$/.test(p.text) ? [Number(p.text)] : [],
      )
      const listed = joined(drawn)
      for (let n = 1; n <= 30; n++) {
        expect(balloons.includes(n), `item ${n}`).toBe(!missing.includes(`item ${n}`))
        expect(listed).toContain(`weight h${n - 1}`)
      }
      for (const label of missing) expect(joined(drawn)).toContain(label)
    },
  )

  it.each(['A4', 'ANSI-A'] as const)(
    'on %s get a larger sheet proposed, in words, with all of them',
    (sheet) => {
      const larger = largerSheet(job, 'op10', analysis, { sheet })!
      expect(larger).toMatchObject({ from: sheet, left: [] })
      expect(largerSheets(sheet)).toContain(larger.to)
      expect(largerSheetWords(larger)).toMatch(/have no room for \d+ labels\. .* has room for all of them\./)
      expect(draw({ sheet: larger.to! })[0]!.unplaced).toBeUndefined()
      expect(largerSheet(job, 'op10', analysis, { sheet: larger.to! })).toBeNull()
    },
  )
})

/** Set-ups of fifty that are drawn on the smallest sheets, where room is short. */
const small = sheetCases(50)
  .filter(({ options: { sheet } }) => sheet === 'A4' || sheet === 'ANSI-A')
  .flatMap(({ job, options }, i) =>
    job.setups.map(({ id }) => ({ name: `set-up ${i + 1} ${id} on ${options.sheet}`, job, id, options })),
  )

describe.each(small)('$name', ({ job, id, options }) => {
  it('has room for all its labels, or for more of them on the sheet that is proposed, which is clean', () => {
    const analysis = analyse(job, id)
    const drawn = setupSheet(job, id, analysis, options)
    const missing = drawn[0]!.unplaced ?? []
    for (const label of missing) expect(joined(drawn)).toContain(label.split(' ')[0])
    const larger = largerSheet(job, id, analysis, options)
    expect(larger === null).toBe(missing.length === 0)
    if (!larger?.to) return
    expect(larger.left.length).toBeLessThan(missing.length)
    const taken = setupSheet(job, id, analysis, { ...options, sheet: larger.to })
    expect(taken[0]!.unplaced ?? []).toEqual(larger.left)
    for (const page of taken) {
      const all = lettering(page)
      expect(overlaps(all)).toEqual([])
      expect(struckThrough(page, all)).toEqual([])
    }
  })
})

it('no larger sheet is asked for where there is none', () => {
  const job = shippedJob('bearing-bracket')
  const of = (sheet: 'A2' | 'A1') =>
    setupSheet(job, 'op10', analyse(job, 'op10'), { sheet, scale: 1 / 100 })
      .flatMap(lettering)
      .map((t) => t.text)
      .join(' ')
  expect(of('A2')).toMatch(/No room in the views for: .* A larger sheet may have it\./)
  expect(of('A1')).toContain('No room in the views for')
  expect(of('A1')).not.toContain('larger sheet')
})
