import { create, erfDependencies, type FactoryFunctionMap } from 'mathjs'
import { expect, it } from 'vitest'
import { erf } from '../../../src-core/doubt/erf.ts'
import { expectNear } from '../../helpers/near.ts'

const factories: FactoryFunctionMap = { erfDependencies: erfDependencies! }
const math = create(factories, {}) as unknown as { erf(x: number): number }

it('is the library’s to the last bit over all three ranges and beyond them', () => {
  const edges = [0.46875, 4, 6, 9, 1e9, Infinity].flatMap((x) => [x, x * (1 - 2 ** -52), x * (1 + 2 ** -52)])
  const steps = Array.from({ length: 20_000 }, (_, i) => i * 0.0004137)
  const differing = [0, 1e-300, 1e-9, ...edges, ...steps]
    .flatMap((x) => [x, -x])
    .filter((x) => !Object.is(erf(x), math.erf(x)))
  expect(differing).toEqual([])
  expect(erf(NaN)).toBeNaN()
})

// Abramowitz and Stegun, Handbook of Mathematical Functions, table 7.1.
it.each([
  [0.1, 0.112462916],
  [0.5, 0.5204998778],
  [1, 0.8427007929],
  [2, 0.995322265],
])('erf(%d) is %d as tabled', (x, value) => expectNear(erf(x), value, { abs: 5.1e-11 }))
