/** `check`: the balance sheet as JSON and as text, and its exit code. */
import { readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import type { Analysis } from '../../src-core/analysis/result.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import { EXAMPLE, evenswing, exampleJob } from './cli.ts'
import { ROOT, scratchFolder } from './helpers.ts'

const number = expect.any(Number) as number
const text = expect.any(String) as string

async function checkJson(
  job: unknown,
  ...more: string[]
): Promise<{ code: number | null; analysis: Analysis }> {
  const path = join(scratchFolder(), 'job.evenswing.json')
  writeFileSync(path, JSON.stringify(job))
  const { code, out, err } = await evenswing(['check', path, '--json', ...more])
  expect(err).toBe('')
  return { code, analysis: JSON.parse(out) as Analysis }
}

test('the JSON has every documented key, of its documented kind', async () => {
  const { analysis } = await checkJson(exampleJob())
  expect(analysis).toMatchObject({
    setup: 'op10',
    part: { area_mm2: number, volume_mm3: number, mass_kg: number, centroid_mm: [number, number, number] },
    assembly: {
      mass_kg: number,
      centroid_mm: [number, number, number],
      inertia_kg_mm2: { zz: number, xz: number, yz: number },
    },
    unbalance: {
      static_g_mm: number,
      static_angle_deg: number,
      couple_g_mm2: number,
      couple_angle_deg: number,
      upper95_g_mm: number,
      after_cut_g_mm: number,
    },
    ceiling: { rpm: number, limit: text },
    chosen_rpm: number,
    by_hand: {
      torque_N_m: number,
      loading_torque_N_m: number,
      rim_push_N: number,
      as_weight: { mass_kg: number, radius_mm: number },
      rolls: text,
      lifts: expect.arrayContaining([{ item: text, mass_kg: number }]) as unknown,
    },
  })
  expect(analysis.speeds.map((s) => s.rpm)).toEqual(
    exampleJob().lathe.speeds.steps.map((s: { rpm: number }) => s.rpm),
  )
  for (const row of analysis.speeds) {
    expect(row).toMatchObject({
      force_N: number,
      weight_share: number,
      grade_mm_s: number,
      surface_speed_m_min: number,
    })
    expect(['go', 'caution', 'stop']).toContain(row.verdict)
  }
  expect(analysis.clearances.length).toBeGreaterThan(0)
  for (const c of analysis.clearances)
    expect(c).toMatchObject({ against: text, item: text, swept_radius_mm: number, clearance_mm: number })
  expect(analysis.findings.length).toBeGreaterThan(0)
  for (const f of analysis.findings)
    expect(f).toMatchObject({ severity: text, code: text, item: text, message: text })
  expect(analysis).toHaveProperty('clamping')
})

test('it is the analysis itself, nothing rounded or left out', async () => {
  const parsed = parseJob(JSON.stringify(exampleJob()))
  if (!parsed.ok) throw new Error('the example is not a job')
  const { analysis } = await checkJson(exampleJob())
  expect(analysis).toEqual(JSON.parse(JSON.stringify(analyse(parsed.job, 'op10'))))
})

test('--setup chooses another setup; without it the first is taken', async () => {
  const job = exampleJob()
  job.setups.push({ ...structuredClone(job.setups[0]), id: 'op30', turn: 90, speed: 70 })
  expect((await checkJson(job)).analysis.setup).toBe('op10')
  expect((await checkJson(job, '--setup', 'op30')).analysis.setup).toBe('op30')
})

describe('exit code', () => {
  test('1 exactly where a finding says stop', async () => {
    const good = exampleJob()
    const fouling = exampleJob()
    fouling.lathe.swingOverBed = 280
    fouling.lathe.gap = null
    for (const job of [good, fouling]) {
      const { code, analysis } = await checkJson(job)
      expect(code).toBe(analysis.findings.some((f) => f.severity === 'stop') ? 1 : 0)
    }
    const { code, analysis } = await checkJson(fouling)
    expect(code).toBe(1)
    expect(analysis.ceiling).toEqual({ rpm: 0, limit: 'clearance' })
  })
})

test.each(readdirSync(join(ROOT, 'examples')).filter((n) => n.endsWith('.evenswing.json')))(
  'the example %s is readable as text: what matters, worst first, cautions last',
  async (name) => {
    const { code, out, err } = await evenswing(['check', join('examples', name)], { cwd: ROOT })
    expect([0, 1]).toContain(code)
    expect(err).toBe('')
    const heads = [
      'Masses',
      'Heavy side:',
      'Pull at each speed',
      'Ceiling:',
      'Clearances',
      'Clamps',
      'Findings:',
      'Before power',
    ]
    const places = heads.map((head) => out.indexOf(`\n${head}`))
    expect(places.every((p) => p > 0)).toBe(true)
    expect([...places].sort((a, b) => a - b)).toEqual(places)
    expect(out).toMatch(/Heavy side: [\d.]+° \(.*o'clock|half past .*\)/)
    expect(out).toContain('Turn the spindle by hand')
    expect(out).not.toMatch(/NaN|undefined|Infinity|\[object/)
    expect(out).not.toMatch(/\bsafe\b/i)
    const severities = [...out.matchAll(/^ {2}(STOP|CAUTION|note) /gm)].map((m) => m[1]!)
    expect([...severities].sort((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b))).toEqual(severities)
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(130)
  },
)
const ORDER = ['STOP', 'CAUTION', 'note']

test('inches are shown where the job asks for them', async () => {
  const job = exampleJob()
  job.displayUnits = 'in'
  job.lathe.name = ''
  job.plate.name = ''
  const path = join(scratchFolder(), 'job.evenswing.json')
  writeFileSync(path, JSON.stringify(job))
  const { out } = await evenswing(['check', path])
  expect(out).toMatch(/plate +24\.7 lb/)
  expect(out).toContain('oz·in')
  expect(out).toContain('ft/min')
  expect(out).not.toMatch(/\d (mm|kg|N|g·mm²?)\b/)
})

test('the ceiling is not rounded up', async () => {
  const { analysis } = await checkJson(exampleJob())
  const { out } = await evenswing(['check', EXAMPLE])
  const shown = Number(/^Ceiling: ([\d.]+) rpm/m.exec(out)?.[1])
  expect(shown).toBeLessThanOrEqual(analysis.ceiling.rpm!)
  expect(shown).toBeGreaterThan(analysis.ceiling.rpm! - 1)
})
