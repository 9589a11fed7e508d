import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { heavyTorque, spindleFriction } from '../../../src-core/checks/byHand.ts'
import type { Hardware, Job } from '../../../src-core/job/schema.ts'
import { checksByHand } from '../../../src-core/words/cautions.ts'
import { expectNear } from '../../helpers/near.ts'
import { disc, jobWith, partOf, piece } from '../../helpers/jobs.ts'

/** A steel disc 100 mm off the axis of this mass in kg, on a plate whose slots reach 135 mm. */
function offCentre(mass: number, hardware: readonly Hardware[] = []): Job {
  const part = partOf([disc('d', { x: 100, y: 0 }, 80, 20)], [], { weighedMass: mass })
  return jobWith({ part, setup: { hardware } })
}
const hand = (job: Job) => analyse(job, 'op10').by_hand
const found = (job: Job, code: string) => analyse(job, 'op10').findings.filter((f) => f.code === code)

describe('the heavy side in the hand', () => {
  test('1 kg at 100 mm hangs with 0.980665 N·m', () => {
    expectNear(heavyTorque(100_000), 0.980665, { rel: 1e-12 })
    const h = hand(offCentre(1))
    expectNear(h.torque_N_m, 0.980665, { rel: 1e-9 })
    expectNear(h.rim_push_N, 0.980665 / 0.15, { rel: 1e-9 })
    expectNear(h.as_weight.radius_mm, 135, { abs: 0 })
    expectNear(h.as_weight.mass_kg, 100 / 135, { rel: 1e-9 })
  })

  test('a small one stays, a middling one may roll, a large one rolls, a very large one swings', () => {
    // 11 kg of plate: a spindle resists with 0.2 + 0.0017·W·0.03 to 1.5 + 0.02·W·0.04.
    const { least, most } = spindleFriction(12)
    expectNear(least, 0.2 + 0.0017 * 12 * 9.80665 * 0.03, { rel: 1e-12 })
    expectNear(most, 1.5 + 0.02 * 12 * 9.80665 * 0.04, { rel: 1e-12 })
    expect([0.15, 1, 3, 12].map((m) => hand(offCentre(m)).rolls)).toEqual([
      'stays',
      'may roll',
      'rolls',
      'swings',
    ])
    expect(checksByHand('stays').join(' ')).not.toMatch(/let it roll/)
    expect(checksByHand('swings').join(' ')).toMatch(/Chock the plate/)
  })

  test('what swings while it is loaded is chocked, be it balanced in the end', () => {
    const weight = piece('w', 12, { x: -100, y: 0 })
    const job = offCentre(12, [weight])
    const h = hand(job)
    expectNear(h.torque_N_m, 0, { abs: 1e-9 })
    expectNear(h.loading_torque_N_m, 12 * 0.980665, { rel: 1e-9 })
    expect(h.rolls).toBe('stays')
    const [finding] = found(job, 'heavy-side')
    expect(finding!.severity).toBe('caution')
    expect(finding!.message).toMatch(
      /^Chock the plate while it is loaded\. It swings down with up to 11\.8 N·m/,
    )
    // A clamp opposite does not count before it is on: the part alone is the worst.
    expectNear(hand(offCentre(12, [{ ...weight, kind: 'bracket' }])).loading_torque_N_m, 12 * 0.980665, {
      rel: 1e-9,
    })
  })
})

describe('what has to be lifted', () => {
  test('in the order in which it goes on, weights last, small pieces left out', () => {
    const job = offCentre(14, [
      piece('w', 4, { x: -100, y: 0 }),
      piece('p', 3.5, { x: 0, y: 60 }, { kind: 'packing' }),
      piece('small', 0.5, { x: 0, y: -60 }),
    ])
    expect(hand(job).lifts).toEqual([
      { item: 'plate', mass_kg: 11 },
      { item: 'p', mass_kg: 3.5 },
      { item: 'part', mass_kg: expect.closeTo(14, 9) as number },
      { item: 'w', mass_kg: 4 },
    ])
    const [f] = found(job, 'heavy-lift')
    expect(f!.severity).toBe('note')
    expect(f!.message).toMatch(
      /^Lift the plate, the part with tackle or by two\. In order: the plate 11 kg, then p 3\.5 kg/,
    )
    // Guideline weights by reach and height, from memory of the published figure.
    expect(f!.message).toContain('the guideline is 10 kg for a man and 7 kg for a woman')
    expect(f!.message).toContain('20 kg and 13 kg close to the body')
    expect(f!.message).toContain('from the floor 10 kg and 7 kg')
  })

  test('over what a man lifts close to the body is a caution, under what a woman lifts at arm’s length nothing', () => {
    expect(found(offCentre(21), 'heavy-lift')[0]!.severity).toBe('caution')
    const light = { ...offCentre(6.9), plate: { ...offCentre(1).plate, mass: 6 } }
    expect(found(light, 'heavy-lift')).toEqual([])
  })
})

describe('the pull beside the machine', () => {
  const on = (mass: number | null, boltedDown: boolean) => {
    const job = offCentre(1)
    return found({ ...job, lathe: { ...job.lathe, mass, boltedDown } }, 'pull-of-machine')
  }
  test('is compared with its own weight, bolted down or not, where that is given', () => {
    expect(on(null, false)).toEqual([])
    // 0.1 kg·m at 110 rpm pulls 13.3 N by the best estimate, a little more by its bound.
    expect(on(500, false)[0]!.message).toMatch(/^The pull is 0\.\d+ % of the machine's own weight: 1\d N/)
    expect(on(20, false)[0]!.severity).toBe('caution')
    expect(on(20, true)[0]!.severity).toBe('note')
  })
})

describe('a plate that runs out', () => {
  const bound = (runOut: Job['plate']['runOut'], residual: Job['plate']['residual'] = null) => {
    const job = jobWith({})
    return analyse({ ...job, plate: { ...job.plate, runOut, residual } }, 'op10').covariance.xx
  }
  test('enters the doubt: half the reading of its edge, and the lean of its face at the height of what is on', () => {
    const part = 7850e-9 * Math.PI * 60 ** 2 * 20
    // 11 kg with half of 0.4 mm in an unknown direction.
    expectNear(bound({ radial: 0.4 }) - bound(null), (11_000 * 0.2) ** 2 / 2, { rel: 1e-9 })
    // 0.3 mm over 300 mm leans by 1/1000: the part's middle, 22 mm off, lies 0.022 mm off.
    expectNear(bound({ face: 0.3 }) - bound(null), (part * 1000 * 0.022) ** 2 / 2, { rel: 1e-6 })
    // A residual that was measured holds the offset of the edge already.
    const measured = { amount: 0, angle: 0 }
    expectNear(bound({ radial: 0.4 }, measured), bound(null, measured), { rel: 1e-12 })
  })
})
