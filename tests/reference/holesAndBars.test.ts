/** Published limits of holes and published boring bars. */
import { describe, expect, test } from 'vitest'
import { OVERHANG_LIMITS, barGives, barWords } from '../../src-core/cutting/bar.ts'
import { holeLimits } from '../../src-core/passes/holeClasses.ts'
import { formatter } from '../../src-core/units/format.ts'
import { expectNear } from '../helpers/near.ts'

describe('holes (ISO 286-2), µm from nominal', () => {
  test.each([
    [40, 'H7', 0, 25],
    [40, 'H11', 0, 160],
    [50, 'H6', 0, 16],
    [50.001, 'H6', 0, 19],
    [3, 'H7', 0, 10],
    [500, 'H7', 0, 63],
    [25, 'F7', 20, 41],
    // Printed 2 in an open data set: 4.
    [5, 'G7', 4, 16],
    [25, 'K7', -15, 6],
    // Printed −36/−15 there: −28/−7.
    [25, 'N7', -28, -7],
    [100, 'P7', -59, -24],
    [60, 'JS7', -15, 15],
  ] as const)('%d %s', (nominal, name, low, high) => {
    const limits = holeLimits(nominal, name)!
    expectNear((limits[0] - nominal) * 1000, low, { abs: 1e-6 })
    expectNear((limits[1] - nominal) * 1000, high, { abs: 1e-6 })
  })

  test.each([
    [600, 'H7'],
    [0, 'H7'],
    [40, 'h7'],
    [40, 'H4'],
    [40, 'H12'],
    [40, 'K6'],
    [40, 'Z7'],
    [40, 'H'],
    [40, ''],
  ] as const)('%d "%s" is not in the table', (nominal, name) => {
    expect(holeLimits(nominal, name)).toBeNull()
  })

  // Nominal in inches, limits in thousandths: ANSI B4.1, the table printed in Machinery's Handbook, 27th ed., p. 663.
  test.each([
    [0.1, 'H6', 0.25],
    [0.2, 'H7', 0.5],
    [0.4, 'H8', 0.9],
    [0.5, 'H7', 0.7],
    [1, 'H7', 0.8],
    [1.19, 'H6', 0.5],
    [1.2, 'H6', 0.6],
    [1.5, 'H8', 1.6],
    [2, 'H7', 1.2],
    [3.94, 'H8', 2.2],
  ] as const)('%d in, ANSI %s', (inches, name, thou) => {
    const limits = holeLimits(inches * 25.4, `ANSI ${name}`)!
    expectNear(limits[0] / 25.4, inches, { rel: 1e-12 })
    expectNear((limits[1] - limits[0]) / 0.0254, thou, { rel: 1e-9 })
  })
  test.each([
    [4, 'ANSI H7'],
    [1, 'ANSI H9'],
    [1, 'ANSI G7'],
    [0, 'ANSI H7'],
  ] as const)('%d in, %s is not in the inch table', (inches, name) => {
    expect(holeLimits(inches * 25.4, name)).toBeNull()
  })

  test('grades widen with number and size', () => {
    const width = (nominal: number, grade: number) => {
      const [low, high] = holeLimits(nominal, `H${grade}`)!
      return high - low
    }
    const sizes = [2, 5, 8, 15, 25, 40, 60, 100, 150, 200, 300, 350, 450]
    for (const size of sizes)
      for (let g = 6; g <= 11; g++) expect(width(size, g)).toBeGreaterThan(width(size, g - 1))
    for (let i = 1; i < sizes.length; i++)
      for (let g = 5; g <= 11; g++)
        expect(width(sizes[i]!, g)).toBeGreaterThanOrEqual(width(sizes[i - 1]!, g))
  })
})

describe('boring bars', () => {
  test.each([
    // A trade article: 1 in bar, 4 in out, 30e6 psi, 207.8 lbf: 0.003 in printed; its printed numerator 12 652.8 should
    // be 207.8·64.
    [207.8, 1, 4, 30e6, 0.003, 0.0030103],
    // A calculator page, which back-solves to 100 lbf: 0.001498 in.
    [100, 1, 4, 29e6, 0.001498, 0.00149862],
    // The article in metric: 911.1 N, 25.4 mm, 101.6 mm, 206 GPa: 0.0757 mm.
    [911.1, 25.4, 101.6, 206_000, 0.0757, 0.075674],
  ] as const)('%d on a bar of %d standing out %d', (force, diameter, overhang, modulus, printed, exact) => {
    const gives = barGives(force, { diameter, overhang }, modulus)
    expectNear(gives, exact, { rel: 1e-4 })
    expectNear(gives, printed, { rel: 0.005 })
  })

  test.each([
    [16, 64, 13.186],
    [25, 100, 8.439],
    [32, 128, 6.593],
    [25, 150, 28.481],
  ] as const)('steel %d mm standing out %d mm gives %d µm under 100 N', (diameter, overhang, micrometres) => {
    expectNear(barGives(100, { diameter, overhang }) * 1000, micrometres, { rel: 1e-4 })
  })

  test('the usual rule of overhang', () => {
    const fmt = formatter('mm')
    expect(OVERHANG_LIMITS.steel).toBe(4)
    expect(barWords({ diameter: 20, overhang: 80 }, fmt)).toBeNull()
    expect(barWords({ diameter: 20, overhang: 90 }, fmt)).toMatch(
      /90 mm of 20 mm is 4.5 diameters, a steel bar carries 4/,
    )
    expect(barWords({ diameter: 20, overhang: 90 }, fmt, 'carbide')).toBeNull()
  })
})
