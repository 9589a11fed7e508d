import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { wrenchWords } from '../../../src-core/steps/fastened.ts'
import { stepsOf } from '../../../src-core/steps/steps.ts'
import type { Step } from '../../../src-core/steps/step.ts'
import { formatter } from '../../../src-core/units/format.ts'
import { gunmetalStrap, inchBracket, lever } from '../../helpers/turnersOtherJobs.ts'
import { EXAMPLES, jobWith, shippedJob } from '../../helpers/jobs.ts'

const steps = (job: Job, setup: string) => stepsOf(mountSetup(job, setup), analyse(job, setup))
const fact = (s: Step, label: string) => s.facts.find((f) => f.label === label)?.value

const ALL = EXAMPLES.flatMap((name) => {
  const job = shippedJob(name)
  return job.setups.map((setup) => ({ what: `${name} ${setup.id}`, job, setup, list: steps(job, setup.id) }))
})

describe.each(ALL)('$what', ({ job, setup, list }) => {
  test('ids are each their own, and every piece is lit in a step of its own', () => {
    expect(new Set(list.map((s) => s.id)).size).toBe(list.length)
    for (const { id, kind } of setup.hardware) {
      const own = list.filter(
        (s) => s.lit.includes(id) && ['packing', 'locate', 'hold', 'weight'].includes(s.kind),
      )
      expect(own, `${kind} ${id}`).toHaveLength(1)
    }
  })

  test('every clamp has its place, stud, wrench and torque', () => {
    const holds = list.filter((s) => s.kind === 'hold')
    expect(holds.length).toBeGreaterThan(0)
    for (const s of holds)
      for (const label of ['Place', 'Stud', 'Wrench', 'Torque'])
        expect(fact(s, label), `${s.id} ${label}`).toBeTruthy()
  })

  test('nothing turns under power before the plate is clear, turned by hand and rolled', () => {
    const kinds = list.map((s) => s.kind)
    const power = list.findIndex((s) => s.power)
    for (const kind of ['plate', 'part', 'hold', 'clear', 'turn', 'roll'] as const) {
      expect(kinds.lastIndexOf(kind)).toBeGreaterThanOrEqual(0)
      expect(kinds.lastIndexOf(kind)).toBeLessThan(power)
    }
    expect(kinds.filter((k) => k === 'cut').length).toBe(setup.cuts?.length ?? 0)
    if (kinds.includes('cut')) expect(kinds[kinds.indexOf('cut') + 1]).toBe('check')
  })

  test('words are whole', () => {
    const text = JSON.stringify(list)
    expect(text).not.toMatch(/NaN|undefined|null (mm|N|rpm)|\bsafe\b/)
    for (const s of list) {
      expect(s.title.length, s.title).toBeLessThan(42)
      for (const words of [...(s.kind === 'fetch' ? [] : s.does), ...s.warns]) expect(words).toMatch(/[.!?]$/)
    }
    expect(job.displayUnits).toBe('mm')
  })

  test('steps that need power are barred where the verdict is stop, and no other is', () => {
    const state = analyse(job, setup.id).verdict.state
    for (const s of list) expect(s.barred !== null, s.id).toBe(s.power && state === 'stop')
  })
})

test('clamps come in their tightening order, those without one after them', () => {
  const job = shippedJob('flat-link')
  const setup = job.setups[0]!
  const clamps = setup.hardware.filter((h) => h.kind === 'clamp')
  const orders = new Map(clamps.map((c, i) => [c.id, i === 0 ? null : clamps.length - i]))
  const turned: Job = {
    ...job,
    setups: [
      {
        ...setup,
        hardware: setup.hardware.map((h) =>
          h.kind === 'clamp' ? { ...h, order: orders.get(h.id) ?? null } : h,
        ),
      },
    ],
  }
  const ids = steps(turned, setup.id).flatMap((s) => (s.kind === 'hold' ? s.lit : []))
  expect(ids).toEqual([...clamps.slice(1).reverse(), clamps[0]!].map((c) => c.id))
})

test('a stop bars power in words, and no chosen speed does too', () => {
  const job = jobWith({ setup: { speed: 440 } })
  const start = steps(job, 'op10').find((s) => s.kind === 'start')!
  expect(start.barred).toMatch(/^Power stays off: /)
  const none = steps(jobWith({ setup: { speed: null } }), 'op10').find((s) => s.kind === 'start')!
  expect(none.barred).toMatch(/Power stays off/)
})

test('a clamp without a torque says so', () => {
  const job = shippedJob('flat-link')
  const setup = job.setups[0]!
  const loose: Job = {
    ...job,
    setups: [
      { ...setup, hardware: setup.hardware.map((h) => (h.kind === 'clamp' ? { ...h, torque: null } : h)) },
    ],
  }
  const hold = steps(loose, setup.id).filter((s) => s.kind === 'hold')
  for (const s of hold) {
    expect(fact(s, 'Torque')).toBe('not given')
    expect(s.warns.join()).toMatch(/No torque is given/)
  }
})

test('whether it will roll at all is said first', () => {
  const disc = steps(jobWith(), 'op10').find((s) => s.kind === 'roll')!
  expect(disc.facts[0]).toEqual({
    label: 'Will it roll',
    value: 'It does not roll by itself, so rolling shows nothing.',
  })
  expect(disc.does.join()).not.toMatch(/three times/)
  const heavy = steps(jobWith({ setup: { centre: { x: 40, y: 0 } } }), 'op10').find((s) => s.kind === 'roll')!
  expect(heavy.facts[0]!.value).not.toBe(disc.facts[0]!.value)
  expect(heavy.does.join()).toMatch(/three times/)
})

test.each([
  ['inch bracket', inchBracket()],
  ['lever', lever()],
  ['gunmetal strap', gunmetalStrap()],
] as const)('%s: every piece has a step of its own, what the part stands on comes before it', (_, job) => {
  for (const { id, hardware } of job.setups) {
    const list = steps(job, id)
    expect(new Set(list.map((s) => s.id)).size).toBe(list.length)
    const own = (piece: string) =>
      list.findIndex((s) => s.lit.includes(piece) && ['packing', 'locate', 'hold', 'weight'].includes(s.kind))
    for (const h of hardware) {
      expect(own(h.id), `${h.kind} ${h.id}`).toBeGreaterThan(0)
      if (h.kind === 'fixture') expect(own(h.id)).toBeLessThan(list.findIndex((s) => s.kind === 'part'))
    }
    expect(JSON.stringify(list)).not.toMatch(/NaN|undefined/)
  }
})

test('a wrench is called what is stamped on it, whatever the job is shown in', () => {
  const words = (mm: number) => [wrenchWords(mm, formatter('mm')), wrenchWords(mm, formatter('in'))]
  expect(words(18)).toEqual(['18 mm', '18 mm'])
  // 3/4 in, 1-1/8 in and 2 in.
  expect([19.05, 28.575, 50.8].map(words)).toEqual(['3/4 in', '1-1/8 in', '2 in'].map((w) => [w, w]))
  // A Whitworth nut, which is called by its thread.
  expect(words(20.828)).toEqual(['20.8 mm', '0.82 in'])
})
