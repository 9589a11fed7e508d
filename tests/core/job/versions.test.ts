import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { CURRENT_VERSION, parseJob } from '../../../src-core/job/parse.ts'
import { serialiseJob } from '../../../src-core/job/serialise.ts'
import { lift } from '../../../src-core/job/versions.ts'
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

describe('a job of version 2', () => {
  const lifted = (edit: (d: Record<string, unknown>) => void) => {
    const text = kept.find((k) => k.version === 2 && k.name === 'flat-link')!.text
    const document = JSON.parse(text) as Record<string, unknown>
    edit(document)
    return soundJob(JSON.stringify(document))
  }
  const cut = { bore: 'A', tool: 'HSS', speed: 22, feed: 0.1, depth: 1 } as const
  const cutsOf = (value: unknown) =>
    lifted((d) => ((d['setups'] as Record<string, unknown>[])[0]!['cut'] = value)).setups[0]!.cuts

  it('cut one bore and named its drill beside: each becomes a cut', () => {
    const { depth, ...common } = cut
    const boring = { ...common, kind: 'bore', depth, interrupted: false }
    const drill = { ...common, kind: 'drill', diameter: 18, interrupted: false }
    expect(cutsOf(cut)).toEqual([{ ...boring, id: 'cut1' }])
    expect(cutsOf({ ...cut, drill: null })).toEqual([{ ...boring, id: 'cut1' }])
    expect(cutsOf({ ...cut, drill: 18 })).toEqual([
      { ...drill, id: 'cut1' },
      { ...boring, id: 'cut2' },
    ])
    expect(cutsOf(null)).toBeNull()
  })

  it('had a list of speeds: they become steps of which nothing is said about a back gear', () => {
    const { speeds } = lifted(() => undefined).lathe
    expect(speeds.stepless).toBeNull()
    expect(speeds.steps).toEqual([45, 70, 110, 155, 240, 360, 540].map((rpm) => ({ rpm })))
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
