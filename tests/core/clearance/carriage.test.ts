import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { jobFaults } from '../../../src-core/job/faults.ts'
import type { Job, Lathe } from '../../../src-core/job/schema.ts'
import { expectNear } from '../../helpers/near.ts'
import { block, bore, boreCut, disc, jobWith, partOf, piece } from '../../helpers/jobs.ts'

/** A disc 12 to 32 above the plate with a bore to be cut; a boss at radius 60 reaches `boss` above its seat. */
function boring(lathe: Partial<Lathe>, boss = 20, hardware = [] as Job['setups'][number]['hardware']): Job {
  const O = { x: 0, y: 0 }
  return jobWith({
    lathe,
    part: partOf(
      [disc('d', O, 120, 20), ...(boss > 20 ? [block('boss', { x: 45, y: 0 }, [10, 10, boss])] : [])],
      [bore('A', O, 30, { start: 20 })],
    ),
    setup: {
      centre: { bore: 'A' },
      cuts: [boreCut('A')],
      hardware,
    },
  })
}
const TOOLING = { tool: 'HSS', speed: 20, feed: 0.1, depth: 1, interrupted: false } as const
const found = (job: Job, code: string) => analyse(job, 'op10').findings.filter((f) => f.code === code)
const profile = (...rows: readonly (readonly [number, number])[]) => ({
  carriage: { profile: rows.map(([behind, radius]) => ({ behind, radius })) },
})

describe('the carriage behind the tool', () => {
  test('a boss that swings where the tool post stands fouls it', () => {
    // Tip at 12; the post stands 40 from the axis from 12 + 60 on; the boss' corner is at (50, 5).
    const post = { barReach: 60, ...profile([60, 40]) }
    const stop = found(boring(post, 61), 'fouls-carriage')[0]!
    expect(stop.effect).toBe('stop')
    expect(stop.item).toBe('part')
    const c = analyse(boring(post, 61), 'op10').clearances.find((x) => x.against === 'carriage')!
    expectNear(c.clearance_mm, 40 - Math.hypot(50, 5), { abs: 1e-9 })
    // As high as the post's front it still clears, and so does a post that stands further out.
    expect(found(boring(post, 60), 'fouls-carriage')).toEqual([])
    expect(found(boring({ barReach: 60, ...profile([60, 54]) }, 61), 'fouls-carriage')).toEqual([])
    expect(found(boring({ barReach: 60, ...profile([60, 52]) }, 61), 'close-to-carriage')).toHaveLength(1)
  })

  test('without a profile what stands further out than the bar reaches is not judged, once', () => {
    const weights = ['S1', 'S2'].map((slot) => piece(`w${slot}`, 0.2, { slot, radius: 60 }, { height: 90 }))
    const one = found(boring({ barReach: 60 }, 61, weights), 'carriage-not-checked')
    expect(one.map((f) => [f.item, f.effect])).toEqual([['lathe', 'unknown']])
    expect(one[0]!.message).toMatch(/the part \(boss\), wS1 and wS2 stand further out/)
    expect(found(boring({ barReach: 100 }, 61, weights), 'carriage-not-checked')).toEqual([])
  })

  test('an unknown reach is not judged only where something could be met', () => {
    // Nothing stands in front of the bore's mouth, and nothing sweeps further than the cross-slide.
    expect(found(boring({ barReach: null }), 'carriage-not-checked')).toEqual([])
    expect(found(boring({ barReach: null }, 21), 'carriage-not-checked')).toHaveLength(1)
    const low = piece('w', 0.2, { slot: 'S1', radius: 110 }, { height: 14 })
    expect(found(boring({ barReach: null }, 20, [low]), 'carriage-not-checked')).toHaveLength(1)
    expect(found(boring({ barReach: null }, 20, [{ ...low, height: 12 }]), 'carriage-not-checked')).toEqual(
      [],
    )
  })

  test('a bar too short for its bore, and a carriage that stops too soon, are said with what is wanted', () => {
    const short = found(boring({ barReach: 15 }), 'bar-short')[0]!
    expect(short.message).toMatch(/5 mm before the tool is through/)
    expect(short.effect).toBe('none')
    expect(found(boring({ barReach: 20 }), 'bar-short')).toEqual([])
    // Tip at 12: with 60 of bar the carriage's front is at 72.
    const gap = { swing: 470, width: 130 }
    const saddle = { gapIn: 70, gapOut: 100 }
    const stops = (open: boolean) =>
      found(boring({ barReach: 60, gap: { ...gap, open }, saddleReach: saddle }), 'saddle-short')
    expect(stops(false)).toEqual([])
    expect(stops(true)[0]!.message).toMatch(/28 mm short.*gap piece out; let the tool stand out 88 mm/)
  })

  test('turning the outside moves the post out with its tool, but not the slide under the work', () => {
    const turned = (behind: number, radius: number, z: [number, number]) => {
      const job = boring({ barReach: behind, ...profile([behind, radius]) }, 61)
      const cut = { id: 'c', kind: 'turn', start: 120, diameter: 118, z, ...TOOLING } as const
      return { ...job, setups: [{ ...job.setups[0]!, cuts: [cut] }] }
    }
    // At its far end the tip is 12 above the plate and 59 from the axis; the boss' corner is at 50.2.
    expect(found(turned(20, 10, [0, 20]), 'fouls-carriage')).toEqual([])
    expect(found(boring({ barReach: 20, ...profile([20, 10]) }, 61), 'fouls-carriage')).toHaveLength(1)
    // A weight that swings to 130 meets a post 59 + 60 from the axis.
    const swung = (behind: number, radius: number) => {
      const job = turned(behind, radius, [0, 20])
      const hardware = [piece('w', 0.2, { slot: 'S1', radius: 110 }, { height: 40 })]
      return { ...job, setups: [{ ...job.setups[0]!, hardware }] }
    }
    const wide: Partial<Lathe> = { swingOverCrossSlide: 300 }
    const widened = (job: Job) => ({ ...job, lathe: { ...job.lathe, ...wide } })
    expect(found(widened(swung(20, 60)), 'fouls-carriage').map((f) => f.item)).toEqual(['w'])
    expect(found(widened(swung(20, 72)), 'fouls-carriage')).toEqual([])
    expect(found(widened(swung(28, 60)), 'fouls-carriage')).toEqual([])
  })

  test('where nothing is cut a parked tool alone is looked at', () => {
    const lathe = { barReach: 60, carriage: { profile: [{ behind: 60, radius: 40 }], parkedAt: 200 } }
    const job = boring(lathe, 61)
    const cuts = (list: Job['setups'][number]['cuts']) => ({
      ...job,
      setups: [{ ...job.setups[0]!, cuts: list }],
    })
    expect(found(cuts([]), 'fouls-carriage')).toEqual([])
    expect(found(cuts(null), 'fouls-carriage')).toHaveLength(1)
  })

  test('a parked tool is met too', () => {
    const parked = (parkedAt: number) => ({
      barReach: 100,
      carriage: { profile: [{ behind: 100, radius: 40 }], parkedAt },
    })
    expect(found(boring(parked(300), 61), 'fouls-carriage')).toEqual([])
    expect(found(boring(parked(0), 100), 'fouls-carriage')).toHaveLength(1)
  })
})

