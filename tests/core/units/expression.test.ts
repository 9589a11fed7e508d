import { describe, expect, test } from 'vitest'
import fc from 'fast-check'
import { readExpression, type Wanted } from '../../../src-core/units/expression.ts'

const mm: Wanted = { unit: 'mm', kind: 'a length' }
const inch: Wanted = { unit: 'in', kind: 'a length' }
const kg: Wanted = { unit: 'kg', kind: 'a mass' }
const deg: Wanted = { unit: 'deg', kind: 'an angle' }
const plain: Wanted = { unit: '', kind: 'a plain number' }

function value(text: string, wanted: Wanted): number {
  const read = readExpression(text, wanted)
  if (!read.ok) throw new Error(`${text}: ${read.reason}`)
  return read.value
}
function reason(text: string, wanted: Wanted): string {
  const read = readExpression(text, wanted)
  if (read.ok) throw new Error(`${text} was read as ${read.value}`)
  return read.reason
}

describe('what is read', () => {
  test.each<[string, Wanted, number]>([
    ['12.5', mm, 12.5],
    [' -3 ', mm, -3],
    ['12,5', mm, 12.5],
    ['0,125', mm, 0.125],
    ['1/2', mm, 0.5],
    ['2 in', mm, 50.8],
    ['3/8 in + 2', mm, 11.525],
    ['2 + 3/8 in', mm, 11.525],
    ['3/8 in + 2', inch, 2.375],
    ['3/8 in + 2 mm', inch, 0.375 + 2 / 25.4],
    ['3/8in', mm, 9.525],
    ['3/4"', mm, 19.05],
    ['¾ in', mm, 19.05],
    ['3.25 in', mm, 82.55],
    ['1 1/2 in', inch, 1.5],
    ['1½"', inch, 1.5],
    ['3 ft 2 in', mm, 38 * 25.4],
    ['-3 ft 2 in', mm, -38 * 25.4],
    ['3\' 2 1/2"', inch, 38.5],
    ['2 ft', inch, 24],
    ['3-1/4', inch, 3.25],
    ['-3-1/4', inch, -3.25],
    ['3 1/4"', inch, 3.25],
    ['3-1/4"', inch, 3.25],
    ['3-¼', inch, 3.25],
    ['5\'-2 1/2"', inch, 62.5],
    ['5\'-2-1/2"', inch, 62.5],
    ['5 ft-2 in', inch, 62],
    ['3—1/4', inch, 3.25],
    ['3‑1/4', inch, 3.25],
    ['3 1⁄4', inch, 3.25],
    ['3⅙', inch, 19 / 6],
    ["5'-2", inch, 62],
    ["5' 2½", inch, 62.5],
    ['5 ft 2-1/2', inch, 62.5],
    ["5' 2 - 1/4", inch, 61.75],
    ['3 - 1/4', inch, 2.75],
    ['1/4 - 1/8', inch, 0.125],
    ['3 - 1/4', mm, 2.75],
    ['3-1', inch, 2],
    ['5\' - 2"', inch, 58],
    ['3-1/4 + 1-1/2', inch, 4.75],
    ["5' - 2 in", mm, 58 * 25.4],
    ['10 thou', mm, 0.254],
    ['500 µm', mm, 0.5],
    ['2 * (10 + 1 in)', mm, 70.8],
    ['sqrt(2) * 40', mm, 56.568542494923804],
    ['100 * sin(30 deg)', mm, 50],
    ['40 pi', plain, NaN],
    ['12.5 g', kg, 0.0125],
    ['2 lb 8 oz', kg, 2.5 * 0.45359237],
    ['90°', deg, 90],
    ['(pi/2) rad', deg, 90],
    ['360/7', deg, 360 / 7],
    ['110 rpm', { unit: '', kind: 'a speed' }, 110],
    ['20 m/min', { unit: 'm/minute', kind: 'a cutting speed' }, 20],
    ['65 ft/min', { unit: 'm/minute', kind: 'a cutting speed' }, 65 * 0.3048],
    ['33 lbf ft', { unit: 'N m', kind: 'a torque' }, 33 * 4.4482216152605 * 0.3048],
    ['33 ft-lb', { unit: 'lbf ft', kind: 'a torque' }, 33],
    ['33 lb·ft', { unit: 'lbf ft', kind: 'a torque' }, 33],
    ['45Nm', { unit: 'N m', kind: 'a torque' }, 45],
    ['100 lb', { unit: 'N', kind: 'a force' }, 444.82216152605],
    ['45 N m', { unit: 'N m', kind: 'a torque' }, 45],
    ['7.2 g/cm^3', { unit: 'kg/m^3', kind: 'a density' }, 7200],
  ])('%s', (text, wanted, expected) => {
    if (Number.isNaN(expected)) return void expect(reason(text, wanted)).toMatch(/sign is missing/)
    expect(Math.abs(value(text, wanted) - expected)).toBeLessThan(1e-9 * Math.max(1, Math.abs(expected)))
  })

  test('a plain number comes back as itself, with point or comma', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -999_999, max: 999_999 }),
        fc.integer({ min: 1, max: 2 }),
        (n, decimals) => {
          const number = n / 10 ** decimals
          const text = number.toFixed(decimals)
          expect(value(text, mm)).toBe(Number(text))
          expect(value(text.replace('.', ','), mm)).toBe(Number(text))
        },
      ),
    )
  })

  test('inches and millimetres of one length agree', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 1, max: 63 }), (whole, part) => {
        const text = `${whole} ${part}/64 in`
        expect(value(text, inch)).toBeCloseTo(whole + part / 64, 12)
        expect(value(`${whole} in + ${part}/64 in`, mm)).toBeCloseTo(value(text, inch) * 25.4, 9)
      }),
    )
  })
})

