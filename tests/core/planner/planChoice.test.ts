import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Hardware, Job, StockItem } from '../../../src-core/job/schema.ts'
import { applyPlan } from '../../../src-core/planner/apply.ts'
import { radiusForMass, splitOverTwoAngles } from '../../../src-core/planner/closedForms.ts'
import { planCounterweights } from '../../../src-core/planner/plan.ts'
import { boreCut, block, bore, disc, exampleJob, jobWith, partOf, piece } from '../../helpers/jobs.ts'

const weight = (id: string, mass: number, count: number, more: Partial<StockItem> = {}): StockItem => ({
  id,
  mass,
  count,
  footprint: { circle: 40 },
  height: 20,
  ...more,
})

/** A part of 2 kg, 30 mm off the axis toward `angle` on a plate with slots every `every` degrees. */
function offCentre(
  stock: readonly StockItem[],
  more: { angle?: number; every?: number; hardware?: Hardware[]; speed?: number | null } = {},
): Job {
  const { angle = 0, every = 45, hardware = [], speed = 110 } = more
  const a = (angle * Math.PI) / 180
  const slots = Array.from({ length: Math.round(360 / every) }, (_, i) => ({
    id: `S${i + 1}`,
    angle: i * every,
    from: 55,
    to: 130,
    width: 14,
    kind: 'through' as const,
  }))
  return {
    ...jobWith({
      plate: { slots, holes: [] },
      part: partOf([disc('b', { x: 30 * Math.cos(a), y: 30 * Math.sin(a) }, 60, 30)], [], { weighedMass: 2 }),
      setup: { hardware, speed },
    }),
    stock,
  }
}

describe('what is chosen', () => {
  test('the lightest that does it: never a heavier weight where a lighter one leaves nothing', () => {
    const job = offCentre([
      weight('W1', 0.55, 1),
      weight('W2', 0.75, 1),
      weight('W3', 0.95, 1),
      weight('W4', 2.5, 1),
    ])
    const [best] = planCounterweights(job, 'op10').plans
    expect(best!.residual_g_mm).toBeLessThan(1)
    expect(best!.pieces).toBe(1)
    const needed = analyse(job, 'op10').unbalance.static_g_mm
    const bolts = best!.stations[0]!.fasteners.mass_kg
    const able = job.stock.filter((s) => needed / ((s.mass + bolts) * 1000) <= 130 - 0.02)
    expect(best!.stations[0]!.stack).toEqual([{ stock: able[0]!.id, count: 1 }])
    expect(best!.stations[0]).toMatchObject({ slot: 'S5' })
  })

  test('between two slots the weight is shared as the closed form shares it', () => {
    const job = offCentre([weight('W1', 0.45, 2)], { angle: 40, every: 90 })
    const [best] = planCounterweights(job, 'op10', { stations: 2 }).plans
    const u = analyse(job, 'op10').unbalance.static_g_mm
    expect(best!.residual_g_mm).toBeLessThan(1)
    const split = splitOverTwoAngles(u, 220, 180, 270)
    if (split.kind !== 'split') throw new Error(split.kind)
    // 220° lies between S3 at 180° and S4 at 270°; each weight has 0.45 kg and what bolts it on.
    const radius = (slot: string) => best!.stations.find((s) => 'slot' in s && s.slot === slot)!.radius_mm
    const mass = 0.45 + best!.stations[0]!.fasteners.mass_kg
    expect(radius('S3')).toBeCloseTo(radiusForMass(split.first, mass), 6)
    expect(radius('S4')).toBeCloseTo(radiusForMass(split.second, mass), 6)
  })

  test('the target is the criterion at the wanted speed, and a plan meets it by its 95 % bound', () => {
    const stock = [weight('W1', 0.8, 1)]
    const at = (speed: number | null) => planCounterweights(offCentre(stock, { speed }), 'op10')
    const slow = at(45)
    const fast = at(440)
    expect(slow.target_rpm).toBe(45)
    expect(slow.target_g_mm / fast.target_g_mm).toBeCloseTo((440 / 45) ** 2, 6)
    for (const report of [slow, fast, at(110)])
      for (const p of report.plans) {
        const a = analyse(applyPlan(offCentre(stock, { speed: report.target_rpm }), 'op10', p), 'op10')
        const allowed =
          (0.1 * a.assembly.mass_kg * 9.80665) / (1e-6 * ((2 * Math.PI * report.target_rpm) / 60) ** 2)
        expect(p.meets_target).toBe(p.upper95_g_mm <= allowed)
      }
    // No speed chosen: the top gear that the plate's 1200 rpm and the spindle permit.
    expect(at(null).target_rpm).toBe(440)
    const cut = jobWith({
      part: partOf([block('b', { x: 20, y: 0 }, [120, 80, 30])], [bore('A', { x: 0, y: 0 }, 50)]),
      setup: {
        centre: { bore: 'A' },
        speed: null,
        cuts: [boreCut('A')],
      },
    })
    // 20 m/min at 50 mm is 127 rpm: gear 110.
    expect(planCounterweights(cut, 'op10').target_rpm).toBe(110)
  })

  test('where nothing is enough, the missing weight settles what is left', () => {
    const job = offCentre([weight('W1', 0.05, 1)], { angle: 10, speed: 440 })
    const report = planCounterweights(job, 'op10')
    expect(report.meets).toBe(false)
    const { shortfall, plans } = report
    expect(shortfall!.missing_g_mm).toBeCloseTo(plans[0]!.upper95_g_mm - report.target_g_mm, 6)
    const applied = applyPlan(job, 'op10', plans[0]!)
    const a = (shortfall!.angle_deg * Math.PI) / 180
    const extra = piece('extra', shortfall!.extra_mass_kg, {
      x: shortfall!.radius_mm * Math.cos(a),
      y: shortfall!.radius_mm * Math.sin(a),
    })
    const setup = applied.setups[0]!
    const settled = analyse(
      { ...applied, setups: [{ ...setup, hardware: [...setup.hardware, extra] }] },
      'op10',
    )
    expect(settled.unbalance.static_g_mm).toBeLessThan(1e-6)
  })

  test('what only doubt keeps from the target is said, with no extra weight asked for', () => {
    const job = offCentre([weight('W1', 0.8, 1)], { speed: 440 })
    const heavy = { ...job, uncertainty: { weighedMass: 0.3 } }
    const report = planCounterweights(heavy, 'op10')
    expect(report.plans[0]!.residual_g_mm).toBeLessThan(1)
    expect(report.meets).toBe(false)
    expect(report.shortfall!.extra_mass_kg).toBe(0)
    expect(report.remarks.join(' ')).toMatch(/doubt/)
  })

  test('no stock and nothing to move: no plan, and what is missing', () => {
    const report = planCounterweights(offCentre([], { speed: 440 }), 'op10')
    expect(report.plans).toEqual([])
    expect(report.shortfall!.extra_mass_kg).toBeGreaterThan(0)
  })
})

