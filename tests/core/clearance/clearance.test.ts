import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { expectNear } from '../../helpers/near.ts'
import { boreCut, block, bore, disc, jobWith, partOf, piece } from '../../helpers/jobs.ts'

const find = (job: Job, item: string, against: string) =>
  analyse(job, 'op10').clearances.find((c) => c.item === item && c.against === against)
const codes = (job: Job) => analyse(job, 'op10').findings.map((f) => `${f.severity} ${f.code} ${f.item}`)

describe('swept radius from the true outline', () => {
  test('the far corner of a block, and the far side of an arc', () => {
    const job = jobWith({ part: partOf([block('b', { x: 30, y: 0 }, [100, 40, 20])]) })
    const c = find(job, 'part', 'bed')!
    expectNear(c.swept_radius_mm, Math.hypot(80, 20), { rel: 1e-12 })
    expectNear(c.clearance_mm, 165 - Math.hypot(80, 20), { rel: 1e-12 })
    expectNear(Math.abs(c.corner.y), 20, { abs: 1e-9 })
    const round = jobWith({ part: partOf([disc('d', { x: 50, y: 30 }, 60, 20)]) })
    expectNear(find(round, 'part', 'bed')!.swept_radius_mm, Math.hypot(50, 30) + 30, { rel: 1e-12 })
  })

  test('turning the part does not change what it sweeps', () => {
    const part = partOf([block('b', { x: 30, y: 0 }, [100, 40, 20])])
    for (const turn of [0, 33, 90, 211])
      expectNear(
        find(jobWith({ part, setup: { turn } }), 'part', 'bed')!.swept_radius_mm,
        Math.hypot(80, 20),
        { rel: 1e-12 },
      )
  })
})

describe('bed and gap', () => {
  const long = partOf([
    disc('low', { x: 0, y: 0 }, 340, 20),
    disc('high', { x: 0, y: 0 }, 200, 150, { base: 20 }),
  ])

  test('gap closed: everything is judged against the bed and fouls there', () => {
    const job = jobWith({ part: long })
    expect(find(job, 'part', 'gap')).toBeUndefined()
    expectNear(find(job, 'part', 'bed')!.clearance_mm, -5, { abs: 1e-9 })
    expect(codes(job)).toContain('stop fouls-bed part')
    expect(analyse(job, 'op10').ceiling).toEqual({ rpm: 0, limit: 'clearance' })
    expect(analyse(job, 'op10').speeds.every((s) => s.verdict === 'stop')).toBe(true)
  })

  test('gap open: what lies within its width clears in it, what stands beyond meets the bed', () => {
    const job = jobWith({ part: long, lathe: { gap: { swing: 470, width: 130, open: true } } })
    expectNear(find(job, 'part', 'gap')!.clearance_mm, 235 - 170, { abs: 1e-9 })
    expectNear(find(job, 'part', 'bed')!.swept_radius_mm, 100, { abs: 1e-9 })
    expect(codes(job).some((c) => c.includes('fouls-bed'))).toBe(false)
  })

  test('what stands wholly beyond the gap’s width has nothing to do with the gap', () => {
    const lathe = { gap: { swing: 470, width: 130, open: true } }
    const at = (base: number) =>
      jobWith({ lathe, setup: { hardware: [piece('w', 1, { x: 60, y: 0 }, { base })] } })
    expect(find(at(129), 'w', 'gap')).toBeDefined()
    expect(find(at(129), 'w', 'bed')).toBeDefined()
    expect(find(at(130), 'w', 'gap')).toBeUndefined()
    expect(find(at(130), 'w', 'bed')).toBeDefined()
    expect(find(at(110), 'w', 'bed')).toBeUndefined()
  })

  test('a big disc beyond the gap fouls the bed even with the gap open', () => {
    const far = partOf([
      disc('low', { x: 0, y: 0 }, 100, 120),
      disc('high', { x: 0, y: 0 }, 340, 20, { base: 120 }),
    ])
    expect(codes(jobWith({ part: far, lathe: { gap: { swing: 470, width: 130, open: true } } }))).toContain(
      'stop fouls-bed part',
    )
  })

  test('under 3 mm is a caution', () => {
    expect(codes(jobWith({ part: partOf([disc('d', { x: 0, y: 0 }, 326, 20)]) }))).toContain(
      'caution close-to-bed part',
    )
    expect(codes(jobWith({ part: partOf([disc('d', { x: 0, y: 0 }, 322, 20)]) }))).not.toContain(
      'caution close-to-bed part',
    )
  })
})

describe('cross-slide', () => {
  // Part 12 to 32 above the plate, tool tip at its seat: the cross-slide comes to 12 + reach.
  const wide = (barReach: number | null, height: number) =>
    jobWith({
      lathe: { barReach },
      part: partOf([disc('d', { x: 0, y: 0 }, 120, 20)], [bore('A', { x: 0, y: 0 }, 30)]),
      setup: {
        centre: { bore: 'A' },
        cuts: [boreCut('A')],
        hardware: [piece('w', 1, { slot: 'S1', radius: 110 }, { height })],
      },
    })

  test('only what stands beyond its nearest part at full depth meets it', () => {
    expect(find(wide(60, 70), 'w', 'cross-slide')).toBeUndefined()
    const c = find(wide(60, 80), 'w', 'cross-slide')!
    expectNear(c.clearance_mm, 95 - 130, { abs: 1e-9 })
    expect(codes(wide(60, 80))).toContain('stop fouls-cross-slide w')
  })

  test('an unknown reach is not judged, never a pass, and said once for the lathe', () => {
    const job = wide(null, 30)
    const two = jobWith({
      lathe: { barReach: null },
      part: job.part,
      setup: {
        ...job.setups[0]!,
        hardware: ['S1', 'S2'].map((slot) => piece(`w${slot}`, 1, { slot, radius: 110 }, { height: 30 })),
      },
    })
    expect(codes(two).filter((c) => c.includes('carriage'))).toEqual(['caution carriage-not-checked lathe'])
    expect(codes(two).some((c) => c.startsWith('stop fouls-cross'))).toBe(false)
  })
})
