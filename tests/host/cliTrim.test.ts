/** `trim`: readings from a file, measured beside computed, corrected from the stock. */
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { parseReadings } from '../../src-core/trim/readings.ts'
import type { TrimReport } from '../../src-core/trim/report.ts'
import { EXAMPLE, evenswing, expectRefused } from './cli.ts'
import { ROOT, scratchFolder } from './helpers.ts'

const number = expect.any(Number) as number

function withReadings(readings: unknown) {
  const cwd = scratchFolder()
  writeFileSync(join(cwd, 'readings.json'), JSON.stringify(readings))
  return (...more: string[]) =>
    evenswing(['trim', EXAMPLE, '--setup', 'op10', '--readings', 'readings.json', ...more], { cwd })
}

const ROLL = {
  method: 'roll',
  rests_deg: [39, 41, 40],
  hold: [{ radius_mm: 120, up_g: 162, down_g: 138.8, side: 90 }],
}
const trial = (angle_deg: number, amplitude: number) => ({ mass_g: 50, radius_mm: 100, angle_deg, amplitude })

test('the JSON has every documented key', async () => {
  const { code, out, err } = await withReadings(ROLL)('--json')
  expect([code, err]).toEqual([0, ''])
  const report = JSON.parse(out) as TrimReport
  expect(report).toMatchObject({
    measured_g_mm: number,
    heavy_angle_deg: number,
    upper95_g_mm: number,
    misfit: number,
    also: [],
    computed: { static_g_mm: number, static_angle_deg: number, upper95_g_mm: number, agrees: false },
  })
  expect(report.measured_g_mm).toBeCloseTo(18_048, 6)
  expect(report.heavy_angle_deg).toBeCloseTo(40, 6)
  expect(report.suggests.length).toBeGreaterThan(0)
  expect(report.plans[0]).toMatchObject({ residual_g_mm: number, verdict: 'caution', replaces: [] })
})

test('the text says measured, computed, cause and plan', async () => {
  const readings = {
    method: 'four-run',
    rpm: 110,
    first: 10,
    trials: [trial(0, 7), trial(120, 12), trial(240, 18)],
  }
  const { code, out, err } = await withReadings(readings)()
  expect([code, err]).toEqual([0, ''])
  for (const words of [
    'Measured',
    'at 221.7°',
    'Beside what was computed',
    'What would explain it',
    'Plan 1',
    'the meter should then read',
  ])
    expect(out).toContain(words)
  expect(out).not.toMatch(/NaN|undefined|\[object|\bsafe\b/)
})

test('wrong readings are refused with their field', async () => {
  expectRefused(
    await withReadings({ ...ROLL, rests_deg: [] })(),
    'readings.json: rests_deg: needs at least 1 entry',
  )
  expectRefused(
    await withReadings({ method: 'four-run', rpm: 110, first: 10, trials: [trial(0, 7)] })(),
    /trials/,
  )
  const apart = [trial(0, 3), trial(120, 3), trial(240, 3)]
  expectRefused(
    await withReadings({ method: 'four-run', rpm: 110, first: 10, trials: apart })(),
    /readings.json: trials: do not go together/,
  )
})

test('the readings that README shows are taken', () => {
  const readme = readFileSync(join(ROOT, 'README.md'), 'utf8')
  const [, shown] = /```jsonc\n([\s\S]*?)```/.exec(readme)!
  const sets = shown!
    .replace(/^\/\/.*$/gm, '')
    .split(/^(?=\{)/m)
    .filter((set) => set.trim() !== '')
  const read = sets.map((set) => parseReadings(set))
  expect(read.map((r) => (r.ok ? r.readings.method : r.faults))).toEqual(['roll', 'four-run', 'vector'])
})
