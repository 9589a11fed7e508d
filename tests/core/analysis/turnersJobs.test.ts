/** Six jobs as a turner gets them: what comes out is of the size that they expect, worked by hand beside each. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Analysis } from '../../../src-core/analysis/result.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { crankWeb, pumpBody, sheave } from '../../helpers/turnersJobs.ts'
import { gunmetalStrap, inchBracket, lever } from '../../helpers/turnersOtherJobs.ts'

const about = (value: number, expected: number, share: number) => {
  expect(value).toBeGreaterThan(expected * (1 - share))
  expect(value).toBeLessThan(expected * (1 + share))
}
const codes = (a: Analysis) => a.findings.map((f) => f.code)
const first = (job: Job) => analyse(job, 'op10')
const pull = (a: Analysis, rpm: number) => a.speeds.find((s) => s.rpm === rpm)!

describe('a crank web', () => {
  const twin = first(crankWeb())
  const alone = first(crankWeb(false))
  test('hangs with its 15.5 kg at 110 mm, some 17 N·m, and more with its straps on', () => {
    about(alone.part.mass_kg, 15.5, 0.01)
    about(alone.by_hand.loading_torque_N_m, 15.5 * 0.11 * 9.81 + 4 * 3.8 * 0.078 * 9.81, 0.05)
    expect(alone.by_hand.rolls).toBe('swings')
    expect(codes(alone)).toContain('unbalance-over-limit')
  })
  test('needs no weight with its twin across: what is left is the straps, within the limit at 80 rpm', () => {
    about(twin.unbalance.static_g_mm, 4 * 3.8 * 78 * 1000, 0.1)
    expect(twin.verdict).toMatchObject({ state: 'go' })
    expect(pull(twin, 80).weight_share).toBeLessThan(0.08)
    // While it is loaded the part alone still swings.
    expect(codes(twin)).toContain('heavy-side')
    about(twin.by_hand.loading_torque_N_m, 15.5 * 0.11 * 9.81, 0.05)
    expect(twin.joints.find((j) => j.id === 'twin')!.factor).toBeGreaterThan(2)
  })
})

test('a cored pump body on its own flange: 12.4 kg 30 mm off wants some 2.5 kg at 152 mm', () => {
  const a = first(pumpBody())
  about(a.part.mass_kg, 12.5, 0.01)
  const bare = a.terms.filter((t) => t.item !== 'w').reduce((s, t) => s + t.unbalance_g_mm.x, 0)
  about(bare, 12.5 * 30_000 + 0.4 * 30_000, 0.05)
  about(a.unbalance.static_g_mm, Math.abs(bare - 2.4 * 152_000), 0.25)
  about(a.by_hand.loading_torque_N_m, 12.5 * 0.03 * 9.81, 0.06)
  expect(a.verdict.state).toBe('go')
  expect(a.by_hand.lifts.map((l) => l.item)).toEqual(['plate', 'part'])
})

describe('an eccentric sheave on a metre plate', () => {
  const [outside, bored] = ['op10', 'op20'].map((id) => analyse(sheave(), id)) as [Analysis, Analysis]
  test('weighs 150 kg; turned outside only its rough eye is off the axis: 11.5 kg at 60 mm', () => {
    about(outside.part.mass_kg, 150, 0.01)
    // The plate's own 0.1 kg·m lies on the light side.
    about(outside.unbalance.static_g_mm, 11.45 * 60_000 - 100_000, 0.02)
    expect(outside.verdict.state).toBe('go')
  })
  test('18 m/min on 566 mm is 10 rpm', () => {
    about((1000 * 18) / (Math.PI * 566), 10, 0.02)
    expect(codes(outside)).not.toContain('faster-than-cutting-speed')
  })
  test('bored, its 160 kg hang 60 mm off with some 100 N·m: chocked, though at 6 rpm it pulls 4 N and at 60 rpm 400 N', () => {
    about(bored.by_hand.torque_N_m, 160 * 0.06 * 9.81 + 0.1 * 9.81, 0.1)
    expect(bored.by_hand.rolls).toBe('swings')
    about(pull(bored, 6).force_N, 4, 0.05)
    about(pull(bored, 60).force_N, 400, 0.05)
    expect(bored.speeds.map((s) => s.verdict)).toEqual(bored.speeds.map(() => 'go'))
    expect(bored.findings.find((f) => f.code === 'heavy-side')!.severity).toBe('caution')
    expect(bored.findings.find((f) => f.code === 'heavy-lift')!.severity).toBe('caution')
  })
})

test('an inch bracket: 6.8 lb an inch and a half off is some 10 lb·in, with its bolts 180 oz·in; 2.6 lbf at 90 rpm', () => {
  const a = first(inchBracket())
  const ounceInch = 28.3495 * 25.4
  about(a.unbalance.static_g_mm / ounceInch, (6.8 + 0.8) * 16 * 1.5, 0.05)
  about(pull(a, 90).force_N / 4.44822, 2.6, 0.05)
  expect(a.verdict.state).toBe('go')
  expect(a.findings.find((f) => f.code === 'heavy-side')!.message).toMatch(
    /lbf·ft.* lb at 6 in, or .* lbf on the rim/,
  )
})

test('a small gunmetal strap: 0.75 kg at 20 mm does not roll the spindle, and a screwed nose is not braked', () => {
  const a = first(gunmetalStrap())
  about(a.by_hand.torque_N_m, 0.75 * 0.02 * 9.81, 0.1)
  expect(a.by_hand.rolls).toBe('stays')
  const nose = a.findings.find((f) => f.code === 'nose-screwed')!
  expect(nose.message).toMatch(
    /^The plate is screwed on and not locked: no reverse, no brake\. A stop from 145 rpm in 1\.5 s turns it/,
  )
  expect(codes(a)).not.toContain('nose-unscrews')
  // The sub-plate goes on before what stands on it.
  expect(a.by_hand.lifts.map((l) => l.item)).toEqual(['plate', 'F1'])
  expect(a.verdict.state).toBe('go')
})

describe('a long flame-cut lever', () => {
  test('goes on its middle eye', () => {
    const a = first(lever())
    about(a.part.mass_kg, 32.4, 0.01)
    expect(a.verdict.state).toBe('go')
  })
  test('does not go on its end eye: the far end sweeps 810 mm where 450 are free, and no cure is made up', () => {
    const a = analyse(lever(), 'op20')
    expect(a.verdict.state).toBe('stop')
    const foul = a.findings.find((f) => f.code === 'fouls-gap')!
    expect(foul.message).toBe(
      'The part fouls the gap by 362 mm: it sweeps 812 mm radius against 450 mm to the gap. It needs a lathe with more swing.',
    )
    about(a.by_hand.torque_N_m, 32 * 0.38 * 9.81, 0.03)
  })
})
