import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { boltPreload, strapForce } from '../../../src-core/hardware/preload.ts'
import { parseJob } from '../../../src-core/job/parse.ts'
import type { Job, Setup } from '../../../src-core/job/schema.ts'
import { without } from '../../helpers/edited.ts'
import { drillCut, shelfExample } from '../../helpers/jobs.ts'
import { FOUR_CLAMPS, heldBlock } from '../../helpers/heldJobs.ts'
import { expectNear } from '../../helpers/near.ts'

const parsed = parseJob(
  readFileSync(new URL('../../data/jobs/v2/flat-link.evenswing.json', import.meta.url), 'utf8'),
)
if (!parsed.ok) throw new Error('the example does not parse')
const link = parsed.job

const withSetup = (change: (s: Setup) => Setup, job: Job = link): Job => ({
  ...job,
  setups: job.setups.map((s) => (s.id === 'op10' ? change(s) : s)),
})
const codes = (job: Job) => analyse(job, 'op10').findings.map((f) => `${f.severity} ${f.code} ${f.item}`)

const HIGH = { rel: 1e-12 }

describe('four straps', () => {
  const a = analyse(heldBlock(), 'op10')

  test('each clamp: preload from torque, low side of the scatter through the lever', () => {
    const c1 = a.clamping!.clamps[0]!
    const preload = boltPreload(45, 0.2, 12)
    expectNear(preload, 18_750, HIGH)
    expectNear(c1.preload_N, preload, HIGH)
    // 30 mm from bolt to work, 45 mm from bolt to heel.
    expectNear(c1.work_force_N, strapForce(preload * 0.75, 30, 45), HIGH)
    expectNear(c1.nose.x, 42, { abs: 1e-9 })
  })

  test('the factor in the table at the chosen speed is the factor reported; it is worked out at no other', () => {
    expect(a.speeds.map((s) => s.clamp_factor).filter((f) => f !== null)).toEqual([a.clamping!.factor])
    expect(a.speeds.find((s) => s.rpm === 110)!.clamp_factor).toBe(a.clamping!.factor)
  })

  test('at the speed where the lowest joint falls to 2 it is 2', () => {
    const at = (speed: number) =>
      Math.min(...analyse(heldBlock({ setup: { speed } }), 'op10').joints.map((j) => j.factor!))
    expectNear(at(a.limits.holding!), 2, { rel: 1e-6 })
  })
})

test('what lets go: speed and energy from the centre of mass', () => {
  const a = analyse(link, 'op10')
  const w = a.let_go.find((l) => l.item === 'w1')!
  const v = ((2 * Math.PI * 110) / 60) * 0.11
  expectNear(w.speed_m_s, v, { rel: 1e-12 })
  expectNear(w.energy_J, 0.5 * 0.62 * v * v, { rel: 1e-12 })
  expect(a.let_go.map((l) => l.item)).toContain('part')
})

describe('never a pass without data', () => {
  test('presses of which too little is known: not judged, null everywhere', () => {
    const a = analyse(link, 'op10')
    expect(a.clamping).toBeNull()
    expect(a.speeds.every((s) => s.clamp_factor === null)).toBe(true)
    expect(codes(link)).toContain('caution joint-not-judged setup')
  })

  test.each([
    ['thread', { stud: { thread: null, class: '8.8', length: 'suit' } }],
    ['class', { stud: { thread: 'M12', class: null, length: 'suit' } }],
    ['a class that every object has', { stud: { thread: 'M12', class: 'constructor', length: 'suit' } }],
    ['torque', { torque: null }],
    ['heel', { heel: null }],
  ] as const)('one clamp lacks %s: it holds nothing', (_, without) => {
    const job = heldBlock({ hardware: FOUR_CLAMPS.map((c) => (c.id === 'c3' ? { ...c, ...without } : c)) })
    const a = analyse(job, 'op10')
    expect(a.clamping!.clamps.map((c) => c.item)).toEqual(['c1', 'c2', 'c4'])
    expect(a.clamping!.factor).toBeLessThan(analyse(heldBlock(), 'op10').clamping!.factor)
  })

  test('a material that is not in the table is said to be none', () => {
    const job = { ...link, part: { ...link.part, material: 'unobtainium' } }
    expect(codes(job)).toContain('caution cutting-force-unknown A')
  })
})

