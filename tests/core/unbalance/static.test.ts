import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Criterion } from '../../../src-core/job/schema.ts'
import { allowedUnbalance, criterionCeiling } from '../../../src-core/unbalance/criterion.ts'
import {
  STANDARD_GRAVITY,
  angularSpeed,
  centrifugalForce,
  coupleMoment,
  equivalentGrade,
  permissibleUnbalance,
  rpmOf,
} from '../../../src-core/unbalance/static.ts'
import { expectNear } from '../../helpers/near.ts'

const positive = fc.integer({ min: 1, max: 10_000_000 }).map((n) => n / 1000)
const kinds = fc.constantFrom('force', 'weightShare', 'machineShare', 'grade' as const)
const weights = (turning: number) => ({ turning, machine: 40 * turning })

describe('force, couple and grade', () => {
  it('follow m·r·ω², C·ω² and e·ω from kilograms, metres and seconds', () => {
    // 2 kg, 150 mm off, once round in 0.5 s: ω = 4π rad/s.
    const omega = 4 * Math.PI
    expectNear(angularSpeed(120), omega, { rel: 1e-15 })
    expectNear(rpmOf(omega), 120, { rel: 1e-15 })
    expectNear(centrifugalForce(2000 * 150, 120), 2 * 0.15 * omega ** 2, { rel: 1e-14 })
    expectNear(coupleMoment(2000 * 150 * 40, 120), 2 * 0.15 * 0.04 * omega ** 2, { rel: 1e-14 })
    // 300 000 g·mm on 30 kg is an eccentricity of 10 mm.
    expectNear(equivalentGrade(300_000, 30, 120), 10 * omega, { rel: 1e-14 })
  })

  it('force grows with the square of the speed and in proportion to the unbalance', () => {
    fc.assert(
      fc.property(positive, positive, positive, (u, n, k) => {
        expectNear(centrifugalForce(u, k * n), k * k * centrifugalForce(u, n), { rel: 1e-12 })
        expectNear(centrifugalForce(k * u, n), k * centrifugalForce(u, n), { rel: 1e-12 })
      }),
    )
  })

  it('the residual that a grade permits has just that grade', () => {
    fc.assert(
      fc.property(positive, positive, positive, (grade, mass, rpm) => {
        expectNear(equivalentGrade(permissibleUnbalance(grade, mass, rpm), mass, rpm), grade, { rel: 1e-12 })
      }),
    )
  })
})

describe('criteria', () => {
  it('ceiling and allowed unbalance are each other’s inverse', () => {
    fc.assert(
      fc.property(kinds, positive, positive, positive, (kind, value, mass, rpm) => {
        const criterion = { kind, value }
        const u = allowedUnbalance(criterion, weights(mass), rpm)
        expectNear(criterionCeiling(criterion, weights(mass), u)!, rpm, { rel: 1e-12 })
        expectNear(
          allowedUnbalance(criterion, weights(mass), criterionCeiling(criterion, weights(mass), 777)!),
          777,
          {
            rel: 1e-12,
          },
        )
      }),
    )
  })

  it('at the ceiling the force, share or grade is the one asked for', () => {
    const at = (kind: Criterion['kind'], value: number) =>
      criterionCeiling({ kind, value }, weights(20), 5e4)!
    expectNear(centrifugalForce(5e4, at('force', 60)), 60, { rel: 1e-12 })
    expectNear(centrifugalForce(5e4, at('weightShare', 0.1)), 0.1 * 20 * STANDARD_GRAVITY, { rel: 1e-12 })
    expectNear(centrifugalForce(5e4, at('machineShare', 0.05)), 0.05 * 800 * STANDARD_GRAVITY, { rel: 1e-12 })
    expectNear(equivalentGrade(5e4, 20, at('grade', 40)), 40, { rel: 1e-12 })
  })

  it('by hand: 2 % of a lathe of 250 kg is 49 N, which 100 kg·mm pull with at 211 rpm', () => {
    const rpm = criterionCeiling({ kind: 'machineShare', value: 0.02 }, { turning: 20, machine: 250 }, 1e5)!
    expectNear(rpm, (Math.sqrt((0.02 * 250 * 9.80665) / 0.1) * 30) / Math.PI, { rel: 1e-12 })
    expectNear(rpm, 211.46, { abs: 0.01 })
  })

  it('a share of a machine whose weight is not known allows nothing and sets no ceiling', () => {
    const share = { kind: 'machineShare', value: 0.05 } as const
    expect(allowedUnbalance(share, { turning: 20, machine: null }, 100)).toBe(0)
    expect(criterionCeiling(share, { turning: 20, machine: null }, 5e4)).toBeNull()
  })

  it('more unbalance never raises the ceiling; none at all sets none', () => {
    fc.assert(
      fc.property(kinds, positive, positive, positive, positive, (kind, value, mass, u, more) => {
        const criterion = { kind, value }
        expect(criterionCeiling(criterion, weights(mass), u + more)!).toBeLessThan(
          criterionCeiling(criterion, weights(mass), u)!,
        )
        expect(criterionCeiling(criterion, weights(mass), 0)).toBeNull()
      }),
    )
  })
})
