/** A speed that is offered anywhere is one at which the job may run, whatever the tool wants. */
import { readFileSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { wantedSpeed } from '../../../src-core/planner/target.ts'
import { stepsOf } from '../../../src-core/steps/steps.ts'
import { formatter } from '../../../src-core/units/format.ts'
import { judgementOf } from '../../../src-core/verdict/speeds.ts'
import { mayBeSet, settingWords } from '../../../src-core/verdict/toolSpeed.ts'
import { boreCut, shelfExample, shippedJob, steps } from '../../helpers/jobs.ts'
import { heldBlock } from '../../helpers/heldJobs.ts'
import { randomJob } from '../../helpers/randomJob.ts'

const found = (job: Job, code: string) => analyse(job, 'op10').findings.find((f) => f.code === code)!.message

/** 20 m/min on 30 mm wants 212 rpm. */
const bored = (setup: Partial<Job['setups'][0]>, plate: Partial<Job['plate']> = {}): Job => {
  const job = heldBlock({
    lathe: { speeds: steps(45, 110, 210) },
    setup: { cuts: [boreCut('A')], speed: null, ...setup },
  })
  return { ...job, plate: { ...job.plate, ...plate } }
}

describe('what a tool wants, and what may be set', () => {
  it('will do where nothing stands against it', () => {
    expect(found(bored({}), 'cutting-speed')).toMatch(
      /^About 212 rpm wanted for boring A .*, 210 rpm will do\.$/,
    )
  })

  it('names the ceiling where that is lower, and nothing else to set', () => {
    const low = bored({}, { ratedSpeed: 150 })
    expect(found(low, 'cutting-speed')).toMatch(/, but the ceiling is lower: 150 rpm\.$/)
    const hard = { ...low, setups: low.setups.map((s) => ({ ...s, speed: 400 })) }
    expect(found(hard, 'faster-than-cutting-speed')).toMatch(
      /^400 rpm is hard on the tool: .* but the ceiling is lower: 150 rpm; a tool bears 20 % more than it wants\.$/,
    )
  })

  it('says that it may not run, or that nobody has judged it', () => {
    expect(found(bored({ hardware: [] }), 'cutting-speed')).toMatch(
      /, but (as it is set up it may not run|whether it may run) at that/,
    )
    const unknown = bored({ cuts: [{ ...boreCut('A'), bar: null }] })
    const a = analyse(unknown, 'op10')
    const judgement = judgementOf(a.limits, [
      ...a.findings,
      { ...a.findings[0]!, effect: 'unknown' as const, fromRpm: 0 },
    ])
    expect(settingWords(210, judgement, unknown.lathe, formatter('mm'))).toBe(
      'but whether it may run at that is not judged',
    )
    expect(mayBeSet(210, judgement)).toBe(false)
  })

  it('a plan aims at no speed that plate or spindle forbid', () => {
    const job = bored({}, { ratedSpeed: 150 })
    expect(wantedSpeed(job, job.setups[0]!, analyse(job, 'op10'))).toBe(110)
    expect(wantedSpeed(bored({}), bored({}).setups[0]!, analyse(bored({}), 'op10'))).toBe(210)
  })
})

/** Speeds in rpm that a job's findings, steps and fields tell one to set. */
function offered(job: Job, id: string): number[] {
  const a = analyse(job, id)
  const fmt = formatter(job.displayUnits)
  const judgement = judgementOf(a.limits, a.findings)
  const facts = stepsOf(mountSetup(job, id), a)
    .flatMap((s) => s.facts)
    .filter((f) => /^(Begin at|Then up to|Never above|Spindle)$/.test(f.label))
    .map((f) => f.value)
    .filter((text) => !text.includes('above the ceiling'))
  const wants = (a.cutting?.cuts ?? []).map((c) => settingWords(c.set_rpm, judgement, job.lathe, fmt))
  const texts = [...a.findings.map((f) => f.message), ...wants].flatMap((text) =>
    [...text.matchAll(/([\d.]+) rpm (?:will do|or slower)/g)].map((m) => m[1]!),
  )
  return [...texts, ...facts.flatMap((text) => /^([\d.]+) rpm/.exec(text)?.[1] ?? [])].map(Number)
}

/** Figures are shown to the turn, below 100 to a tenth. */
const SHOWN = 0.5

function expectNoneAbove(job: Job, id: string): number {
  const { rpm } = analyse(job, id).ceiling
  const all = offered(job, id)
  if (rpm !== null) expect(all.filter((speed) => speed > rpm + SHOWN)).toEqual([])
  return all.length
}

describe('no speed above the ceiling is offered', () => {
  const jobs = [
    shippedJob('flat-link'),
    shippedJob('bearing-bracket'),
    shelfExample('bearing-block'),
    shelfExample('round-casting'),
  ]
  it('in the examples, at every speed of their lathes', () => {
    let offers = 0
    for (const job of jobs)
      for (const { id } of job.setups)
        for (const speed of [null, ...job.lathe.speeds.steps.map((s) => s.rpm)])
          offers += expectNoneAbove(
            { ...job, setups: job.setups.map((s) => (s.id === id ? { ...s, speed } : s)) },
            id,
          )
    expect(offers).toBeGreaterThan(jobs.length)
  })

  it('in jobs drawn at random', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        for (const { id } of job.setups) expectNoneAbove(job, id)
      }),
      { numRuns: 40 },
    )
  })

  it('in the window: what shows the speed for the tool asks whether it may be set', () => {
    const folder = join(import.meta.dirname, '../../../src-renderer')
    const readers = readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((f) => /\.(svelte|ts)$/.test(f))
      .map((f) => readFileSync(join(folder, f), 'utf8'))
      .filter((text) => text.includes('set_rpm'))
    expect(readers.length).toBeGreaterThan(0)
    expect(readers.filter((text) => !text.includes('settingWords('))).toEqual([])
  })
})