describe('drilling from the tailstock', () => {
  const drilled = (lathe: Partial<Lathe>, at: number) => {
    const job = boring(lathe, 20, [
      piece('w', 0.2, { x: at, y: 0 }, { height: 60, footprint: { circle: 10 } }),
    ])
    return { ...job, part: { ...job.part, bores: [bore('A', { x: 0, y: 0 }, 30)] } }
  }
  const tailstock = { barrel: 60, reach: 40 }

  test('what stands within the barrel fouls it, as far as it comes', () => {
    // Point at 12 − 0.3·30 = 3, so the barrel comes to 43.
    expect(found(drilled({ tailstock }, 30), 'fouls-tailstock').map((f) => f.item)).toEqual(['w'])
    expect(found(drilled({ tailstock }, 36), 'fouls-tailstock')).toEqual([])
    expect(found(drilled({ tailstock: { barrel: 60, reach: 57 } }, 30), 'fouls-tailstock')).toEqual([])
  })

  test('one that is not given is taken as a usual one, and then not judged', () => {
    expect(found(drilled({}, 40), 'tailstock-not-checked').map((f) => f.effect)).toEqual(['unknown'])
    expect(found(drilled({}, 50), 'tailstock-not-checked')).toEqual([])
  })

  test('a bore that is there already is not drilled', () => {
    const job = drilled({ tailstock }, 30)
    expect(
      found(
        { ...job, part: { ...job.part, bores: [bore('A', { x: 0, y: 0 }, 30, { start: 20 })] } },
        'fouls-tailstock',
      ),
    ).toEqual([])
  })
})

test('a profile nearer than the bar reaches is a fault of the job, with its place', () => {
  const job = boring({ barReach: 100, ...profile([100, 40], [90, 60]) })
  expect(jobFaults(job).map((f) => f.path)).toEqual(['lathe.carriage.profile[1].behind'])
})

describe('leaving out what is known of the lathe', () => {
  /** How the carriage alone is judged: 0 nothing against it, 1 not judged, 2 stop. */
  const carriageRank = (l: Partial<Lathe>, boss: number): number => {
    const codes = analyse(boring(l, boss), 'op10').findings.map((f) => f.code)
    if (codes.includes('fouls-carriage') || codes.includes('fouls-cross-slide')) return 2
    return codes.includes('carriage-not-checked') ? 1 : 0
  }
  const known = fc.record({
    barReach: fc.integer({ min: 5, max: 120 }),
    rows: fc.array(fc.tuple(fc.integer({ min: 0, max: 80 }), fc.integer({ min: 10, max: 110 })), {
      minLength: 1,
      maxLength: 3,
    }),
    boss: fc.integer({ min: 20, max: 140 }),
  })

  test('never makes a verdict better than not judged', () => {
    fc.assert(
      fc.property(
        known,
        fc.constantFrom('barReach', 'carriage', 'both'),
        ({ barReach, rows, boss }, what) => {
          // A row never stands nearer than the bar reaches: that would be a fault.
          const given = { barReach, ...profile(...rows.map(([b, r]) => [barReach + b, r] as const)) }
          const less = {
            barReach: what === 'carriage' ? barReach : null,
            carriage: what === 'barReach' ? given.carriage : null,
          }
          expect(carriageRank(less, boss)).toBeGreaterThanOrEqual(Math.min(1, carriageRank(given, boss)))
        },
      ),
      { numRuns: 120 },
    )
  })
})
