import { describe, expect, it } from 'vitest'
import { FINDINGS, effectOf, type FindingCode, type Severity } from '../../../src-core/findings/codes.ts'
import type { Finding } from '../../../src-core/findings/finding.ts'
import { LIMITS, ceilingsOf, limitWords, type SpeedLimits } from '../../../src-core/verdict/limits.ts'
import { judgementOf, verdictAt } from '../../../src-core/verdict/speeds.ts'

const GIVEN: SpeedLimits = {
  balance: 300,
  balanceBestEstimate: 340,
  plate: 400,
  spindle: 500,
  holding: 700,
  holdingBestEstimate: 700,
}
const NONE: SpeedLimits = {
  balance: null,
  balanceBestEstimate: null,
  plate: null,
  spindle: null,
  holding: null,
  holdingBestEstimate: null,
}

const found = (code: FindingCode, severity: Severity, fromRpm = 0): Finding => ({
  severity,
  code,
  item: 'setup',
  message: code,
  at: null,
  effect: effectOf(code, severity),
  fromRpm,
})
const verdict = (rpm: number, limits: SpeedLimits, findings: readonly Finding[] = []) =>
  verdictAt(rpm, judgementOf(limits, findings))

describe('the ceiling', () => {
  it('is the lowest limit, by name, whichever limit it is', () => {
    expect(ceilingsOf(GIVEN, []).bound).toEqual({ rpm: 300, limit: 'balance' })
    for (const { id } of LIMITS) {
      expect(ceilingsOf({ ...GIVEN, [id]: 100 }, []).bound).toEqual({ rpm: 100, limit: id })
      expect(limitWords(id).long).not.toBe('')
    }
  })

  it('goes to the first of the table where two are alike', () => {
    expect(ceilingsOf({ ...GIVEN, plate: 300 }, []).bound.limit).toBe('balance')
    expect(ceilingsOf({ ...GIVEN, plate: 200, holding: 200 }, []).bound.limit).toBe('plate')
  })

  it('has no number where nothing limits, and leaves out what was not checked', () => {
    expect(ceilingsOf(NONE, []).bound).toEqual({ rpm: null, limit: null })
    expect(ceilingsOf({ ...NONE, holding: 0 }, []).bound).toEqual({ rpm: 0, limit: 'holding' })
    expect(verdict(5000, NONE)).toBe('go')
  })

  it('is nought where something fouls, whatever else is allowed', () => {
    const none = { rpm: 0, limit: 'clearance' }
    expect(ceilingsOf(GIVEN, [found('fouls-bed', 'stop')])).toEqual({ bound: none, best: none })
  })
})

describe('the verdict at a speed', () => {
  it('is caution up to the best estimate’s balance but never past another limit', () => {
    expect([300, 301, 340, 341].map((n) => verdict(n, GIVEN))).toEqual(['go', 'caution', 'caution', 'stop'])
    const rated = { ...GIVEN, plate: 320 }
    expect([300, 320, 321].map((n) => verdict(n, rated))).toEqual(['go', 'caution', 'stop'])
    const slow = { ...GIVEN, spindle: 250 }
    expect([250, 251].map((n) => verdict(n, slow))).toEqual(['go', 'stop'])
  })

  const rows = (Object.keys(FINDINGS) as FindingCode[]).flatMap((code) =>
    (['stop', 'caution', 'note'] as const)
      .filter((severity) => severity in FINDINGS[code])
      .map((severity) => ({ code, severity, effect: effectOf(code, severity) })),
  )
  const stops = rows.filter((r) => r.effect === 'stop')

  it.each(stops)('$severity $code leaves no speed that it reaches', ({ code, severity }) => {
    for (const limits of [GIVEN, NONE]) {
      expect([0, 1, 45, 299, 5000].map((rpm) => verdict(rpm, limits, [found(code, severity)]))).toEqual(
        Array(5).fill('stop'),
      )
      const from = [found(code, severity, 200)]
      expect([0, 1, 200, 201, 299, 5000].map((rpm) => verdict(rpm, limits, from) === 'stop')).toEqual([
        ...[false, false, false],
        ...[true, true, true],
      ])
    }
  })

  it('leaves it as it is with a finding of no effect', () => {
    for (const { code, severity } of rows.filter((r) => r.effect === 'none'))
      expect(
        [300, 301, 341].map((n) => verdict(n, GIVEN, [found(code, severity)])),
        code,
      ).toEqual([...['go', 'caution', 'stop']])
  })
})