describe('what is on the plate already', () => {
  const old = (fixed: boolean) => piece('w', 0.4, { slot: 'S3', radius: 100 }, { fixed })

  test('counterweights not marked as fixed come off, fixed ones stay', () => {
    const stock = [weight('W1', 0.8, 1)]
    for (const fixed of [false, true]) {
      const job = offCentre(stock, { hardware: [old(fixed)] })
      const [best] = planCounterweights(job, 'op10').plans
      expect(best!.replaces).toEqual(fixed ? [] : ['w'])
      const ids = applyPlan(job, 'op10', best!).setups[0]!.hardware.map((h) => h.id)
      expect(ids.includes('w')).toBe(fixed)
    }
    const kept = planCounterweights(offCentre(stock, { hardware: [old(false)] }), 'op10', {
      keepCounterweights: true,
    })
    expect(kept.plans[0]!.replaces).toEqual([])
  })

  test('new ids never meet old ones', () => {
    const job = offCentre([weight('W1', 0.8, 1)], {
      hardware: [piece('cw1', 0.3, { slot: 'S3', radius: 100 })],
    })
    const [best] = planCounterweights(job, 'op10').plans
    const ids = applyPlan(job, 'op10', best!).setups[0]!.hardware.map((h) => h.id)
    expect(new Set(ids).size).toBe(ids.length)
    expect(ids).toContain('cw2')
  })
})

