import { expect, test } from 'vitest'
import { clockPosition, formatter } from '../../../src-core/units/format.ts'

// A dial's hour is 30°, its half hour 15°; 12 stands at +y, and the hours run against the angle.
test.each([
  [90, "12 o'clock"],
  [0, "3 o'clock"],
  [-90, "6 o'clock"],
  [270, "6 o'clock"],
  [180, "9 o'clock"],
  [60, "1 o'clock"],
  [75, 'half past 12'],
  [105, 'half past 11'],
  [120, "11 o'clock"],
  [-345, 'half past 2'],
])('%d° is at %s', (degrees, words) => expect(clockPosition(degrees)).toBe(words))

test('the nearest half hour is named: 7.4° to either side, never the one beyond', () => {
  for (let k = 0; k < 24; k++) {
    const words = clockPosition(15 * k)
    expect([clockPosition(15 * k + 7.4), clockPosition(15 * k - 7.4)]).toEqual([words, words])
    expect(clockPosition(15 * k + 7.6)).toBe(clockPosition(15 * (k + 1)))
  }
  expect(new Set(Array.from({ length: 24 }, (_, k) => clockPosition(15 * k))).size).toBe(24)
})

test('what is there but rounds to nought is not shown as nothing', () => {
  const { length, mass, unbalance } = formatter('mm')
  expect([length(0.04), length(-0.04), length(0), length(1e-12)]).toEqual([
    'under 0.1 mm',
    'minus under 0.1 mm',
    '0 mm',
    '0 mm',
  ])
  expect([mass(0.0003), mass(0), mass(0.0006)]).toEqual(['under 1 g', '0 g', '1 g'])
  expect(unbalance(0.01)).toBe('under 0.1 g·mm')
  expect(formatter('in').length(0.004)).toBe('under 0.001 in')
})

test('a density in the units of a shop', () => {
  expect(formatter('mm').density(7850)).toBe('7850 kg/m³')
  // 1 lb/in³ = 0.45359237 kg / (0.0254 m)³ = 27 679.905 kg/m³, so that steel of 7850 is 0.2836.
  expect(formatter('in').density(7850)).toBe('0.284 lb/in³')
})

test('an estimate is a round figure in inches too', () => {
  const { give } = formatter('in')
  // By hand: 0.5, 1, 0.25, 0.3 and 2 mm are 19.69, 39.37, 9.84, 11.81 and 78.74 thou.
  expect([0.5, 1, 0.25, 0.3, 2, 0].map(give)).toEqual([20, 40, 10, 12, 80, 0].map((n) => `${n} thou`))
  expect(formatter('mm').give(0.25)).toBe('0.25 mm')
})

test('nor written out in a row of noughts', () => {
  const { force, torque, percent, cuttingSpeed } = formatter('mm')
  expect([force(2e-7), force(-2e-7), force(0), force(0.0234)]).toEqual([
    'under 0.001 N',
    'minus under 0.001 N',
    '0 N',
    '0.023 N',
  ])
  expect([torque(1e-5), percent(1e-5), cuttingSpeed(0.02)]).toEqual([
    'under 0.001 N·m',
    'under 0.01 %',
    'under 0.1 m/min',
  ])
  const inch = formatter('in')
  // 0.1 g·mm is 1.4e-4 oz·in; 0.0004 kg is 0.88 thousandths of a pound; 0.1 m/min a third of a foot.
  expect([inch.unbalance(0.1), inch.mass(0.0004), inch.cuttingSpeed(0.1), inch.fine(0.001)]).toEqual([
    'under 0.001 oz·in',
    'under 0.001 lb',
    'under 1 ft/min',
    'under 0.1 thou',
  ])
})

test('a figure that cannot be, of sizes that cannot be, is no row of digits and no word of arithmetic', () => {
  const { percent, force, length, unbalance } = formatter('mm')
  expect([percent(Infinity), force(1e300), length(-1e13), unbalance(Infinity)]).toEqual([
    'over 1000000000000 %',
    'over 1000000000000 N',
    'under -1000000000000 mm',
    'over 1000000000000 g·mm',
  ])
})

test('areas and stresses are told in the units shown', () => {
  // 645.16 mm² to the square inch; 1 lbf/in² is 6894.757 Pa.
  expect([formatter('mm').area(636.4), formatter('in').area(645.16)]).toEqual(['636 mm²', '1 in²'])
  expect([formatter('mm').stress(225), formatter('in').stress(225)]).toEqual(['225 N/mm²', '32630 psi'])
})
