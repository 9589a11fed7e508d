import { describe, expect, test } from 'vitest'
import { boltPreload, boltTorque, strapForce } from '../../src-core/hardware/preload.ts'
import { findThread, proofLoad } from '../../src-core/hardware/threads.ts'
import { UNCERTAINTY_DEFAULTS } from '../../src-core/doubt/defaults.ts'
import { convert } from '../../src-core/units/convert.ts'
import { expectNear } from '../helpers/near.ts'

const lbfFt = (nm: number) => convert(convert(nm, 'N', 'lbf'), 'm', 'ft')

describe('torque and preload, T = K·D·F', () => {
  test('⅜-16 grade 5 at 75 % of proof: 4940 lbf, 30.9 lbf·ft dry (0.20), 23.2 lubricated (0.15) (nut factor note of a fastener workshop)', () => {
    const thread = findThread('3/8-16')!
    const preload = 0.75 * proofLoad(thread, '5')!
    expectNear(convert(preload, 'N', 'lbf'), 4940, { abs: 1 })
    expectNear(lbfFt(boltTorque(preload, 0.2, thread.diameter)), 30.9, { abs: 0.05 })
    expectNear(lbfFt(boltTorque(preload, 0.15, thread.diameter)), 23.2, { abs: 0.05 })
  })

  /** Clamp studs, clean and dry, two-to-one strap: published stud tension and force on the work (Carr Lane, clamping force). */
  test.each([
    ['1/4-20', 4, 1000, 500],
    ['5/16-18', 9, 1800, 900],
    ['3/8-16', 16, 2600, 1300],
    ['1/2-13', 38, 4600, 2300],
    ['5/8-11', 77, 7400, 3700],
    ['3/4-10', 138, 11_000, 5500],
    ['7/8-9', 222, 15_200, 7600],
    ['1-8', 333, 20_000, 10_000],
  ] as const)('%s at %i lbf·ft pulls %i lbf and presses %i on the work', (name, torque, tension, work) => {
    const thread = findThread(name)!
    const nm = convert(convert(torque, 'lbf', 'N'), 'ft', 'm')
    const preload = boltPreload(nm, UNCERTAINTY_DEFAULTS.nutFactor, thread.diameter)
    // The printed torques are whole numbers: one in 4 is 12 %.
    expectNear(convert(preload, 'N', 'lbf'), tension, { rel: 0.5 / torque + 0.02 })
    expectNear(strapForce(tension, 30, 30), work, { rel: 1e-12 })
  })

  test('strap lever (statics)', () => {
    expectNear(strapForce(1, 20, 40), 0.6667, { abs: 5e-5 })
    expectNear(strapForce(1, 30, 30), 0.5, { abs: 1e-12 })
    expectNear(strapForce(1, 40, 20), 0.3333, { abs: 5e-5 })
  })

  test('preload and torque undo one another', () => {
    expect(boltTorque(boltPreload(45, 0.2, 12), 0.2, 12)).toBeCloseTo(45, 12)
  })
})
