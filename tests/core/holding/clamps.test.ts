import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { boltPreload, strapForce } from '../../../src-core/hardware/preload.ts'
import { parseJob } from '../../../src-core/job/parse.ts'
import type { Box, Hardware, Job, Setup } from '../../../src-core/job/schema.ts'
import { expectNear } from '../../helpers/near.ts'

const parsed = parseJob(
  readFileSync(new URL('../../../examples/flat-link.evenswing.json', import.meta.url), 'utf8'),
)
if (!parsed.ok) throw new Error('the example does not parse')
const link = parsed.job

type Press = NonNullable<Box['press']>

const withSetup = (change: (s: Setup) => Setup, job: Job = link): Job => ({
  ...job,
  setups: job.setups.map((s) => (s.id === 'op10' ? change(s) : s)),
})
const withClamps = (change: (h: Box, i: number) => Hardware | null) =>
  withSetup((s) => ({
    ...s,
    hardware: s.hardware.flatMap((h, i) => (h.kind === 'press' ? (change(h, i) ?? []) : h)),
  }))
const clampWith = (h: Box, fields: Partial<Press>): Hardware => ({
  ...h,
  press: { ...h.press, ...fields },
})
const codes = (job: Job) => analyse(job, 'op10').findings.map((f) => `${f.severity} ${f.code} ${f.item}`)

describe('the example link', () => {
  const a = analyse(link, 'op10')

  test('each clamp: preload from torque, low side of the scatter through the lever', () => {
    const c1 = a.clamping!.clamps[0]!
    const preload = boltPreload(45, 0.2, 12)
    expectNear(preload, 18_750, { rel: 1e-12 })
    expectNear(c1.preload_N, preload, { rel: 1e-12 })
    expectNear(c1.work_force_N, strapForce(preload * 0.75, 38, 38), { rel: 1e-12 })
    expect(c1.nose).toEqual({ x: 0, y: 36 })
  })

  test('the factor in the table at the chosen speed is the factor reported', () => {
    const row = a.speeds.find((s) => s.rpm === 110)!
    expect(row.clamp_factor).toBe(a.clamping!.factor)
    for (let i = 1; i < a.speeds.length; i++)
      expect(a.speeds[i]!.clamp_factor!).toBeLessThanOrEqual(a.speeds[i - 1]!.clamp_factor! * (1 + 1e-6))
  })

  test('what lets go: speed and energy from the centre of mass', () => {
    const w = a.let_go.find((l) => l.item === 'w1')!
    const v = ((2 * Math.PI * 110) / 60) * 0.11
    expectNear(w.speed_m_s, v, { rel: 1e-12 })
    expectNear(w.energy_J, 0.5 * 0.62 * v * v, { rel: 1e-12 })
    expect(a.let_go.map((l) => l.item)).toContain('part')
  })
})

describe('never a pass without data', () => {
  test('no clamp has data: not checked, null everywhere', () => {
    const job = withClamps((h) => ({ ...h, press: null }))
    const a = analyse(job, 'op10')
    expect(a.clamping).toBeNull()
    expect(a.limits.clamps).toBeNull()
    expect(a.speeds.every((s) => s.clamp_factor === null)).toBe(true)
    expect(codes(job)).toContain('caution clamps-not-checked setup')
    expect(codes(job).filter((c) => c.startsWith('caution clamp-not-checked'))).toHaveLength(4)
  })

  test.each(['thread', 'class', 'torque', 'boltToWork', 'boltToHeel'] as const)(
    'one clamp lacks %s: it holds nothing',
    (field) => {
      const job = withClamps((h) => (h.id === 'c3' ? clampWith(h, { [field]: null }) : h))
      const a = analyse(job, 'op10')
      expect(a.clamping!.clamps.map((c) => c.item)).toEqual(['c1', 'c2', 'c4'])
      expect(a.clamping!.factor).toBeLessThan(analyse(link, 'op10').clamping!.factor)
      expect(codes(job)).toContain('caution clamp-not-checked c3')
    },
  )

  test('a material that is not in the table: cutting force not known, clamps not checked', () => {
    const job = { ...link, part: { ...link.part, material: 'unobtainium' } }
    expect(analyse(job, 'op10').clamping).toBeNull()
    expect(codes(job)).toContain('caution clamps-not-checked setup')
    expect(codes(job)).toContain('caution cutting-force-unknown A')
  })

  test('no cut: pull and weight alone, and said so', () => {
    const job = withSetup((s) => ({ ...s, cut: null }))
    expect(analyse(job, 'op10').clamping!.factor).toBeGreaterThan(analyse(link, 'op10').clamping!.factor)
    expect(codes(job)).toContain('note no-cut setup')
  })
})

