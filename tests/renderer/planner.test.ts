import { beforeEach, describe, expect, test } from 'vitest'
import { planCounterweights } from '../../src-core/planner/plan.ts'
import type { PlanReport } from '../../src-core/planner/report.ts'
import { fetchHost } from '../../src-renderer/bridge/fetchHost.ts'
import { setTurn } from '../../src-renderer/editor/edits/mounting.ts'
import { createApp, type App } from '../../src-renderer/state/app.svelte.ts'
import { exampleJob } from './example.ts'
import { FakeWorker, noWorkers } from './fakeWorkers.ts'

let workers: FakeWorker[]
let app: App
let report: PlanReport
beforeEach(() => {
  workers = []
  const planner = () => {
    const worker = new FakeWorker()
    workers.push(worker)
    return worker.port
  }
  app = createApp(fetchHost, { ...noWorkers, planner })
  app.jobs.load(exampleJob(), null)
  report = planCounterweights(app.jobs.job, 'op10', { stations: 1, moveHardware: false })
})

describe('planner in the window', () => {
  test('an answer to an earlier question is not shown, in whatever order they come', () => {
    const { planner } = app
    planner.ask({ stations: 1 })
    planner.ask({ stations: 2 })
    expect(workers.map((w) => w.alive)).toEqual([false, true])
    workers[1]!.reply({ kind: 'done', id: 2, report })
    workers[0]!.reply({ kind: 'done', id: 1, report: { ...report, plans: [] } })
    expect(planner.report).toBe(report)
    expect(planner.status).toBe('done')
  })

  test('stopped: what was found stays, and nothing more comes in', () => {
    const { planner } = app
    planner.ask({})
    workers[0]!.reply({ kind: 'interim', id: 1, report })
    workers[0]!.reply({ kind: 'progress', id: 1, fraction: 0.4, note: '' })
    expect(planner.fraction).toBe(0.4)
    planner.stop()
    expect(workers[0]!.alive).toBe(false)
    workers[0]!.reply({ kind: 'done', id: 1, report: { ...report, plans: [] } })
    expect(planner.report).toBe(report)
    expect(planner.status).toBe('stopped')
  })

  test('one undo step puts a plan on; the next plan takes its place; undo takes it off', () => {
    const { planner, jobs } = app
    planner.ask({})
    workers[0]!.reply({ kind: 'done', id: 1, report })
    expect(report.plans.length).toBeGreaterThan(1)
    const before = jobs.job
    planner.apply(report.plans[0]!)
    expect(planner.applied).toBe(report.plans[0])
    expect(planner.current).toBe(true)
    planner.apply(report.plans[1]!)
    expect(jobs.undoLabel).toBe('Put on plan 2')
    expect(app.results.analysis?.unbalance.static_g_mm).toBeCloseTo(report.plans[1]!.residual_g_mm, 6)
    jobs.undo()
    expect(jobs.job).toBe(before)
    expect(planner.applied).toBeNull()
  })

  test('once the job has changed the answers are out of date and cannot be put on', () => {
    const { planner, jobs } = app
    planner.ask({})
    workers[0]!.reply({ kind: 'done', id: 1, report })
    jobs.edit('Turn', (j) => setTurn(j, 'op10', 30))
    expect(planner.current).toBe(false)
    const now = jobs.job
    planner.apply(report.plans[0]!)
    expect(jobs.job).toBe(now)
  })

  test('a failure says so', () => {
    const { planner } = app
    planner.ask({})
    workers[0]!.reply({ kind: 'failed', id: 1, message: 'no slots.' })
    expect([planner.status, planner.fault]).toEqual(['failed', 'no slots'])
    expect(planner.fault).toBe('no slots')
  })
})
