import { describe, expect, it } from 'vitest'
import { FINDINGS, effectOf, type FindingCode } from '../../../src-core/findings/codes.ts'
import { briefly, finding, type Finding } from '../../../src-core/findings/finding.ts'
import { formatter } from '../../../src-core/units/format.ts'
import { chosenVerdict, verdictBands } from '../../../src-core/verdict/chosen.ts'
import type { SpeedLimits } from '../../../src-core/verdict/limits.ts'
import { judgementOf, verdictAt } from '../../../src-core/verdict/speeds.ts'

const LIMITS: SpeedLimits = {
  ...{ balance: 300, balanceBestEstimate: 340, plate: 400, spindle: null },
  ...{ holding: null, holdingBestEstimate: null },
}
const fmt = formatter('mm')
const slips = (from: number) =>
  finding('stop', 'joint-slides', 'setup', 'The clamps may not hold: 1.4.', null, from)
const unknown = (from: number) =>
  finding('caution', 'joint-not-judged', 'c3', 'c3 not checked: torque not given.', null, from)
const say = (rpm: number | null, ...findings: Finding[]) =>
  chosenVerdict(rpm, judgementOf(LIMITS, findings), fmt)

describe('the one verdict', () => {
  it('is stop before not judged before caution before go', () => {
    const states = (...findings: Finding[]) => [200, 320, 350].map((rpm) => say(rpm, ...findings).state)
    expect(states()).toEqual(['go', 'caution', 'stop'])
    expect(states(unknown(0))).toEqual(['not-judged', 'not-judged', 'stop'])
    expect(states(unknown(310))).toEqual(['go', 'not-judged', 'stop'])
    expect(states(unknown(0), slips(310))).toEqual(['not-judged', 'stop', 'stop'])
    expect(states(slips(0), unknown(0))).toEqual(['stop', 'stop', 'stop'])
  })

  it('gives the finding that makes it so, and its short sentence', () => {
    expect(say(200, unknown(0))).toEqual({
      state: 'not-judged',
      reason: 'c3 not checked',
      finding: unknown(0),
    })
    expect(say(320, unknown(0), slips(310)).reason).toBe('The clamps may not hold')
    expect(say(200)).toEqual({ state: 'go', reason: 'nothing found against 200 rpm', finding: null })
    expect(say(350).reason).toBe('350 rpm is above 340 rpm, set by balance (95 %)')
  })

  it('without a chosen speed is that of standing still', () => {
    expect(say(null).state).toBe('go')
    expect(say(null).reason).toContain('no speed is chosen')
    expect(say(null, slips(100)).state).toBe('go')
    expect(say(null, slips(0)).state).toBe('stop')
    expect(say(null, unknown(0)).state).toBe('not-judged')
  })

  it('every code that says something is not known leaves no speed at go or caution', () => {
    const codes = (Object.keys(FINDINGS) as FindingCode[]).filter((c) => effectOf(c, 'caution') === 'unknown')
    expect(codes.length).toBeGreaterThan(3)
    for (const code of codes) {
      const found: Finding = { ...unknown(0), code }
      expect([0, 1, 200, 320, 350].map((rpm) => verdictAt(rpm, judgementOf(LIMITS, [found])))).toEqual([
        ...['not-judged', 'not-judged', 'not-judged', 'not-judged', 'stop'],
      ])
    }
  })
})

describe('the short sentence', () => {
  it('ends before the figures, not within a name', () => {
    const of = (message: string) => briefly(finding('stop', 'off-plate', 'w1', message))
    expect(of('Weight no. 4: lead (w1) stands off the plate: 12 mm. Move it.')).toBe(
      'Weight no. 4: lead (w1) stands off the plate',
    )
    expect(of('It is 12.5 mm short. Move it.')).toBe('It is 12.5 mm short')
    expect(of('Nothing more')).toBe('Nothing more')
  })
})

describe('the bands of the rail', () => {
  it('are cut where the verdict changes, and nowhere else', () => {
    const bands = (...findings: Finding[]) => verdictBands(judgementOf(LIMITS, findings))
    expect(bands()).toEqual([
      { from: 0, to: 300, state: 'go' },
      { from: 300, to: 340, state: 'caution' },
      { from: 340, to: null, state: 'stop' },
    ])
    expect(bands(unknown(200), slips(250))).toEqual([
      { from: 0, to: 200, state: 'go' },
      { from: 200, to: 250, state: 'not-judged' },
      { from: 250, to: null, state: 'stop' },
    ])
    expect(bands(slips(0))).toEqual([{ from: 0, to: null, state: 'stop' }])
  })
})