describe('what is refused, with a reason', () => {
  test.each<[string, Wanted, RegExp]>([
    ['', mm, /number is wanted/],
    ['abc', mm, /not a unit known here/],
    ['3 kg', mm, /a length is wanted/],
    ['3 mm + 2 kg', mm, /units/],
    ['3 mm * 2 mm', mm, /a length is wanted/],
    ['3-1/4', kg, /two ways/],
    ['3 -1/4', inch, /two ways/],
    ['3- 1/4', inch, /two ways/],
    ['1-3-1/4', inch, /two ways/],
    // A fraction before it: no whole number of a mixed one.
    ['1/4-1/8', inch, /^"1\/4-1\/8" can be read two ways/],
    ['3/4-1/4', mm, /: write 3\/4 - 1\/4 for a difference\.$/],
    ["5' 2*3", inch, /sign is missing/],
    // Decimals and a fraction are no mixed number: nothing is proposed that is not read.
    ['3.25-1/4', inch, /^"3.25-1\/4" can be read two ways/],
    ['3.25-1/4', mm, /^"3.25-1\/4" can be read two ways: write 3.25 - 1\/4 for a difference\.$/],
    ['5\' -2"', inch, /two ways/],
    ['5\' -2"', mm, /two ways/],
    ['5 ft-(2 in)', mm, /two ways/],
    ['3 -1/4"', mm, /two ways/],
    ['3- 1/4', mm, /two ways/],
    ['3 1/0', mm, /divides by zero/],
    ['3 1/4 kg', mm, /a length is wanted/],
    ['3 4', mm, /sign is missing|cannot|not a number/],
    ['3 ft 2', mm, /sign is missing/],
    ['1,250', mm, /two ways/],
    ['1.250,5', mm, /two ways/],
    ['1/0', mm, /divides by zero/],
    ['9^9^9', mm, /power/],
    ['1e400', mm, /finite/],
    ['sin(30)', mm, /angle with its unit/],
    ['3 mm', plain, /without a unit/],
    ['x = 3', mm, /cannot be used/],
    ['[1,2]', mm, /cannot|comma|two ways/],
    ['"a"', mm, /./],
    ['createUnit(1)', mm, /not known/],
    ['evaluate(1)', mm, /not known/],
    ['import(1)', mm, /not known/],
    ['constructor', mm, /not a unit/],
    ['__proto__', mm, /not a unit/],
    ['toString', mm, /not a unit/],
    ['hasOwnProperty(1)', mm, /not known/],
    ['5!', mm, /cannot be used/],
    ['3 mm to in', mm, /./],
    ['1:3', mm, /cannot be used/],
    ['true', mm, /./],
    ['(1', mm, /not a number/],
    ['1'.repeat(201), mm, /longer than/],
    [Array(80).fill('1').join('+'), mm, /too many terms/],
  ])('%s', (text, wanted, pattern) => {
    expect(reason(text, wanted)).toMatch(pattern)
  })

  // By hand: an inch is 25.4 mm, a foot twelve inches.
  test.each([
    ['3 1/4', '3 1/4 in is 82.55 mm.'],
    ['3 1/4"', '3 1/4" is 82.55 mm.'],
    ['3 ¼ "', '3 1/4" is 82.55 mm.'],
    ['3 1/4 in', '3 1/4 in is 82.55 mm.'],
    ['3-1/4', '3-1/4 in is 82.55 mm. A difference is typed with spaces: 3 - 1/4.'],
    ['3–1/4"', '3-1/4" is 82.55 mm. A difference is typed with spaces: 3 - 1/4.'],
    ['-3 1/4"', '3 1/4" is 82.55 mm.'],
    ['1½"', '1 1/2" is 38.1 mm.'],
    ['5\'-2 1/2"', '5\'-2 1/2" is 1587.5 mm.'],
    ['5\' 2 1/2"', '5\' 2 1/2" is 1587.5 mm.'],
    ['5\' 2-1/2"', '5\' 2-1/2" is 1587.5 mm. A difference is typed with spaces: 2 - 1/2.'],
    ['5 ft 2 1/2 in', '5 ft 2 1/2 in is 1587.5 mm.'],
    ['5\'-2"', '5\'-2" is 1574.8 mm.'],
    ['2 1/2 ft', '2 1/2 ft is 762 mm.'],
    ["2 1/2'", "2 1/2' is 762 mm."],
    ['2 1/2 cm', '2 1/2 cm is 25 mm.'],
    ['10 - 3 1/4"', '3 1/4" is 82.55 mm.'],
    ['10-3 1/4"', '3 1/4" is 82.55 mm.'],
    ['sqrt(4) * (3 1/4 in + 2)', '3 1/4 in is 82.55 mm.'],
  ])('a mixed number in millimetres, with what to type instead: %s', (text, words) => {
    expect(reason(text, mm)).toBe(`This field takes millimetres: ${words}`)
  })

  test('no text makes it throw or return a number that is not finite', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => {
        const read = readExpression(text, mm)
        expect(read.ok ? Number.isFinite(read.value) : read.reason.length > 5).toBe(true)
      }),
      { numRuns: 500 },
    )
  })
})
