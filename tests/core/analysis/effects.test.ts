/** Whatever any check finds reaches the verdict: one check is made to find each code in turn. */
import { afterEach, describe, expect, it, vi } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { FINDINGS, effectOf, type FindingCode, type Severity } from '../../../src-core/findings/codes.ts'
import type { Finding } from '../../../src-core/findings/finding.ts'
import { shippedJob } from '../../helpers/jobs.ts'

const more: { findings: Finding[] } = vi.hoisted(() => ({ findings: [] }))

vi.mock('../../../src-core/checks/partDoubts.ts', async (original) => ({
  ...(await original<object>()),
  boreFindings: () => more.findings,
}))

afterEach(() => {
  more.findings = []
})

const codes = Object.keys(FINDINGS) as FindingCode[]
const stops = codes.flatMap((code) =>
  (['stop', 'caution', 'note'] as const)
    .filter((s) => effectOf(code, s) === 'stop')
    .map((s) => [code, s] as const),
)

describe('a finding that stops', () => {
  const job = shippedJob('bearing-bracket')
  const find = (code: FindingCode, severity: Severity) => {
    more.findings = [
      {
        severity,
        code,
        item: 'setup',
        message: code,
        at: null,
        effect: effectOf(code, severity),
        fromRpm: 0,
      },
    ]
    return analyse(job, job.setups[0]!.id)
  }

  it('is needed: without one the example may run', () => {
    const { speeds, ceiling } = analyse(job, job.setups[0]!.id)
    expect(speeds[0]!.verdict).toBe('go')
    expect(ceiling.rpm).toBeGreaterThan(0)
  })

  it.each(stops)('%s (%s) leaves no speed at go, and no ceiling', (code, severity) => {
    const { speeds, ceiling, ceilingBestEstimate } = find(code, severity)
    expect(speeds.map((s) => s.verdict)).toEqual(speeds.map(() => 'stop'))
    expect([ceiling.rpm, ceilingBestEstimate.rpm]).toEqual([0, 0])
  })
})