describe('limits', () => {
  test('fewer than three clamping points is a caution', () => {
    expect(codes(withClamps((h) => (h.id === 'c3' || h.id === 'c4' ? null : h)))).toContain(
      'caution few-clamps setup',
    )
    expect(codes(withClamps((h) => (h.id === 'c4' ? null : h)))).not.toContain('caution few-clamps setup')
  })

  test('torque over proof load: caution from the high side of the scatter, stop from the mean', () => {
    // M12 8.8: 48 900 N. 45 N·m gives 18 750; 100 gives 41 667, up to 52 083; 125 gives 52 083.
    const at = (torque: number) => codes(withClamps((h) => clampWith(h, { torque })))
    expect(at(45).some((c) => c.includes('over-proof-load'))).toBe(false)
    expect(at(100)).toContain('caution over-proof-load c1')
    expect(at(125)).toContain('stop over-proof-load c1')
  })

  test('no more counts than the proof load, however hard the stud is pulled', () => {
    // 150 N·m: 62 500 N, less a quarter 46 875, still under 48 900. 180: 75 000, less a quarter 56 250, over it.
    const force = (torque: number) =>
      analyse(
        withClamps((h) => clampWith(h, { torque })),
        'op10',
      ).clamping!.clamps[0]!.work_force_N
    expectNear(force(150), strapForce(46_875, 38, 38), { rel: 1e-12 })
    expectNear(force(180), strapForce(48_900, 38, 38), { rel: 1e-12 })
    expect(force(400)).toBe(force(180))
  })

  test('a factor below 2 stops', () => {
    const job = withClamps((h) => clampWith(h, { torque: 8 }))
    expect(analyse(job, 'op10').clamping!.factor).toBeLessThan(2)
    expect(codes(job)).toContain('stop clamps-slip setup')
  })

  test('a missing nose is taken from bolt, lever and facing', () => {
    const job = withClamps((h) => (h.id === 'c1' ? clampWith(h, { nose: null }) : h))
    const nose = analyse(job, 'op10').clamping!.clamps[0]!.nose
    expectNear(nose.x, 0, { abs: 1e-9 })
    expectNear(nose.y, 36, { abs: 1e-9 })
  })
})

describe('rating, nose and cut', () => {
  test('plate without a rating: iron rim speed stands in, as a rule of thumb', () => {
    const job = { ...link, plate: { ...link.plate, ratedSpeed: null } }
    expectNear(analyse(job, 'op10').limits.plate!, (33.02 * 60_000) / (Math.PI * 300), { rel: 1e-4 })
    expect(codes(job)).toContain('caution plate-not-rated plate')
  })

  test('over rating, spindle and nose load each stop', () => {
    expect(codes({ ...link, plate: { ...link.plate, ratedSpeed: 100 } })).toContain(
      'stop over-plate-rating plate',
    )
    expect(codes({ ...link, lathe: { ...link.lathe, maxSpindleSpeed: 90 } })).toContain(
      'stop over-spindle-speed lathe',
    )
    expect(codes({ ...link, lathe: { ...link.lathe, loadLimit: 10 } })).toContain('stop over-nose-load lathe')
    expect(codes({ ...link, lathe: { ...link.lathe, loadLimit: null } })).toContain(
      'caution nose-load-not-checked lathe',
    )
  })

  test('weight moment on the front bearing: m·g·(overhang + z)', () => {
    const a = analyse(link, 'op10').assembly
    expectNear(a.bearing_moment_N_m!, (a.mass_kg * 9.80665 * (92 + a.centroid_mm[2])) / 1000, { rel: 1e-12 })
  })

  test('a solid bore without a drill is not checked; with one its thrust and torque are given', () => {
    const solid = {
      ...link,
      part: {
        ...link.part,
        bores: link.part.bores.map((b) => ({ ...b, start: 0 })),
        bodies: link.part.bodies.map((b) => ({ ...b, holes: [] })),
      },
    } as Job
    expect(codes(solid)).toContain('caution drilling-not-checked A')
    const drilled = withSetup((s) => ({ ...s, cut: { ...s.cut!, drill: 25 } }), solid)
    expect(codes(drilled)).toContain('note drilling A')
    const a = analyse(drilled, 'op10')
    expect(a.cutting!.drill_torque_N_m!).toBeGreaterThan(a.cutting!.torque_N_m!)
    expect(a.clamping!.factor).toBeLessThan(analyse(solid, 'op10').clamping!.factor)
  })

  test('faster than the cutting speed, and a cutting speed above the table', () => {
    expect(codes(withSetup((s) => ({ ...s, speed: 240 })))).toContain('caution faster-than-cutting-speed A')
    expect(codes(withSetup((s) => ({ ...s, cut: { ...s.cut!, speed: 90 } })))).toContain(
      'caution cutting-speed-high A',
    )
  })

  test('a cutting speed below half the table’s low end is said to be low, as a note', () => {
    // Mild steel from 13.7 m/min: half of it is 6.85.
    const low = (speed: number) =>
      codes(withSetup((s) => ({ ...s, cut: { ...s.cut!, speed } }))).filter((c) =>
        c.includes('cutting-speed-'),
      )
    expect(low(6.8)).toEqual(['note cutting-speed-low A'])
    expect(low(6.9)).toEqual([])
    expect(low(22)).toEqual([])
  })
})
