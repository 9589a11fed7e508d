/** Standing at the machine, without a window: passes, corrections, what is kept and what goes into the run. */
import { beforeEach, expect, test } from 'vitest'
import type { Host } from '../../src-core/bridge/contract.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { planCounterweights } from '../../src-core/planner/plan.ts'
import { correctionSearch } from '../../src-core/trim/report.ts'
import { markOf, newProgress, parseProgress, progressKey } from '../../src-renderer/state/latheProgress.ts'
import { newEntry } from '../../src-core/trim/entry.ts'
import { createApp, type App } from '../../src-renderer/state/app.svelte.ts'
import { exampleJob } from './example.ts'
import { FakeWorker, noWorkers } from './fakeWorkers.ts'

const kept = new Map<string, string>()
let writes = 0
const ok = <T>(value: T) => ({ ok: true as const, value })
const host = {
  readProgress: async (key: string) => ok(kept.get(key) ?? null),
  keepProgress: async (key: string, text: string) => {
    writes++
    kept.set(key, text)
    return ok(null)
  },
  dropProgress: async (key: string) => {
    kept.delete(key)
    return ok(null)
  },
} as unknown as Host

let workers: FakeWorker[]
let app: App
const withTolerance = (job: Job): Job => ({
  ...job,
  part: {
    ...job.part,
    bores: job.part.bores.map((b) => (b.id === 'A' ? { ...b, start: 34, tolerance: { class: 'H7' } } : b)),
  },
})
beforeEach(() => {
  kept.clear()
  writes = 0
  workers = []
  const planner = () => {
    const worker = new FakeWorker()
    workers.push(worker)
    return worker.port
  }
  app = createApp(host, { ...noWorkers, planner })
  app.jobs.load(withTolerance(exampleJob()), null)
})
const cutStep = () => app.lathe.steps.find((s) => s.entry === 'size')!

test('a measured size plans the rest anew, and taken back plans it as before', async () => {
  const { lathe } = app
  await lathe.enter()
  lathe.goTo(cutStep())
  const before = lathe.passes
  if (before?.state !== 'cut') throw new Error('nothing to cut')
  lathe.measure(before.passes[0]!.size - 0.08)
  const after = lathe.passes
  if (after?.state !== 'cut') throw new Error('nothing to cut')
  expect(after.passes[0]!.size).toBeGreaterThan(before.passes[0]!.size - 0.08)
  expect(after.passes.at(-1)!.size).toBeCloseTo(before.passes.at(-1)!.size, 1)
  lathe.unmeasure()
  expect(lathe.passes).toEqual(before)
  lathe.measure(60)
  expect(lathe.passes?.state).toBe('over size')
})

test('a correction goes onto the plate as one edit, and its own step comes next', async () => {
  const { lathe, jobs, results } = app
  await lathe.enter()
  const { static_angle_deg: angle } = results.analysis!.unbalance
  lathe.goTo(lathe.steps.find((s) => s.kind === 'roll'))
  Object.assign(lathe.progress!.entry, {
    rests: [angle + 60, angle + 61, angle + 59],
    holds: [{ radius: 120, up: 260, down: 240, side: 90 }],
  })
  const { judged } = lathe
  if (!judged?.ok) throw new Error('not judged')
  lathe.correction.ask(jobs.job, results.analysis!, judged.judged, false)
  expect(lathe.correction.working).toBe(true)
  const search = correctionSearch(jobs.job, results.analysis!, judged.judged)!
  const report = planCounterweights(search.job, 'op10', { ...search.options, stations: 2 })
  workers[0]!.reply({ kind: 'done', id: workers[0]!.asked!.id, report })
  expect(lathe.correction.working).toBe(false)
  const plan = lathe.correction.plans.find((p) => p.stations.length > 0)!
  const count = results.setup.hardware.length
  lathe.putOn(plan)
  expect(results.setup.hardware).toHaveLength(count + plan.stations.length)
  expect(lathe.step).toMatchObject({ kind: 'weight' })
  expect(lathe.progress!.taken).toHaveLength(1)
  expect(lathe.progress!.entry.rests).toEqual([null, null, null])
  expect(lathe.progress!.expected!.amount).toBe(plan.residual_g_mm)
  jobs.undo()
  expect(results.setup.hardware).toHaveLength(count)
})

test('a run that is repeated starts from the last one: measured the same way, nothing read yet', async () => {
  const { lathe, jobs } = app
  const trial = { mass_g: 50, radius_mm: 120, angle_deg: 0, amplitude: 4, phase_deg: 80 }
  const readings = JSON.stringify({
    method: 'vector',
    rpm: 70,
    first: { amplitude: 5, phase_deg: 30 },
    trial,
  })
  const run = { setup: 'op10', by: 'Kim', speed: 110, trimmed: 'so much', remarks: '' }
  const sizes = [{ cut: 'cut1', pass: 1, size: 38.2 }]
  jobs.load(
    {
      ...jobs.job,
      runs: [
        { id: 'run1', date: '2026-01-01', ...run },
        { id: 'run2', date: '2026-02-01', ...run, readings: [readings], sizes },
        { id: 'run3', date: '2026-03-01', ...run, setup: 'op20' },
      ],
    },
    null,
  )
  await lathe.enter()
  expect(lathe.last!.id).toBe('run2')
  expect(lathe.progress!.entry).toMatchObject({ method: 'vector', rpm: 70, first: { amplitude: null } })
  expect(lathe.progress!.entry.trials[0]).toEqual({
    mass: 50,
    radius: 120,
    angle: 0,
    amplitude: null,
    phase: null,
  })
  expect(lathe.readings).toBeNull()
  expect(lathe.progress!.sizes).toEqual([])
})

test('of many changes in a row the last is what is kept, and entering waits for it', async () => {
  const { lathe } = app
  await lathe.enter()
  for (let i = 0; i < 9; i++) lathe.go(1)
  const { step } = lathe
  lathe.leave()
  await lathe.enter()
  expect(lathe.step?.id).toBe(step?.id)
  expect(writes).toBeLessThan(9)
  expect(lathe.changed).toBe(false)
})

test('a set-up that was changed meanwhile is told', async () => {
  const { lathe, jobs } = app
  await lathe.enter()
  lathe.go(1)
  lathe.leave()
  jobs.edit('Turn', (job) => ({ ...job, setups: job.setups.map((s) => ({ ...s, turn: s.turn + 5 })) }))
  await lathe.enter()
  expect(lathe.changed).toBe(true)
})

test('damaged progress is none; files, jobs and setups have each their own', () => {
  const job = exampleJob()
  const [first, second] = job.setups as [Job['setups'][number], Job['setups'][number]]
  const progress = newProgress(first, 'Kim', newEntry(110))
  expect(parseProgress(JSON.stringify(progress))).toEqual(progress)
  for (const text of [null, '', '{', '{}', JSON.stringify({ ...progress, step: 3 })])
    expect(parseProgress(text)).toBeNull()
  const keys = [
    progressKey(job, first, null),
    progressKey(job, second, null),
    progressKey({ ...job, title: 'another' }, first, null),
    progressKey(job, first, { folder: '/a', name: 'x' }),
    progressKey(job, first, { folder: '/b', name: 'x' }),
  ]
  expect(new Set(keys).size).toBe(keys.length)
  for (const key of keys) expect(key).toMatch(/^[0-9a-f]{16}$/)
  expect(markOf(first)).not.toBe(markOf(second))
})
