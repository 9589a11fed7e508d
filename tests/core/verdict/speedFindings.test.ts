import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { boreCut, bore, disc, jobWith, partOf, piece } from '../../helpers/jobs.ts'
import { heldBlock } from '../../helpers/heldJobs.ts'
import { expectNear } from '../../helpers/near.ts'

/** Held, 3 mm off the axis. */
const job = (setup: Partial<Job['setups'][0]>, plate: Partial<Job['plate']> = {}): Job => {
  const held = heldBlock({ setup: { centre: { x: -3, y: 0 }, cuts: [], ...setup } })
  return { ...held, plate: { ...held.plate, ...plate } }
}
const found = (j: Job, code: string) => analyse(j, 'op10').findings.find((f) => f.code === code)

describe('balance at the chosen speed', () => {
  const limits = analyse(job({}), 'op10').limits
  const between = (limits.balance! + limits.balanceBestEstimate!) / 2

  it('below the bound’s ceiling it is a note, between the two a caution, above both a stop', () => {
    expect(limits.balance!).toBeLessThan(limits.balanceBestEstimate!)
    const codes = (speed: number) =>
      analyse(job({ speed }), 'op10')
        .findings.filter((f) => f.code.startsWith('unbalance-'))
        .map((f) => `${f.severity} ${f.code}`)
    expect(codes(limits.balance! - 1)).toEqual(['note unbalance-within-limit'])
    expect(codes(between)).toEqual(['caution unbalance-near-limit'])
    expect(codes(limits.balanceBestEstimate! + 1)).toEqual(['stop unbalance-over-limit'])
  })

  it('the verdict goes with it at every speed shown', () => {
    const { balance, balanceBestEstimate } = analyse(job({}), 'op10').limits
    const verdict = (speed: number) => {
      const a = analyse(job({ speed }), 'op10')
      expect(a.verdict.state).toBe(a.speeds.find((s) => s.rpm === speed)!.verdict)
      return a.verdict
    }
    expect(verdict(balance!).state).toBe('go')
    expect(verdict(balance! * 1.001)).toMatchObject({
      state: 'caution',
      reason: expect.stringContaining('may be over the limit') as string,
      finding: { code: 'unbalance-near-limit' },
    })
    expect(verdict(balanceBestEstimate!).state).toBe('caution')
    expect(verdict(balanceBestEstimate! * 1.001)).toMatchObject({
      state: 'stop',
      finding: { code: 'unbalance-over-limit' },
    })
  })

  it('what balances names no heavy side: its direction is what rounding leaves', () => {
    const even = found(job({ speed: 100, centre: { x: 0, y: 0 } }), 'unbalance-within-limit')!
    expect(even.message).toContain(', no heavy side to speak of; limit')
    expect(found(job({ speed: 100 }), 'unbalance-within-limit')!.message).toMatch(/heavy side at \d+°/)
  })

  it('the message carries force, share, weight, bound, limit and a cure that works', () => {
    const { message } = found(job({ speed: 800 }), 'unbalance-over-limit')!
    expect(message).toMatch(/pulls \d+ N at 800 rpm, \d+ % of \d+ N \(95 % bound \d+ N\)/)
    expect(message).toMatch(/limit 10 % of the rotating weight/)
    const cure = /(\d+(?:\.\d+)?) (g|kg) at (\d+) mm toward (\d+)°/.exec(message)!
    const mass = Number(cure[1]) / (cure[2] === 'g' ? 1000 : 1)
    const angle = (Number(cure[4]) * Math.PI) / 180
    const at = { x: Number(cure[3]) * Math.cos(angle), y: Number(cure[3]) * Math.sin(angle) }
    const settled = analyse(job({ speed: 800, hardware: [piece('w', mass, at)] }), 'op10')
    const before = analyse(job({ speed: 800 }), 'op10')
    expect(settled.unbalance.static_g_mm).toBeLessThan(0.02 * before.unbalance.static_g_mm)
  })

  it('each kind of criterion is named as what it is', () => {
    const say = (kind: 'force' | 'weightShare' | 'grade', value: number) =>
      found(job({ speed: 440, criterion: { kind, value } }), 'criterion-own-setting')!.message
    expect(say('force', 25)).toContain('25 N')
    expect(say('weightShare', 0.05)).toContain('5 % of the rotating weight')
    expect(say('grade', 40)).toContain('G 40')
    for (const kind of ['force', 'weightShare', 'grade'] as const)
      expect(say(kind, 1)).toContain('No published standard')
  })

  it('a wish beyond sense is a caution that says so', () => {
    const bold = (kind: 'force' | 'weightShare' | 'grade', value: number) =>
      found(job({ criterion: { kind, value } }), 'criterion-bold')?.severity
    const weight = analyse(job({}), 'op10').assembly.mass_kg * 9.80665
    expect([bold('weightShare', 0.5), bold('weightShare', 0.501)]).toEqual([undefined, 'caution'])
    expect([bold('grade', 100), bold('grade', 101)]).toEqual([undefined, 'caution'])
    expect([bold('force', 0.499 * weight), bold('force', 0.501 * weight)]).toEqual([undefined, 'caution'])
  })

  it('beyond what makes sense nothing is go, however much is asked for', () => {
    const at = (speed: number, value: number) => {
      const j = job({ speed, cuts: [], criterion: { kind: 'weightShare', value } })
      return { ...j, lathe: { ...j.lathe, maxSpindleSpeed: null }, plate: { ...j.plate, ratedSpeed: 5000 } }
    }
    const { assembly, unbalance } = analyse(at(110, 0.5), 'op10')
    // ω² = 0.5·m·g/U, by hand from the bound.
    const rpm =
      (30 / Math.PI) * Math.sqrt((0.5 * assembly.mass_kg * 9.80665) / (unbalance.upper95_g_mm * 1e-6))
    expect(found(at(rpm, 1000), 'criterion-bold')!.fromRpm).toBeCloseTo(rpm, 6)
    const effects = (j: Job, speed: number) =>
      analyse(j, 'op10').findings.filter((f) => f.code === 'criterion-bold' && speed > f.fromRpm).length
    expect(effects(at(0.99 * rpm, 1000), 0.99 * rpm)).toBe(0)
    expect(analyse(at(1.01 * rpm, 1000), 'op10').verdict.state).not.toBe('go')
    expect(analyse(at(1.01 * rpm, 1000), 'op10').verdict.state).not.toBe('caution')
  })

  it('a share of the machine’s own weight is judged by its mass, and is not judged without it', () => {
    const at = (value: number, lathe: Partial<Job['lathe']>) => {
      const j = job({ speed: 110, criterion: { kind: 'machineShare', value } })
      return { ...j, lathe: { ...j.lathe, ...lathe } }
    }
    const pull = analyse(at(0.01, { mass: 400 }), 'op10').speeds.find((s) => s.rpm === 110)!
    const share = pull.force_N / (400 * 9.80665)
    const codes = (j: Job) => analyse(j, 'op10').findings.map((f) => f.code)
    expect(codes(at(share * 0.99, { mass: 400 }))).toContain('unbalance-over-limit')
    expect(codes(at(share * 2, { mass: 400 }))).toContain('unbalance-within-limit')
    const unknown = at(share * 2, { mass: null })
    expect(codes(unknown)).toContain('criterion-not-known')
    expect(codes(unknown)).not.toContain('unbalance-within-limit')
    expect(['stop', 'not-judged']).toContain(analyse(unknown, 'op10').verdict.state)
    expect(found(at(share * 2, { mass: 400 }), 'criterion-own-setting')!.message).toContain(
      "% of the machine's own weight is this job's own setting",
    )
    // 10 % is too much for one that stands free, not for one that is bolted down.
    expect(found(at(0.1, { mass: 400 }), 'criterion-bold')!.message).toContain('standing free')
    expect(found(at(0.1, { mass: 400, boltedDown: true }), 'criterion-bold')).toBeUndefined()
  })

  it('no chosen speed, an unknown residual of the plate, and a speed above another limit are said', () => {
    expect(found(job({ speed: null }), 'no-speed-chosen')).toMatchObject({ severity: 'note' })
    expect(found(job({}), 'no-speed-chosen')).toBeUndefined()
    expect(found(job({}, { residual: null }), 'plate-residual-unknown')).toMatchObject({ severity: 'note' })
    expect(found(job({}), 'plate-residual-unknown')).toBeUndefined()
    const rated = job({ speed: 70 })
    const over = found({ ...rated, plate: { ...rated.plate, ratedSpeed: 60 } }, 'speed-above-ceiling')!
    expect(over.severity).toBe('stop')
    expect(over.message).toMatch(/70 rpm .*60 rpm.*plate/)
    // A maker's limit is not the user's to lift.
    expect(over.message).toMatch(/Run slower\.$/)
  })

  it('where only the doubt is too large no weight is offered, but what would lessen it', () => {
    const doubtful = (plate: Partial<Job['plate']>, weighedMass: number | null = null) => {
      const j = job({ centre: { x: 0, y: 0 }, speed: 180, criterion: { kind: 'force', value: 0.1 } }, plate)
      return analyse({ ...j, part: { ...j.part, weighedMass } }, 'op10')
    }
    const a = doubtful({ residual: null })
    const said = a.findings.find((f) => f.code === 'unbalance-near-limit')!.message
    expect(said).toMatch(
      /no weight cures: weigh the part and find the bare plate's own unbalance, or run at \d+ rpm/,
    )
    expect(said).not.toContain('would settle')
    const weighed = doubtful({ residual: null }, a.part.mass_kg)
    expect(weighed.findings.find((f) => f.code === 'unbalance-near-limit')!.message).toContain(
      "no weight cures: find the bare plate's own",
    )
  })
})

