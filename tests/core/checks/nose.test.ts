import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { changeTorque, screwedNose } from '../../../src-core/checks/nose.ts'
import { standingAt } from '../../../src-core/findings/finding.ts'
import type { Job, Lathe } from '../../../src-core/job/schema.ts'
import { verdictAt } from '../../../src-core/verdict/speeds.ts'
import { expectNear } from '../../helpers/near.ts'
import { jobWith } from '../../helpers/jobs.ts'

const job = (lathe: Partial<Lathe>, speed = 440): Job => jobWith({ lathe, setup: { speed } })
const found = (j: Job, ...codes: string[]) =>
  analyse(j, 'op10').findings.filter((f) => codes.includes(f.code))
const screwed = { nose: { kind: 'screwed', locked: false } } as const

describe('a screwed nose', () => {
  test('a disc of 20 kg and 300 mm stopped from 300 rpm in half a second: ½·20·0.15²·31.416/0.5 = 14.14 N·m', () => {
    expectNear(changeTorque(0.5 * 20 * 150 ** 2, 300, 0.5), 14.137, { rel: 1e-4 })
  })

  test('loosens from the speed at which the stop overcomes 0.75 × 150 N × 0.15 m = 16.875 N·m', () => {
    const lathe = { ...job({}).lathe, ...screwed, brakeTime: 0.25 }
    const plate = job({}).plate
    const { seated, loosens } = screwedNose(lathe, plate, 225_000)
    expectNear(seated, 16.875, { rel: 1e-12 })
    expectNear(changeTorque(225_000, loosens!, 0.25), seated, { rel: 1e-12 })
  })

  test('a start in less than 0.75 of the stop seats it harder than any stop loosens', () => {
    const at = (startTime: number) =>
      screwedNose({ ...job({}).lathe, startTime, brakeTime: 2 }, job({}).plate, 225_000)
    expect(at(1.4).loosens).toBeNull()
    expect(at(1.6).loosens).not.toBeNull()
  })

  test('with a known brake it is a stop above that speed and a caution at every other', () => {
    const j = job({ ...screwed, brakeTime: 0.1 })
    const [stop] = found(j, 'nose-unscrews')
    expect(stop!.effect).toBe('stop')
    expect(stop!.message).toMatch(/^A stop unscrews the plate above /)
    const { loosens } = screwedNose(j.lathe, j.plate, analyse(j, 'op10').assembly.inertia_kg_mm2.zz)
    expect(stop!.fromRpm).toBe(loosens)
    expect(verdictAt(loosens! * 1.01, { findings: [stop!], ceilings: NONE })).toBe('stop')
    expect(verdictAt(loosens! * 0.99, { findings: [stop!], ceilings: NONE })).toBe('go')
    expect([440, 45].map((rpm) => standingAt(stop!, rpm))).toEqual(['stop', 'caution'])
    expect(found(j, 'nose-screwed')).toHaveLength(1)
  })

  test('locked, or of another kind, nothing is said', () => {
    const kinds: Lathe['nose'][] = [
      { kind: 'screwed', locked: true },
      { kind: 'cam-lock', locked: false },
      { kind: 'flanged', locked: false },
      { kind: 'taper', locked: false },
    ]
    for (const nose of kinds) expect(found(job({ nose, brakeTime: 0.1 }), ...CODES)).toEqual([])
  })

  test('a slow lathe that no stop could loosen is not asked for its nose', () => {
    expect(found(job({ brakeTime: 0.1 }), ...CODES)).toHaveLength(1)
    expect(found(job({ brakeTime: 4 }), ...CODES)).toEqual([])
  })

  test('leaving out nose or stopping time never makes it better than not judged, nor from a higher speed', () => {
    const time = fc.double({ min: 0.05, max: 3, noNaN: true })
    fc.assert(
      fc.property(time, fc.option(time, { nil: null }), fc.boolean(), (brakeTime, startTime, keepNose) => {
        const known = { ...screwed, brakeTime, startTime }
        const from = (l: Partial<Lathe>) =>
          Math.min(
            Infinity,
            ...found(job(l), ...CODES).flatMap((f) => (f.effect === 'none' ? [] : [f.fromRpm])),
          )
        const less = keepNose ? { ...known, startTime: null } : { ...known, nose: null }
        expect(from(less)).toBeLessThanOrEqual(from(known))
      }),
      { numRuns: 60 },
    )
  })
})

const CODES = ['nose-screwed', 'nose-unscrews', 'nose-not-known']
const NONE = { bound: { rpm: null, limit: null }, best: { rpm: null, limit: null } }
