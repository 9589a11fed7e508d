import { describe, expect, test } from 'vitest'
import type { Clamp, ClampingKit, Job, StockItem } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { applyPlan } from '../../../src-core/planner/apply.ts'
import { planCounterweights } from '../../../src-core/planner/plan.ts'
import { block, disc, jobWith, partOf } from '../../helpers/jobs.ts'

const weight = (id: string, mass: number, count: number, more: Partial<StockItem> = {}): StockItem => ({
  id,
  mass,
  count,
  footprint: { circle: 60 },
  height: 25,
  ...more,
})

/** A part of `mass` kg, 30 mm off the axis along +x, on a plate with slots every 45 degrees. */
function offCentre(mass: number, speed: number, stock: StockItem[], studs: ClampingKit['studs'] = []): Job {
  const slots = Array.from({ length: 8 }, (_, i) => ({
    id: `S${i + 1}`,
    angle: 45 * i,
    from: 55,
    to: 130,
    width: 14,
    kind: 'through' as const,
  }))
  return {
    ...jobWith({
      plate: { slots, holes: [] },
      part: partOf([disc('b', { x: 30, y: 0 }, 60, 30)], [], { weighedMass: mass }),
      setup: { speed },
    }),
    stock,
    clampingKit: { studs, straps: [], heels: [] },
  }
}

describe('a weight is held by its own stud', () => {
  // M12 8.8 at 88 N·m, nut factor 0.2, a quarter of scatter off: 27.5 kN; friction 0.1: 2750 N.
  const GRIP = 0.1 * 0.75 * (88_000 / (0.2 * 12))
  const slides = (mass: number, radius: number, rpm: number) => {
    const omega = (2 * Math.PI * rpm) / 60
    return GRIP / ((mass * radius * omega ** 2) / 1000 + mass * 9.80665)
  }

  test('no plan has one whose joint is under 2 at the speed', () => {
    const stock = [weight('W1', 1.5, 6)]
    for (const rpm of [600, 800, 1000]) {
      const report = planCounterweights(offCentre(6, rpm, stock), 'op10')
      expect(report.plans.some((p) => p.stations.length > 0)).toBe(true)
      for (const p of report.plans)
        for (const s of p.stations) expect(slides(s.mass_kg, s.radius_mm, rpm)).toBeGreaterThanOrEqual(2)
    }
  })

  test('what one stud holds at rest but not at speed is shared by more', () => {
    const job = (rpm: number) => offCentre(6, rpm, [weight('W1', 1.5, 6)])
    const slow = planCounterweights(job(110), 'op10', { stations: 1 }).plans[0]!
    const fast = planCounterweights(job(1000), 'op10', { stations: 1 }).plans[0]
    expect(slow.residual_g_mm).toBeLessThan(1)
    expect(fast?.residual_g_mm ?? Infinity).toBeGreaterThan(1000)
    const shared = planCounterweights(job(1000), 'op10', { stations: 3 }).plans[0]!
    expect(shared.residual_g_mm).toBeLessThan(fast?.residual_g_mm ?? Infinity)
  })
})

describe('studs', () => {
  const stud = (
    id: string,
    length: number,
    count: number,
    thread = 'M12',
    strength: string | null = '8.8',
  ) => ({
    id,
    count,
    item: { thread, class: strength, length },
  })
  const used = (job: Job) =>
    planCounterweights(job, 'op10').plans.flatMap((p) => p.stations.map((s) => ({ ...s.fasteners, plan: p })))

  test('the shop’s shortest that is long enough, and no more of them than there are', () => {
    // One piece wants 44.7 behind the face, 25 of stack, 2.5, 10.8 and 3.5: 86.5.
    const kit = [stud('k80', 80, 9), stud('k160', 160, 9), stud('k90', 90, 1), stud('wide', 90, 9, 'M16')]
    const job = offCentre(3, 110, [weight('W1', 0.4, 3)], kit)
    const found = used(job)
    expect(found.some((f) => f.stud === 'k90')).toBe(true)
    for (const f of found) expect(['k90', 'k160']).toContain(f.stud)
    for (const p of planCounterweights(job, 'op10').plans)
      expect(p.stations.filter((s) => s.fasteners.stud === 'k90').length).toBeLessThanOrEqual(1)
  })

  test('none is long enough: no weight', () => {
    const job = offCentre(3, 110, [weight('W1', 0.4, 3)], [stud('k80', 80, 9)])
    expect(used(job)).toEqual([])
  })

  test('a class that the kit does not say counts as the weakest, and is said', () => {
    const [first] = used(offCentre(3, 110, [weight('W1', 0.4, 3)], [stud('k', 120, 3, 'M12', null)]))
    expect(first).toMatchObject({ class: '4.6', class_given: false, stud: 'k' })
  })

  test('without a kit one is to be found that goes through slot and piece; a hole not given is listed', () => {
    const [open] = used(offCentre(3, 110, [weight('W1', 0.8, 1)]))
    expect(open).toMatchObject({
      thread: 'M12',
      class: '8.8',
      stud: null,
      length_mm: 90,
      nuts: 2,
      washers: 1,
    })
    expect(open!.bore).toEqual(['W1'])
    const [small] = used(offCentre(3, 110, [weight('W1', 0.8, 1, { hole: 11 })]))
    expect(small).toMatchObject({ thread: 'M10', bore: [] })
  })
})

test('a clamp slides with strap, heel and stud, its toe stays on the part at its height', () => {
  const clamp: Clamp = {
    id: 'c1',
    kind: 'clamp',
    at: { slot: 'S3', radius: 95 },
    facing: 270,
    strap: { length: 90, width: 28, thickness: 16, boltFrom: 35, opening: 14, slotted: 0 },
    heel: { kind: 'block', size: [30, 28], height: 'suit' },
    stud: { thread: 'M12', class: '8.8', length: 'suit' },
    torque: 45,
    fixed: false,
  }
  const base = offCentre(1, 110, [])
  const part = partOf([block('b', { x: 0, y: 47.5 }, [100, 35, 18])])
  const job: Job = { ...base, part, setups: base.setups.map((s) => ({ ...s, hardware: [clamp] })) }
  const plan = planCounterweights(job, 'op10').plans.find((p) => p.moves.length > 0)
  if (!plan) throw new Error('the clamp did not move')
  expect(plan.moves[0]!.radius_mm).toBeLessThan(95)
  const before = mountSetup(job, 'op10').pieces[0]!
  const after = mountSetup(applyPlan(job, 'op10', plan), 'op10').pieces[0]!
  expect(after.toe!.rest!.z).toBe(before.toe!.rest!.z)
  expect(after.toe!.rest!.share).toBeGreaterThan(0.999)
  // Its stud keeps off the part, which ends at 65.
  expect(after.at.y).toBeGreaterThanOrEqual(65 + 6)
})
