/** Clamp data that means nothing must never read as a pass, and messages carry what was reckoned with. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { FIXTURE_FRICTION, NUT_FACTORS } from '../../../src-core/holding/friction.ts'
import { findThread, proofLoad } from '../../../src-core/hardware/threads.ts'
import { UNCERTAINTY_DEFAULTS } from '../../../src-core/doubt/defaults.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { FOUR_CLAMPS, heldBlock } from '../../helpers/heldJobs.ts'
import { exampleJob } from '../../helpers/jobs.ts'

const link = exampleJob('flat-link')
const message = (job: Job, code: string) =>
  analyse(job, 'op10').findings.find((f) => f.code === code)?.message

test.each(['constructor', 'toString', '__proto__', 'hasOwnProperty', ''])(
  'a name that every object has is no strength class: %j',
  (name) => {
    expect(proofLoad(findThread('M12')!, name)).toBeNull()
    const named = FOUR_CLAMPS.map((c) => ({ ...c, stud: { ...c.stud, class: name } }))
    const { clamping, findings, speeds } = analyse(heldBlock({ hardware: named }), 'op10')
    expect(clamping).toBeNull()
    expect(speeds.every((s) => s.clamp_factor === null)).toBe(true)
    expect(findings.map((f) => f.code)).toContain('joint-not-judged')
    expect(findings.map((f) => f.code)).not.toContain('joint-holds')
  },
)

test('a pitch is digits; a fine pitch takes the coarse thread, which carries less', () => {
  expect(findThread('M12x1.25')?.name).toBe('M12')
  expect(findThread('M12×1,25')?.name).toBe('M12')
  for (const name of ['M12xyz', 'M12x', 'M12x-1', 'constructor']) expect(findThread(name)).toBeNull()
})

describe('messages', () => {
  test('the part that holds: factor, speed, what governs, both parts of it, friction, whose limit it is', () => {
    const text = message(heldBlock(), 'joint-holds')!
    for (const word of [
      'factor ',
      '110 rpm',
      'the cut',
      'sliding alone',
      'tipping alone',
      'friction 0.12',
      'rule of thumb',
    ])
      expect(text).toContain(word)
  })

  test('the part that does not: what it may do, and what can be done', () => {
    const loose = FOUR_CLAMPS.map((c) => ({ ...c, torque: 8 }))
    const text = message(heldBlock({ hardware: loose }), 'joint-slides')!
    expect(text).toMatch(/^The part may slide on its seat/)
    for (const word of ['2 wanted', 'Add a clamp', 'tighten within the proof load', 'lighter cut'])
      expect(text).toContain(word)
  })

  test('tightening is no cure where the studs are at their proof load', () => {
    const tight = FOUR_CLAMPS.slice(0, 1).map((c) => ({ ...c, torque: 93 }))
    const text = message(heldBlock({ hardware: tight, height: 250, setup: { speed: 440 } }), 'joint-slides')
    expect(text).not.toContain('tighten')
    const slack = FOUR_CLAMPS.slice(0, 1).map((c) => ({ ...c, torque: 10 }))
    expect(message(heldBlock({ hardware: slack }), 'joint-slides')).toContain('tighten')
  })
})

/** Nut factors and fixture-design friction as published; the defaults come from these tables. */
test('defaults: dry nut factor, and friction no higher than any pair of steel with steel or iron dry', () => {
  expect(NUT_FACTORS.map((n) => n.k)).toEqual([0.2, 0.15, 0.12])
  expect(UNCERTAINTY_DEFAULTS.nutFactor).toBe(NUT_FACTORS[0]!.k)
  expect(FIXTURE_FRICTION.map((f) => [f.dry, f.oiled])).toEqual([
    [0.15, 0.12],
    [0.19, 0.1],
    [0.3, 0.19],
  ])
  for (const { dry } of FIXTURE_FRICTION) expect(link.setups[0]!.frictionCoefficient).toBeLessThan(dry)
})

describe('a clamp that cannot be judged', () => {
  /** The named clamps without a torque; all others with so much of it. */
  const blind = (ids: readonly string[], torque: number): Job =>
    heldBlock({ hardware: FOUR_CLAMPS.map((c) => ({ ...c, torque: ids.includes(c.id) ? null : torque })) })
  const state = (job: Job) => analyse(job, 'op10').verdict.state

  test('counts as nothing: where the others hold the part, whether it stays on itself is not known', () => {
    const one = analyse(blind(['c1'], 45), 'op10')
    expect(one.clamping!.factor).toBeGreaterThan(2)
    expect(one.verdict).toMatchObject({ state: 'not-judged', finding: { item: 'c1' } })
  })

  test('where the others do not hold it is not judged, and a stop only if all are known', () => {
    expect(state(blind([], 8))).toBe('stop')
    const one = analyse(blind(['c1'], 8), 'op10')
    expect(one.verdict.state).toBe('not-judged')
    expect(one.speeds.some((s) => s.verdict === 'go' || s.verdict === 'caution')).toBe(false)
    expect(state(blind(['c1', 'c2', 'c3', 'c4'], 45))).toBe('not-judged')
  })

  test('a part that nothing holds is a stop', () => {
    const job = heldBlock({ hardware: [], setup: { packing: 0 } })
    expect(analyse(job, 'op10').verdict).toMatchObject({ state: 'stop', reason: 'Nothing holds the part' })
  })
})
