import { create, unitDependencies, type FactoryFunctionMap } from 'mathjs'
import { expect, it } from 'vitest'
import { convert, type UnitName } from '../../../src-core/units/convert.ts'

const factories: FactoryFunctionMap = { unitDependencies: unitDependencies! }
const math = create(factories, {}) as unknown as {
  unit(value: number, unit: string): { toNumber(unit: string): number }
}

const DIMENSIONS: readonly (readonly UnitName[])[] = [
  ['um', 'mm', 'cm', 'dm', 'm', 'mil', 'in', 'ft'],
  ['g', 'kg', 'oz', 'lbm'],
  ['N', 'lbf'],
  ['N m', 'lbf ft'],
  ['m/minute', 'ft/minute'],
  ['kg/m^3', 'lbm/inch^3'],
]

it('every factor is the units library’s to the last bit', () => {
  for (const units of DIMENSIONS)
    for (const from of units)
      for (const to of units)
        expect(convert(1, from, to), `${from} in ${to}`).toBe(math.unit(1, from).toNumber(to))
})

it('units of two dimensions do not go together', () => {
  expect(() => convert(1, 'mm', 'kg')).toThrow(RangeError)
  expect(() => convert(1, 'N', 'N m')).toThrow(RangeError)
  expect(() => convert(1, 'furlong' as UnitName, 'mm')).toThrow(RangeError)
})

it('a plain figure of each: 25.4 mm, 16 oz and 4.448 N', () => {
  expect(convert(1, 'in', 'mm')).toBeCloseTo(25.4, 12)
  expect(convert(1, 'lbm', 'oz')).toBeCloseTo(16, 12)
  expect(convert(1, 'lbf', 'N')).toBeCloseTo(4.4482216152605, 12)
})
