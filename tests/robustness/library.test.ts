/** Damaged libraries and texts typed into number fields: an answer, or a refusal in one line with its place. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parseLibrary, serialiseLibrary } from '../../src-core/shop/parse.ts'
import { EMPTY_LIBRARY } from '../../src-core/shop/schema.ts'
import { collect, mergeLibraries, offers } from '../../src-core/shop/use.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { readExpression } from '../../src-core/units/expression.ts'
import { exampleJob } from '../helpers/jobs.ts'

const RUNS = Number(process.env['EVENSWING_FUZZ'] ?? 300)
const link = exampleJob('flat-link')
const shop = collect(exampleJob('bearing-bracket'), collect(link, EMPTY_LIBRARY).library).library
const TEXT = serialiseLibrary(shop)

function answer(text: string): void {
  const result = parseLibrary(text)
  if (!result.ok) {
    expect(result.faults.length).toBeGreaterThan(0)
    for (const { path, message } of result.faults) {
      expect(message).not.toBe('')
      expect(`${path}: ${message}`).not.toMatch(/\n|undefined|\[object/)
    }
    return
  }
  expect(parseLibrary(serialiseLibrary(result.library)).ok).toBe(true)
  expect(parseLibrary(serialiseLibrary(mergeLibraries(shop, result.library))).ok).toBe(true)
  const taken = offers(link, result.library).reduce((job, offer) => offer.take(job), link)
  // What a library offers fits the schema; only the job's own limits, like a slot beyond the rim, may then object.
  parseJob(serialiseJob(taken))
}

const WORDS = ['null', '-1', '0', '1e400', '5e-324', '1e300', '""', '[]', '{}', '"__proto__"', '"\\n"', 'NaN']

describe('damaged libraries', () => {
  it('with values exchanged', () => {
    const values = [...TEXT.matchAll(/(?<=: )(-?[\d.]+|"[^"]*"|\[\]|null)/g)]
    const harm = fc.tuple(fc.nat(values.length - 1), fc.constantFrom(...WORDS))
    fc.assert(
      fc.property(fc.uniqueArray(harm, { minLength: 1, maxLength: 3, selector: ([at]) => at }), (harms) => {
        let text = TEXT
        for (const [at, word] of [...harms].sort((a, b) => b[0] - a[0])) {
          const { index, 0: old } = values[at]!
          text = text.slice(0, index) + word + text.slice(index + old.length)
        }
        answer(text)
      }),
      { numRuns: RUNS },
    )
  })

  it('with characters changed, cut out or doubled', () => {
    const edit = fc.tuple(fc.nat(TEXT.length), fc.nat(60), fc.string({ unit: 'binary', maxLength: 6 }))
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 3 }), fc.boolean(), (edits, twice) => {
        let text = TEXT
        for (const [at, cut, put] of edits)
          text = text.slice(0, at) + put + (twice ? text.slice(at, at + cut) : '') + text.slice(at + cut)
        answer(text)
      }),
      { numRuns: RUNS },
    )
  })
})

describe('number fields', () => {
  const token = fc.constantFrom(
    ...[
      '1',
      '3/8',
      '12,5',
      '.5',
      'e9',
      '1e308',
      '^',
      '*',
      '/',
      '+',
      '-',
      '(',
      ')',
      'mm',
      'in',
      '"',
      "'",
      'ft',
    ],
    ...[
      'sqrt',
      'sin',
      'pi',
      'import',
      'constructor',
      '__proto__',
      '[',
      ']',
      '{',
      '}',
      ';',
      '=',
      '%',
      '!',
      ' ',
      '½',
    ],
  )
  const wanted = fc.constantFrom(
    { unit: 'mm', kind: 'a length' },
    { unit: 'kg', kind: 'a mass' },
    { unit: '', kind: 'a number' },
  )
  const text = fc.oneof(
    fc.array(token, { maxLength: 12 }).map((words) => words.join('')),
    fc.string({ unit: 'binary', maxLength: 30 }),
  )
  it('give a finite number or a reason', () => {
    fc.assert(
      fc.property(text, wanted, (typed, want) => {
        const read = readExpression(typed, want)
        if (read.ok) expect(Number.isFinite(read.value)).toBe(true)
        else expect(read.reason.trim()).not.toBe('')
      }),
      { numRuns: RUNS },
    )
  })
})
