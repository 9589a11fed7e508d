import fc from 'fast-check'
import { expect, it } from 'vitest'
import { summariseJob } from '../../../src-core/book/summary.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { reachInPlan } from '../../../src-core/mounting/reachInPlan.ts'
import { EXAMPLES, exampleJob, shippedJob } from '../../helpers/jobs.ts'
import { heldBlock, strapClamp } from '../../helpers/heldJobs.ts'
import { randomJob } from '../../helpers/randomJob.ts'

const link = exampleJob('flat-link')

it('holds what the book searches, and a picture with part, plate and weight', () => {
  const summary = summariseJob(link)
  expect(summary).toMatchObject({
    title: 'Crank link, bore both ends',
    partNumber: 'EV-0417',
    material: 'mild steel',
    lastRun: null,
    setups: [{ id: 'op10' }, { id: 'op20' }],
  })
  const roles = new Set(summary.picture.map((p) => p.role))
  expect(roles).toEqual(new Set(['plate', 'slot', 'part', 'piece', 'weight']))
})

it('gives the latest run, whatever the order they stand in', () => {
  const run = { id: 'r', setup: 'op10', by: '', speed: 90, trimmed: '', remarks: '' }
  const runs = [
    { ...run, id: 'r2', date: '2026-03-01' },
    { ...run, id: 'r1', date: '2025-12-31', speed: 40 },
  ]
  expect(summariseJob({ ...link, runs }).lastRun).toEqual({ date: '2026-03-01', setup: 'op10', speed: 90 })
})

it('draws each piece where it is mounted', () => {
  const sound = fc.oneof(randomJob, fc.constantFrom(...EXAMPLES.map(shippedJob)))
  fc.assert(
    fc.property(sound, (job) => {
      const mounted = mountSetup(job, job.setups[0]!.id)
      const reach = reachInPlan(mounted)
      const onBox = (v: number) => Math.round((50 + (v * 48) / reach) * 10) / 10 + 0
      const starts = summariseJob(job).picture.flatMap(({ role, path }) =>
        role === 'piece' || role === 'weight' ? [path.slice(1, path.search(/[LZ]/))] : [],
      )
      const [x, y] = [(p: Point) => onBox(p.x), (p: Point) => onBox(-p.y)]
      expect(starts).toEqual(mounted.pieces.slice(0, 24).map(({ footprint: [p] }) => `${x(p!)} ${y(p!)}`))
    }),
    { numRuns: 60 },
  )
})

it('shows the whole of a strap that stands out past the rim', () => {
  const out = (radius: number) =>
    summariseJob(heldBlock({ hardware: [strapClamp('c1', 1, { at: { x: radius, y: 0 }, facing: 0 })] }))
      .picture
  const numbers = (shapes: ReturnType<typeof out>, role: string) =>
    shapes.filter((s) => s.role === role).flatMap(({ path }) => (path.match(/[-\d.]+/g) ?? []).map(Number))
  const far = out(140)
  expect(Math.min(...numbers(far, 'piece'))).toBeGreaterThanOrEqual(0)
  expect(Math.max(...numbers(far, 'piece'))).toBeLessThanOrEqual(100)
  // The plate is drawn smaller for it.
  expect(numbers(far, 'plate')[0]!).toBeGreaterThan(numbers(out(60), 'plate')[0]!)
})

it('keeps pictures small and drawable for any sound job', () => {
  fc.assert(
    fc.property(randomJob, (job) => {
      const { picture } = summariseJob(job)
      expect(JSON.stringify(picture).length).toBeLessThan(60_000)
      for (const { path } of picture) expect(path).toMatch(/^M[-\d. LMZa]+$/)
    }),
    { numRuns: 100 },
  )
})
