import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { CURRENT_VERSION, lift, parseJob } from '../../../src-core/job/parse.ts'
import { serialiseJob } from '../../../src-core/job/serialise.ts'
import { soundJob } from '../../helpers/jobs.ts'
import { figuresOf, keptJobs, type KeptFigures } from '../../helpers/keptJobs.ts'

const kept = keptJobs()

describe('job files of earlier versions', () => {
  it('are kept for every version', () => {
    for (let version = 1; version <= CURRENT_VERSION; version++)
      expect(kept.filter((k) => k.version === version).length).toBeGreaterThan(3)
  })

  it.each(kept)('version $version, $name: opens and gives the figures it gave', ({ text, expected }) => {
    const job = soundJob(text)
    expect(job.setups.map((s) => s.id)).toEqual(Object.keys(expected))
    for (const [setup, figures] of Object.entries(expected)) {
      const now = figuresOf(analyse(job, setup))
      for (const key of Object.keys(figures) as (keyof KeptFigures)[])
        expect(Math.abs(now[key] - figures[key])).toBeLessThanOrEqual(1e-12 * Math.abs(figures[key]))
    }
  })

  it('of the current version are written as they were read', () => {
    for (const { text } of kept.filter((k) => k.version === CURRENT_VERSION))
      expect(serialiseJob(soundJob(text))).toBe(text)
  })

  it('of a version to come are refused with the reason', () => {
    for (const { text } of kept) {
      const newer = text.replace(/"version": \d+/, `"version": ${CURRENT_VERSION + 1}`)
      expect(parseJob(newer)).toMatchObject({
        ok: false,
        faults: [{ path: 'version', message: expect.stringMatching(/newer .* untouched/) as string }],
      })
    }
  })
})

describe('lifting a document', () => {
  const step = (name: string) => (raw: Record<string, unknown>) => ({
    ...raw,
    version: Number(raw['version']) + 1,
    trail: [...(raw['trail'] as string[]), name],
  })
  const steps = [step('one to two'), step('two to three'), step('three to four')]

  it('takes every step above its version, in order, and leaves the document given alone', () => {
    const document = Object.freeze({ version: 1, trail: [] })
    expect(lift(document, 1, steps)).toEqual({
      version: 4,
      trail: ['one to two', 'two to three', 'three to four'],
    })
    expect(lift({ version: 3, trail: [] }, 3, steps)).toEqual({ version: 4, trail: ['three to four'] })
    expect(lift({ version: 4, trail: [] }, 4, steps)).toEqual({ version: 4, trail: [] })
    expect(document).toEqual({ version: 1, trail: [] })
  })
})
