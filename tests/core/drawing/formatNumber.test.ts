import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { formatNumber } from '../../../src-core/drawing/writers/formatNumber.ts'

describe('formatNumber', () => {
  it.each([
    [1.5, 3, '1.5'],
    [2, 3, '2'],
    [100, 0, '100'],
    [1200, 2, '1200'],
    [0.1 + 0.2, 4, '0.3'],
    [-0.00004, 4, '0'],
    [-0, 2, '0'],
    [1e-7, 4, '0'],
    [1234567.125, 2, '1234567.13'],
    [1e20, 2, '100000000000000000000'],
    [-12.3456, 2, '-12.35'],
  ])('writes %d to %i decimals as %s', (value, decimals, expected) => {
    expect(formatNumber(value, decimals)).toBe(expected)
  })

  it.each([Number.NaN, Infinity, -Infinity, 1e21])('refuses %d', (value) => {
    expect(() => formatNumber(value, 3)).toThrow(RangeError)
  })

  it('is a plain decimal within half a unit of the last decimal', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.integer({ min: 0, max: 9 }),
        (value, decimals) => {
          const text = formatNumber(value, decimals)
          expect(text).toMatch(/^(?!-0$)-?(0|[1-9]\d*)(\.\d*[1-9])?$/)
          expect(text.split('.')[1]?.length ?? 0).toBeLessThanOrEqual(decimals)
          expect(Math.abs(Number(text) - value)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-9)
        },
      ),
    )
  })
})
