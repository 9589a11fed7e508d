/** Another workpiece alike, bolted opposite: what it weighs, settles, holds and runs into. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Analysis } from '../../../src-core/analysis/result.ts'
import { jobFaults } from '../../../src-core/job/faults.ts'
import { checkJob } from '../../../src-core/job/parse.ts'
import type { Hardware, Job, Twin } from '../../../src-core/job/schema.ts'
import { turning } from '../../../src-core/geometry/angles.ts'
import { regionMoments } from '../../../src-core/geometry/ringMoments.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { fetchList } from '../../../src-core/steps/fetchList.ts'
import { piece } from '../../helpers/jobs.ts'
import { OUT, TWIN, twinJob } from '../../helpers/twinJobs.ts'

const first = (job: Job) => analyse(job, 'op10')
const found = (a: Analysis, code: string) => a.findings.filter((f) => f.code === code)
const of = (a: Analysis, item: string) => a.findings.filter((f) => f.item === item && f.severity === 'stop')
const factor = (a: Analysis) => a.joints.find((j) => j.id === 'T1')!.factor
const bolt = TWIN.bolts[0]!

describe('a twin turned half round the axis', () => {
  const good = first(twinJob())
  const alone = first(twinJob(null))
  // 60·100·30 less two holes of 14 and the pocket of 20·20·10; its start hole of 10 is drawn, but not cut.
  const volume = 60 * 100 * 30 - 2 * (Math.PI / 4) * 14 ** 2 * 30 - 20 * 20 * 10

  test('fits the schema, goes and holds', () => {
    expect(checkJob(twinJob()).ok).toBe(true)
    expect(jobFaults(twinJob())).toEqual([])
    expect(good.findings.filter((f) => f.severity === 'stop')).toEqual([])
    expect(factor(good)).toBeGreaterThan(2)
  })

  test('settles the part, and its bolts theirs, to nought, static and couple', () => {
    expect(alone.unbalance.static_g_mm).toBeGreaterThan(50_000)
    expect(good.unbalance.static_g_mm).toBeLessThan(1e-6)
    expect(good.unbalance.couple_g_mm2).toBeLessThan(1e-4)
  })

  test('is as heavy as the part', () => {
    const item = mountSetup(twinJob(), 'op10').pieces.find((p) => p.item.id === 'T1')!
    const body = item.solids.filter((s) => s.role === 'twin').reduce((sum, s) => sum + s.mass, 0)
    expect(body).toBeCloseTo(volume * 7850e-9, 2)
    expect(body).toBeCloseTo(good.part.mass_kg, 9)
    const { x, y } = item.solids[0]!.massCentre
    const { centre_mm } = good.terms.find((t) => t.item === 'part')!
    expect(x).toBeCloseTo(-centre_mm.x, 9)
    expect(y).toBeCloseTo(-centre_mm.y, 9)
  })

  test('fills what outline, bolt holes and pocket leave, in every layer', () => {
    const { solids } = mountSetup(twinJob(), 'op10').pieces.find((p) => p.item.id === 'T1')!
    const filled = solids
      .filter((s) => s.role === 'twin')
      .map(({ ring, holes = [], z0, z1 }) => regionMoments({ outline: ring, holes }).area * (z1 - z0))
    // Chords of the holes leave a little.
    expect(filled.reduce((sum, v) => sum + v, 0) / volume).toBeCloseTo(1, 3)
  })

  test('leaves a couple of its mass times radius times lift where it stands higher', () => {
    const lift = 12
    const a = first(twinJob({ raised: lift, bolts: [] }, pads(lift)))
    const flat = first(twinJob({ bolts: [] }, pads(lift)))
    const change = Math.abs(a.unbalance.couple_g_mm2 - flat.unbalance.couple_g_mm2)
    const centre = a.terms.find((t) => t.item === 'part')!
    const moved = centre.mass_kg * 1000 * Math.hypot(centre.centre_mm.x, centre.centre_mm.y) * lift
    expect(change / moved).toBeCloseTo(1, 2)
  })

  test('is bored as the part was by earlier setups, not as this one bores it', () => {
    const a = analyse(twinJob({}, [], {}, true), 'op20')
    expect(a.part.mass_kg).toBeLessThan(good.part.mass_kg)
    expect(a.unbalance.static_g_mm).toBeLessThan(1e-6)
  })

  test('reads the same however all is turned together', () => {
    for (const by of [37, 90, 201]) {
      const a = first(turned(twinJob({ at: { x: -OUT - 1, y: 2 } }), by))
      const b = first(twinJob({ at: { x: -OUT - 1, y: 2 } }))
      expect(a.unbalance.static_g_mm).toBeCloseTo(b.unbalance.static_g_mm, 4)
      expect(a.unbalance.couple_g_mm2).toBeCloseTo(b.unbalance.couple_g_mm2, 2)
      expect(factor(first(turned(twinJob(), by)))! / factor(good)!).toBeCloseTo(1, 3)
    }
  })

  test('is fetched with its two bolts and the two of the part, and stands in the terms', () => {
    expect(fetchList(twinJob(), 'op10').map((f) => f.words)).toContainEqual(
      expect.stringMatching(/^twin of the part/),
    )
    const bolts = fetchList(twinJob(), 'op10').filter((f) => f.group === 'bolts')
    expect(bolts.map((b) => b.count)).toEqual([4])
    expect(good.terms.find((t) => t.item === 'T1')!.mass_kg).toBeGreaterThan(good.part.mass_kg)
  })
})

describe('a twin that does not hold', () => {
  test('without bolts it is stopped', () => {
    const a = first(twinJob({ bolts: [] }))
    expect(a.verdict.state).toBe('stop')
    expect(of(a, 'T1').map((f) => f.code)).toContain('joint-slides')
  })

  test('with a torque that is not known it is not judged', () => {
    const bolts = TWIN.bolts.map((b) => ({ ...b, torque: null }))
    const a = first(twinJob({ bolts }))
    expect(factor(a)).toBeNull()
    expect(found(a, 'joint-not-judged').map((f) => f.item)).toContain('T1')
    expect(a.verdict.state).toBe('not-judged')
  })

  test('a bolt taken off makes it no better', () => {
    const good = first(twinJob())
    const a = first(twinJob({ bolts: [bolt] }))
    expect(factor(a)!).toBeLessThan(factor(good)!)
  })

  test('a bolt over solid plate is stopped', () => {
    const a = first(twinJob({ at: { x: -OUT - 20, y: 0 } }))
    expect(of(a, 'T1').map((f) => f.code)).toContain('bolt-in-solid')
    expect(a.verdict.state).toBe('stop')
  })

  test('a bolt where the part has no hole is stopped and holds nothing', () => {
    const a = first(twinJob({ bolts: TWIN.bolts.map((b) => ({ ...b, at: { x: -10, y: b.at!.y } })) }))
    expect(of(a, 'T1').map((f) => f.code)).toContain('bolt-covered')
    expect(factor(a)).toBe(0)
  })

  test('raised on nothing it is stopped', () => {
    const a = first(twinJob({ raised: 12 }))
    expect(of(a, 'T1').map((f) => f.code)).toContain('part-not-carried')
  })

  test('raised on packing under its bolts it holds, and the packing does not lie idle', () => {
    const a = first(twinJob({ raised: 12 }, pads(12)))
    expect(a.findings.filter((f) => f.severity === 'stop')).toEqual([])
    expect(factor(a)).toBeGreaterThan(2)
  })
})

describe('a twin that is in the way', () => {
  test('runs into the part', () => {
    const a = first(twinJob({ at: { x: 20, y: 0 } }))
    expect(found(a, 'part-clash').map((f) => f.item)).toContain('T1')
  })

  test('runs into what else stands there, but not where its pocket leaves room', () => {
    const block = (height: number, base: number, x: number) =>
      piece('o1', 0.1, { x, y: -5 }, { kind: 'other', footprint: { rect: [8, 8] }, base, height, facing: 0 })
    expect(found(first(twinJob({}, [block(10, 5, -OUT - 17)])), 'hardware-clash')).toHaveLength(1)
    expect(found(first(twinJob({}, [block(10, 22, -OUT - 17)])), 'hardware-clash')).toHaveLength(0)
  })

  test('over the rim it is said, and farther out it is off the plate', () => {
    const over = (x: number) => first(twinJob({ at: { x, y: 0 } }))
    expect(found(over(-120), 'overhangs-plate').map((f) => f.item)).toContain('T1')
    expect(found(over(-190), 'off-plate').map((f) => f.item)).toContain('T1')
  })

  test('fouls the bed where its corner swings', () => {
    const far = first(twinJob({ at: { x: -400, y: 0 } }))
    expect(far.findings.some((f) => f.code.startsWith('fouls') && f.item === 'T1')).toBe(true)
  })
})

/** Loose packing round each of the twin's bolts, left and right. */
const pads = (height: number): Hardware[] =>
  [-32, 32].flatMap((y, i) =>
    [-17, 17].map((x, k) =>
      piece(
        `p${i}${k}`,
        0.1,
        { x: x - OUT, y },
        { kind: 'packing', footprint: { rect: [18, 30] }, height, facing: 0 },
      ),
    ),
  )

function turned(job: Job, by: number): Job {
  const { c, s } = turning(by)
  const spin = <P extends { readonly x: number; readonly y: number }>(p: P): P => ({
    ...p,
    x: c * p.x - s * p.y,
    y: s * p.x + c * p.y,
  })
  const turnTwin = (h: Twin): Twin => ({
    ...h,
    at: 'x' in h.at ? spin(h.at) : h.at,
    facing: (h.facing + by) % 360,
  })
  return {
    ...job,
    plate: { ...job.plate, holes: job.plate.holes.map(spin) },
    setups: job.setups.map((setup) => ({
      ...setup,
      turn: by,
      hardware: setup.hardware.map((h) => (h.kind === 'twin' ? turnTwin(h) : h)),
    })),
  }
}