describe('limits', () => {
  test('fewer than three clamping points is a caution', () => {
    const of = (n: number) => codes(heldBlock({ hardware: FOUR_CLAMPS.slice(0, n) }))
    expect(of(2)).toContain('caution few-clamps setup')
    expect(of(3)).not.toContain('caution few-clamps setup')
  })

  test('bolts are not called clamps', () => {
    const said = (job: Job, setup: string) =>
      analyse(job, setup).findings.find((f) => f.code === 'few-clamps')!.message
    expect(said(shelfExample('bearing-block'), 'op20')).toMatch(
      /^The part is held by two bolts\. .*Add bolts or/,
    )
    expect(said(heldBlock({ hardware: FOUR_CLAMPS.slice(0, 2) }), 'op10')).toMatch(
      /by two clamps\. .*Add clamps/,
    )
  })

  test('one clamp alone is not judged, nor is one of two that presses; a vee held by one strap is none the better', () => {
    const alone = heldBlock({ hardware: FOUR_CLAMPS.slice(0, 1) })
    expect(codes(alone)).toContain('caution one-clamp setup')
    const [first, second] = FOUR_CLAMPS
    const away = heldBlock({ hardware: [first!, { ...second!, facing: second!.facing + 180 }] })
    expect(codes(away)).toContain('caution one-clamp setup')
    const one = analyse(without(shelfExample('round-casting'), 'c1'), 'op10')
    expect(one.verdict.state).toBe('not-judged')
  })

  test('a factor below 2 stops from the speed on where it falls below', () => {
    const job = heldBlock({ hardware: FOUR_CLAMPS.map((c) => ({ ...c, torque: 8 })) })
    const a = analyse(job, 'op10')
    expect(a.clamping!.factor).toBeLessThan(2)
    const slides = a.findings.find((f) => f.code === 'joint-slides')!
    expect([slides.severity, slides.item, slides.effect]).toEqual(['stop', 'setup', 'stop'])
    expect(slides.fromRpm).toBe(a.clamping!.rpm_at_factor_2)
  })
})

describe('rating, nose and cut', () => {
  test('plate without a rating: iron rim speed stands in, as a rule of thumb', () => {
    const job = { ...link, plate: { ...link.plate, ratedSpeed: null } }
    const rim = (33.02 * 60_000) / (Math.PI * 300)
    // Its slots cut the ring that holds a rim: half the stress, the root of a half of the speed.
    expectNear(analyse(job, 'op10').limits.plate!, rim / Math.SQRT2, { rel: 1e-4 })
    const whole = {
      ...job,
      plate: { ...job.plate, slots: [], holes: [] },
      setups: job.setups.map((s) => ({ ...s, hardware: [] })),
    }
    expectNear(analyse(whole, 'op10').limits.plate!, rim, { rel: 1e-4 })
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
    const drilled = withSetup((s) => ({ ...s, cuts: [drillCut('A', 25), ...s.cuts!] }), solid)
    expect(codes(drilled)).toContain('note drilling A')
    const a = analyse(drilled, 'op10')
    const [drill, boring] = a.cutting!.cuts
    expect(drill!.torque_N_m!).toBeGreaterThan(boring!.torque_N_m!)
  })

  test('faster than the cutting speed, and a cutting speed above the table', () => {
    expect(codes(withSetup((s) => ({ ...s, speed: 240 })))).toContain('caution faster-than-cutting-speed A')
    expect(codes(withSetup((s) => ({ ...s, cuts: s.cuts!.map((c) => ({ ...c, speed: 90 })) })))).toContain(
      'caution cutting-speed-high A',
    )
  })

  test('a cutting speed below half the table’s low end is said to be low, as a note', () => {
    // Mild steel from 13.7 m/min: half of it is 6.85.
    const low = (speed: number) =>
      codes(withSetup((s) => ({ ...s, cuts: s.cuts!.map((c) => ({ ...c, speed })) }))).filter((c) =>
        c.includes('cutting-speed-'),
      )
    expect(low(6.8)).toEqual(['note cutting-speed-low A'])
    expect(low(6.9)).toEqual([])
    expect(low(22)).toEqual([])
  })
})
