import { describe, expect, test } from 'vitest'
import { MATERIALS, findMaterial } from '../../src-core/job/materials.ts'
import { allowedUnbalance, criterionCeiling } from '../../src-core/unbalance/criterion.ts'
import { centrifugalForce, equivalentGrade, permissibleUnbalance } from '../../src-core/unbalance/static.ts'
import { expectNear } from '../helpers/near.ts'

/** U_per = 1000·G·m/Ω (ISO 21940-11), against printed worked examples. */
describe('permissible residual unbalance', () => {
  test.each([
    ['tooling catalogue, 2 kg at 10 000 rpm, G 6.3: 12 g·mm', 2, 10_000, 6.3, 12.032114, 12, 0.05],
    ['toolholding catalogue, 1 kg at 15 000 rpm, G 6.3: 4 µm', 1, 15_000, 6.3, 4.0107046, 4, 0.02],
    ['toolholding catalogue, 1 kg at 30 000 rpm, G 6.3: 2 µm', 1, 30_000, 6.3, 2.0053523, 2, 0.01],
    ['trade page, 2 kg at 15 000 rpm, G 2.5: 3.18 g·mm', 2, 15_000, 2.5, 3.1830989, 3.18, 0.005],
    // Inputs and answer from memory (annex example of ISO 1940-1:2003).
    ['3600 kg at 3000 rpm, G 2.5: 28.6e3 g·mm', 3600, 3000, 2.5, 28_647.89, 28_600, 60],
  ] as const)('%s', (_, mass, rpm, grade, exact, printed, slack) => {
    const u = permissibleUnbalance(grade, mass, rpm)
    expectNear(u, exact, { rel: 1e-6 })
    expectNear(u, printed, { abs: slack })
    expectNear(equivalentGrade(u, mass, rpm), grade, { rel: 1e-12 })
  })

  test('U = 9549·G·m/n', () => expectNear(permissibleUnbalance(1, 1, 1), 9549.2966, { rel: 1e-8 }))
})

describe('centrifugal force F = U·ω²', () => {
  test.each([
    [50, 0.027415568],
    [100, 0.10966227],
    [150, 0.24674011],
    [200, 0.43864908],
    [300, 0.98696044],
    [400, 1.7545963],
    [500, 2.7415568],
    [600, 3.9478418],
    [800, 7.0183854],
    [1000, 10.966227],
  ])('1000 g·mm at %i rpm', (rpm, force) => expectNear(centrifugalForce(1000, rpm), force, { rel: 1e-7 }))

  test('fan handbook: 20 g at 450 mm and 3000 rpm is about 900 N', () => {
    expectNear(centrifugalForce(9000, 3000), 888.2644, { rel: 1e-6 })
    expectNear(centrifugalForce(9000, 3000), 900, { rel: 0.02 })
  })

  test('tooling catalogue: F = U·(n/9549)², 1 g·mm at 25 000 rpm is 6.9 N', () => {
    expectNear(centrifugalForce(1, 25_000), (25_000 / 9549) ** 2, { rel: 1e-4 })
    expectNear(centrifugalForce(1, 25_000), 6.9, { abs: 0.05 })
  })
})

describe('criteria', () => {
  const criteria = [
    { kind: 'force', value: 30 },
    { kind: 'weightShare', value: 0.1 },
    { kind: 'grade', value: 6.3 },
  ] as const
  test.each(criteria)('$kind: at its ceiling the unbalance is what it allows', (criterion) => {
    const rpm = criterionCeiling(criterion, { turning: 16, machine: null }, 5000)!
    expectNear(allowedUnbalance(criterion, { turning: 16, machine: null }, rpm), 5000, { rel: 1e-12 })
    expect(criterionCeiling(criterion, { turning: 16, machine: null }, 0)).toBeNull()
    expect(criterionCeiling(criterion, { turning: 16, machine: null }, 6000)!).toBeLessThan(rpm)
  })
  test('a tenth of 16 kg pulls 15.69 N', () => {
    const rpm = criterionCeiling({ kind: 'weightShare', value: 0.1 }, { turning: 16, machine: null }, 5000)!
    expectNear(centrifugalForce(5000, rpm), 15.69064, { rel: 1e-6 })
  })
})

/** Densities in kg/m³: Gere, Mechanics of Materials, 5th ed., unless named otherwise. */
test.each([
  ['steel', 7850, 7850],
  ['grey cast iron', 7000, 7400],
  ['SG iron', 7100, 7200],
  ['6061', 2700, 2720],
  ['brass', 8400, 8730],
  ['bronze', 7400, 8900],
  ['copper', 8900, 8960],
  ['titanium', 4500, 4500],
  ['lead', 11_340, 11_340],
  ['stainless', 7480, 8000],
  ['acetal', 1410, 1410],
  ['zamak 3', 6600, 6600],
] as const)('density of %s lies in its published range', (name, low, high) => {
  const material = findMaterial(name)!
  expect(material.density).toBeGreaterThanOrEqual(low)
  expect(material.density).toBeLessThanOrEqual(high)
})

test('names are forgiving, never ambiguous, and unknown ones are null', () => {
  expect(findMaterial('Grey Cast-Iron')?.name).toBe('grey cast iron')
  expect(findMaterial('')).toBeNull()
  expect(findMaterial('unobtainium')).toBeNull()
  const names = MATERIALS.flatMap((m) => [m.name, ...m.aliases]).map((n) =>
    n.toLowerCase().replace(/[^a-z0-9]/g, ''),
  )
  expect(new Set(names).size).toBe(names.length)
})
