import { describe, expect, test } from 'vitest'
import fc from 'fast-check'
import {
  exampleOf,
  QUANTITIES,
  quantityText,
  readQuantity,
  shownIn,
  type QuantityName,
} from '../../src-renderer/components/quantities.ts'
import { formatter, grouped } from '../../src-core/units/format.ts'
import { coupleChange, coupleText, keyed, splitFigures } from '../../src-renderer/components/figures.ts'
import { place, ruleFor, stackFlags, ticks } from '../../src-renderer/components/speedScale.ts'
import { keyName } from '../../src-renderer/editor/keys.ts'

const value = (r: ReturnType<typeof readQuantity>) => {
  if (!r.ok) throw new Error(r.reason)
  return r.value
}

describe('quantities', () => {
  test('the job keeps millimetres whatever is shown', () => {
    expect(value(readQuantity('length', '2', 'in'))).toBe(50.8)
    expect(value(readQuantity('length', '2', 'mm'))).toBe(2)
    expect(value(readQuantity('length', '2 mm', 'in'))).toBe(2)
    expect(quantityText('length', 50.8, 'in')).toBe('2')
  })
  test('percent, pounds, torque', () => {
    expect(value(readQuantity('percent', '10', 'mm'))).toBe(0.1)
    expect(quantityText('percent', 0.1, 'mm')).toBe('10')
    expect(value(readQuantity('mass', '1', 'in'))).toBeCloseTo(0.45359237, 12)
    expect(value(readQuantity('torque', '10', 'in'))).toBeCloseTo(13.558179483, 8)
    expect(value(readQuantity('mass', '250 g', 'mm'))).toBe(0.25)
  })
  test('every field reads its own unit written out', () => {
    for (const of of Object.keys(QUANTITIES) as QuantityName[])
      for (const system of ['mm', 'in'] as const) {
        const { label } = shownIn(of, system)
        const plainly = value(readQuantity(of, '12', system))
        expect([of, value(readQuantity(of, `12 ${label}`, system))]).toEqual([of, plainly])
        expect([of, value(readQuantity(of, `12${label} `, system))]).toEqual([of, plainly])
      }
  })
  test('bounds are refused with the limit in the unit shown', () => {
    const low = readQuantity('length', '0', 'in', { min: 0, above: true })
    expect(low).toEqual({ ok: false, reason: 'It must be more than 0 in.' })
    const high = readQuantity('length', '7', 'in', { max: 152.4 })
    expect(high).toEqual({ ok: false, reason: 'It can be at most 6 in.' })
    expect(readQuantity('count', '2.5', 'mm', { whole: true }).ok).toBe(false)
  })
  test('an example offered in an empty field is read by that field', () => {
    for (const system of ['mm', 'in'] as const)
      for (const of of ['length', 'mass'] as const) {
        const example = exampleOf(of, system).replace('such as ', '')
        expect(value(readQuantity(of, example, system))).toBeGreaterThan(0)
      }
  })
  test('what a field shows reads back as what the job holds, to the digits shown', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -9_999_999, max: 9_999_999 }),
        fc.constantFrom('mm' as const, 'in' as const),
        (n, system) => {
          const mm = n / 1000
          const back = value(readQuantity('length', quantityText('length', mm, system), system))
          expect(Math.abs(back - mm)).toBeLessThanOrEqual(system === 'mm' ? 1e-9 : 0.00128)
        },
      ),
    )
  })
})

describe('figures in messages', () => {
  test('are found with their units', () => {
    const pieces = splitFigures('w1 sweeps 140.0 mm against 165.0 mm: 3 clear, at 110 rpm (95 % bound).')
    expect(pieces.filter((p) => p.figure).map((p) => p.text)).toEqual([
      '140.0 mm',
      '165.0 mm',
      '110 rpm',
      '95 %',
    ])
    expect(pieces.map((p) => p.text).join('')).toContain('3 clear')
  })
  test('every quantity is found whole, in both systems', () => {
    for (const units of ['mm', 'in'] as const) {
      const f = formatter(units)
      for (const write of [
        f.length,
        f.area,
        f.mass,
        f.unbalance,
        f.density,
        f.force,
        f.torque,
        f.velocity,
        f.energy,
        f.cuttingSpeed,
        f.feed,
        f.fine,
      ]) {
        const text = write(12.34)
        expect(splitFigures(`It is ${text}, so`).filter((p) => p.figure)).toEqual([{ text, figure: true }])
      }
    }
  })
  test('a couple that rounds to nothing is under one, and a change of it has no sign', () => {
    expect([0, 400, -400, 4_000_000, -4_000_000].map((c) => coupleChange(c, 'mm'))).toEqual([
      '0 kg·mm²',
      'under 1 kg·mm²',
      'under 1 kg·mm²',
      '+4000 kg·mm²',
      '−4000 kg·mm²',
    ])
  })
  test('long numbers are grouped, and rounded to four figures', () => {
    expect(grouped('107148 g·mm')).toBe('107\u202f148 g·mm')
    expect(grouped(formatter('mm').unbalance(107_148))).toBe('107\u202f100 g·mm')
    expect(formatter('mm').unbalance(88_958.7)).toBe('88960 g·mm')
    expect(coupleText(30_617_500, 'mm')).toBe('30\u202f620 kg·mm²')
    expect(grouped('1234 mm')).toBe('1234 mm')
  })
})

test('things that say the same still have a key each, and keep it while another comes before them', () => {
  const keys = (words: string[]) => keyed(words, (w) => w).map((k) => k.key)
  expect(new Set(keys(['a', 'b', 'a', 'a'])).size).toBe(4)
  expect(keys(['c', 'a', 'b', 'a']).slice(1)).toEqual(keys(['a', 'b', 'a']))
})

describe('the speed rule', () => {
  test('is logarithmic and rising', () => {
    const rule = ruleFor([45, 540])
    expect(place(rule, 90) - place(rule, 45)).toBeCloseTo(place(rule, 180) - place(rule, 90), 9)
    expect(place(rule, 0)).toBe(0)
    expect(place(rule, 1e9)).toBe(1)
    const at = ticks(rule).map((t) => t.at)
    expect(at).toEqual([...at].sort((a, b) => a - b))
  })
  test('flags that would run into one another go up a row', () => {
    const flags = [0.2, 0.25, 0.8].map((at) => ({ of: String(at), at, text: 'x', kind: 'limit' as const }))
    expect(stackFlags(flags, () => 0.1).map((f) => f.row)).toEqual([0, 1, 0])
  })
})

test('key names', () => {
  const key = (k: string, m: Partial<KeyboardEvent> = {}) =>
    keyName({ key: k, ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...m })
  expect(key('z', { ctrlKey: true })).toBe('Ctrl+z')
  expect(key('Z', { ctrlKey: true, shiftKey: true })).toBe('Ctrl+Shift+z')
  expect(key('s', { metaKey: true })).toBe('Ctrl+s')
  expect(key('?', { shiftKey: true })).toBe('?')
  expect(key('ArrowLeft', { shiftKey: true })).toBe('Shift+ArrowLeft')
})