describe('moves', () => {
  const bracket = (fixed: boolean, radius = 60): Hardware =>
    piece('br', 1, { slot: 'S5', radius }, { kind: 'bracket', footprint: { circle: 30 }, fixed })
  // 2 kg at 30 mm: 60 kg·mm; the bracket does 1 kg·mm a millimetre.
  const needs = (hardware: Hardware[]) => offCentre([weight('W1', 0.4, 2)], { hardware, speed: 280 })

  test('a piece that may slide does the balancing, and makes the weights unnecessary', () => {
    const fixed = planCounterweights(needs([bracket(true, 110)]), 'op10')
    expect(fixed.plans.every((p) => p.moves.length === 0)).toBe(true)
    const job = needs([bracket(false, 110)])
    const report = planCounterweights(job, 'op10')
    const clear = report.plans.find((p) => p.stations.length === 0 && p.moves.length === 1)
    if (!clear) throw new Error('no plan slides the bracket alone')
    expect(clear.moves[0]).toMatchObject({ item: 'br', from_mm: 110 })
    expect(clear.residual_g_mm).toBeLessThan(fixed.before_g_mm)
    const without = planCounterweights(job, 'op10', { moveHardware: false })
    expect(without.plans.every((p) => p.moves.length === 0)).toBe(true)
  })

  test('a sliding piece stops short of the part', () => {
    const report = planCounterweights(needs([bracket(false, 100)]), 'op10')
    for (const plan of report.plans)
      for (const m of plan.moves) {
        expect(m.radius_mm).toBeGreaterThanOrEqual(55)
        expect(m.radius_mm).toBeLessThanOrEqual(130)
      }
  })

  test('a clamp takes its nose along and the nose stays on the part', () => {
    const clamp: Hardware = {
      ...piece(
        'c1',
        0.9,
        { slot: 'S3', radius: 95 },
        { kind: 'press', footprint: { rect: [90, 28] }, base: 30, height: 40, fixed: false },
      ),
      facing: 270,
      press: { nose: { x: 0, y: 45 } },
    }
    const job = {
      ...jobWith({
        plate: { slots: needs([]).plate.slots, holes: [] },
        part: partOf([block('b', { x: 0, y: 47.5 }, [100, 35, 18])]),
        setup: { hardware: [clamp], packing: 12 },
      }),
      stock: [],
    }
    const report = planCounterweights(job, 'op10')
    const plan = report.plans.find((p) => p.moves.length > 0)
    if (!plan) throw new Error('the clamp did not move')
    const by = plan.moves[0]!.radius_mm - 95
    expect(by).toBeLessThan(0)
    const moved = applyPlan(job, 'op10', plan).setups[0]!.hardware[0]!
    if (moved.kind !== 'press') throw new Error(moved.kind)
    expect(moved.press!.nose!.x).toBeCloseTo(0, 9)
    expect(moved.press!.nose!.y).toBeCloseTo(45 + by, 9)
    // Inward is better all the way, but the part ends at y = 30 and the nose keeps 4 mm inside.
    expect(45 + by).toBeCloseTo(34, 6)
  })

  test('turning the part brings its heavy side opposite to the only slot', () => {
    const even = offCentre([weight('W1', 0.5, 1), weight('W2', 0.3, 1)], { angle: 17 })
    const slot = { ...even.plate.slots[0]!, id: 'S', angle: 50 }
    const job = { ...even, plate: { ...even.plate, slots: [slot] } }
    const one = planCounterweights(job, 'op10').plans[0]
    expect(one?.residual_g_mm ?? Infinity).toBeGreaterThan(100)
    const turned = planCounterweights(job, 'op10', { turnPart: true }).plans[0]!
    expect(turned.residual_g_mm).toBeLessThan(1)
    expect(turned.stations).toHaveLength(1)
    // 230° is opposite to the slot; the heavy side lies at 17°.
    expect((turned.turn_deg! + 360) % 360).toBeCloseTo(230 - 17, 6)
    expect(analyse(applyPlan(job, 'op10', turned), 'op10').unbalance.static_g_mm).toBe(turned.residual_g_mm)
  })
})

describe('running', () => {
  test('progress rises to 1, and a stop ends it with what there is', () => {
    const seen: number[] = []
    planCounterweights(exampleJob('flat-link'), 'op10', {}, { onProgress: (f) => seen.push(f) })
    expect(seen.length).toBeGreaterThan(2)
    expect([...seen].sort((a, b) => a - b)).toEqual(seen)
    expect(seen[seen.length - 1]).toBe(1)
    const stopped = planCounterweights(exampleJob('flat-link'), 'op10', {}, { shouldStop: () => true })
    expect(stopped.searched).toMatchObject({ stopped: true, complete: false })
    expect(stopped.gap_g_mm).toBe(stopped.plans[0]?.residual_g_mm ?? stopped.gap_g_mm)
    const full = planCounterweights(exampleJob('flat-link'), 'op10')
    expect(full.searched).toMatchObject({ stopped: false, complete: true })
    expect(full.gap_g_mm).toBe(0)
  })

  test('an unknown setup is refused', () => {
    expect(() => planCounterweights(jobWith(), 'nowhere')).toThrow(RangeError)
  })

  test('three stations given up on admit a gap no smaller than what a longer search finds', () => {
    const stock = [weight('W1', 0.11, 2), weight('W2', 0.13, 1), weight('W3', 0.07, 2)]
    const job = offCentre(stock, { angle: 22, every: 30, speed: 440 })
    const short = planCounterweights(job, 'op10', { effort: 3, stackHeight: 20 })
    const long = planCounterweights(job, 'op10', { effort: 1e6, stackHeight: 20 })
    expect(long.gap_g_mm).toBe(0)
    expect(short.plans[0]!.residual_g_mm - long.plans[0]!.residual_g_mm).toBeLessThanOrEqual(
      short.gap_g_mm + 1,
    )
    expect(short.plans[0]!.residual_g_mm).toBeGreaterThan(long.plans[0]!.residual_g_mm + 1)
  })
})
