/** `plan`: counterweights from the stock, and a job with one of the plans bolted on. */
import { existsSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import type { Analysis } from '../../src-core/analysis/result.ts'
import type { PlanReport } from '../../src-core/planner/report.ts'
import { EXAMPLE, evenswing, exampleJob, expectRefused } from './cli.ts'
import { scratchFolder } from './helpers.ts'

const number = expect.any(Number) as number

test('the JSON has every documented key, best first', async () => {
  const { code, out, err } = await evenswing(['plan', EXAMPLE, '--json'])
  expect([code, err]).toEqual([0, ''])
  const report = JSON.parse(out) as PlanReport
  expect(report).toMatchObject({ setup: 'op10', before_g_mm: number, target_g_mm: number })
  expect(report.plans.length).toBeGreaterThan(0)
  for (const plan of report.plans) {
    expect(plan).toMatchObject({
      residual_g_mm: number,
      residual_angle_deg: number,
      upper95_g_mm: number,
      couple_g_mm2: number,
      swept_radius_mm: number,
    })
    for (const station of plan.stations) {
      expect('slot' in station || 'hole' in station).toBe(true)
      expect(station).toMatchObject({ radius_mm: number, mass_kg: number })
      expect(station.stack.length).toBeGreaterThan(0)
      for (const layer of station.stack) expect(layer).toEqual({ stock: expect.any(String), count: number })
    }
  }
  const residuals = report.plans.map((p) => p.residual_g_mm)
  expect([...residuals].sort((a, b) => a - b)).toEqual(residuals)
  expect(residuals[0]).toBeLessThan(report.before_g_mm)
})

test('the text names every station, its radius, its stack and what is left', async () => {
  const json = JSON.parse((await evenswing(['plan', EXAMPLE, '--json'])).out) as PlanReport
  const { code, out, err } = await evenswing(['plan', EXAMPLE])
  expect([code, err]).toEqual([0, ''])
  json.plans.forEach((plan, i) => {
    expect(out).toContain(`Plan ${i + 1}`)
    for (const station of plan.stations) {
      expect(out).toContain('slot' in station ? `slot ${station.slot}` : `hole ${station.hole}`)
      for (const { stock, count } of station.stack) expect(out).toContain(`${count} × ${stock}`)
    }
  })
  expect(out).not.toMatch(/NaN|undefined|\[object|\bsafe\b/)
  expect(out).toContain('by hand')
})

test('--apply writes a job that is as balanced as the plan said', async () => {
  const cwd = scratchFolder()
  const report = JSON.parse((await evenswing(['plan', EXAMPLE, '--json'])).out) as PlanReport
  const applied = await evenswing(['plan', EXAMPLE, '--apply', '1', '--out', 'planned.evenswing.json'], {
    cwd,
  })
  expect([applied.code, applied.err]).toEqual([0, ''])
  expect(applied.out).toContain('Plan 1 is in planned.evenswing.json')
  const check = await evenswing(['check', 'planned.evenswing.json', '--json'], { cwd })
  const { unbalance } = JSON.parse(check.out) as Analysis
  const [best] = report.plans
  expect(Math.abs(unbalance.static_g_mm - best!.residual_g_mm)).toBeLessThan(0.5)
  expect(Math.abs(unbalance.upper95_g_mm / best!.upper95_g_mm - 1)).toBeLessThan(0.01)
  expect((await evenswing(['validate', 'planned.evenswing.json'], { cwd })).code).toBe(0)
})

test('with nothing in stock that is said, and there is no plan to apply', async () => {
  const cwd = scratchFolder()
  const job = exampleJob()
  job.stock = []
  for (const setup of job.setups) {
    setup.hardware = setup.hardware.filter((item: { kind: string }) => item.kind !== 'weight')
    for (const item of setup.hardware) item.fixed = true
  }
  writeFileSync(join(cwd, 'job.json'), JSON.stringify(job))
  expect((await evenswing(['plan', 'job.json'], { cwd })).code).toBe(0)
  expectRefused(
    await evenswing(['plan', 'job.json', '--apply', '9', '--out', 'x.json'], { cwd }),
    /--apply 9: there (is|are) \d+ plans?/,
  )
  expect(existsSync(join(cwd, 'x.json'))).toBe(false)
})