describe('before and after the cut', () => {
  const bored = (at: { x: number; y: number }) =>
    jobWith({
      part: partOf([disc('d', { x: 0, y: 0 }, 200, 30)], [bore('A', at, 60)]),
      setup: { centre: { x: 0, y: 0 }, cuts: [boreCut('A')] },
    })

  it('a bore on the axis hardly changes it; one off the axis does, and is named', () => {
    expect(found(bored({ x: 0, y: 0 }), 'after-cut')!.message).toContain('hardly changes')
    const off = analyse(bored({ x: 40, y: 0 }), 'op10')
    // A disc on the axis loses π·30²·30 mm³ of steel at 40 mm.
    const lost = Math.PI * 900 * 30 * 7850e-9 * 1000 * 40
    expectNear(off.unbalance.static_g_mm, 0, { abs: 1e-6 })
    expectNear(off.unbalance.after_cut_g_mm, lost, { rel: 1e-9 })
    expectNear(off.after_cut_angle_deg, 180, { abs: 1e-6 })
    const finding = off.findings.find((f) => f.code === 'after-cut')!
    expect(finding).toMatchObject({ severity: 'caution', item: 'A' })
    expect(finding.message).toContain('grows')
  })

  it('a pull of nothing that grows to next to nothing is no caution', () => {
    // A bore 10 nm off the axis.
    const finding = found(bored({ x: 1e-5, y: 0 }), 'after-cut')!
    expect(finding.severity).toBe('note')
    expect(finding.message).toMatch(/hardly changes: 0 g·mm\.$/)
  })
})
