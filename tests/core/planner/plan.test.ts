import Flatten from '@flatten-js/core'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { flattenRing } from '../../../src-core/geometry/flatten.ts'
import { checkJob } from '../../../src-core/job/parse.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { applyPlan } from '../../../src-core/planner/apply.ts'
import { planCounterweights } from '../../../src-core/planner/plan.ts'
import type { Plan, PlanReport } from '../../../src-core/planner/report.ts'
import { deepFreeze } from '../../helpers/jobs.ts'
import { trialJob } from '../../helpers/planTrials.ts'

const TRIALS = Array.from({ length: 40 }, (_, k) => trialJob(5000 + k, { kinds: 3, slots: 5, holes: k % 3 }))

const footprintOf = (points: readonly { x: number; y: number }[]) =>
  new Flatten.Polygon(points.map((p) => new Flatten.Point(p.x, p.y)))

describe('every plan of forty invented shops', () => {
  const each = (check: (job: Job, plan: Plan, report: PlanReport) => void) => {
    let plans = 0
    for (const job of TRIALS) {
      const report = planCounterweights(job, 'op10')
      for (const plan of report.plans) {
        plans++
        check(job, plan, report)
      }
    }
    expect(plans).toBeGreaterThan(60)
  }

  test('reads the same as the analysis of the job it is applied to, to the last digit', () => {
    each((job, plan, report) => {
      const applied = applyPlan(job, 'op10', plan)
      expect(checkJob(JSON.parse(JSON.stringify(applied))).ok).toBe(true)
      const a = analyse(applied, 'op10')
      expect(plan).toMatchObject({
        residual_g_mm: a.unbalance.static_g_mm,
        residual_angle_deg: a.unbalance.static_angle_deg,
        upper95_g_mm: a.unbalance.upper95_g_mm,
        couple_g_mm2: a.unbalance.couple_g_mm2,
        couple_change_g_mm2: a.unbalance.couple_g_mm2 - analyse(job, 'op10').unbalance.couple_g_mm2,
        ceiling_rpm: a.ceiling.rpm,
        clearance_mm: a.clearances[0]!.clearance_mm,
        meets_target: a.limits.balance === null || a.limits.balance >= report.target_rpm,
      })
      const own = a.clearances.filter((c) => /^cw/.test(c.item)).map((c) => c.swept_radius_mm)
      if (own.length > 0) expect(plan.swept_radius_mm).toBe(Math.max(...own))
    })
  })

  test('keeps to the stock, each station once, and to its stations', () => {
    each((job, plan) => {
      for (const s of job.stock) {
        const used = plan.stations
          .flatMap((t) => t.stack.filter((p) => p.stock === s.id))
          .reduce((n, p) => n + p.count, 0)
        expect(used).toBeLessThanOrEqual(s.count)
      }
      const places = plan.stations.map((t) => ('slot' in t ? t.slot : t.hole))
      expect(new Set(places).size).toBe(places.length)
      expect(places.length).toBeLessThanOrEqual(3)
      for (const t of plan.stations) {
        if (!('slot' in t)) continue
        const slot = job.plate.slots.find((s) => s.id === t.slot)!
        expect(t.radius_mm).toBeGreaterThanOrEqual(slot.from)
        expect(t.radius_mm).toBeLessThanOrEqual(slot.to)
      }
      const mass = (t: Plan['stations'][number]) =>
        t.stack.reduce(
          (m, p) => m + p.count * job.stock.find((s) => s.id === p.stock)!.mass,
          t.fasteners.mass_kg,
        )
      const mounted = mountSetup(applyPlan(job, 'op10', plan), 'op10').pieces.filter(
        (p) => p.item.kind === 'weight',
      )
      plan.stations.forEach((t, i) => {
        expect(t.mass_kg).toBeCloseTo(mass(t), 9)
        expect(mounted[i]!.mass).toBeCloseTo(t.mass_kg, 9)
        expect(mounted[i]!.fastenings[0]!.length).toBe(t.fasteners.length_mm)
      })
    })
  })

  test('no two of its stacks stand in one another', () => {
    let pairs = 0
    each((job, plan) => {
      const rings = mountSetup(applyPlan(job, 'op10', plan), 'op10').pieces.filter(
        (p) => p.item.kind === 'weight',
      )
      rings.forEach((a, i) =>
        rings.slice(i + 1).forEach((b) => {
          pairs++
          const pa = footprintOf(flattenRing(a.footprint, 0.001))
          const pb = footprintOf(flattenRing(b.footprint, 0.001))
          expect(pa.distanceTo(pb)[0]).toBeGreaterThan(0)
          expect(pa.contains(pb.vertices[0]!) || pb.contains(pa.vertices[0]!)).toBe(false)
        }),
      )
    })
    expect(pairs).toBeGreaterThan(20)
  })

  test('none is beaten in pieces, stations, moves and residual at once; least residual first', () => {
    for (const job of TRIALS) {
      const { plans, before_g_mm } = planCounterweights(job, 'op10')
      plans.forEach((p, i) => {
        plans.forEach((q, j) => {
          if (i === j) return
          const asMuch =
            q.pieces <= p.pieces && q.stations.length <= p.stations.length && q.moves.length <= p.moves.length
          expect(asMuch && q.residual_g_mm <= p.residual_g_mm - 1).toBe(false)
        })
        if (i > 0) expect(p.residual_g_mm).toBeGreaterThanOrEqual(plans[i - 1]!.residual_g_mm - 1)
        if (p.pieces > 0) expect(p.residual_g_mm).toBeLessThan(before_g_mm)
      })
    }
  })

  test('the same job gives the same report, and is not touched', () => {
    for (const job of TRIALS.slice(0, 10)) {
      const first = planCounterweights(deepFreeze(structuredClone(job)), 'op10')
      expect(planCounterweights(structuredClone(job), 'op10')).toEqual(first)
    }
  })

  test('a slip or a wrong mass is what the analysis makes of it', () => {
    for (const job of TRIALS.slice(0, 10)) {
      for (const plan of planCounterweights(job, 'op10').plans) {
        const applied = applyPlan(job, 'op10', plan)
        const a = analyse(applied, 'op10')
        const t = (a.unbalance.static_angle_deg * Math.PI) / 180
        const left = { x: plan.residual_g_mm * Math.cos(t), y: plan.residual_g_mm * Math.sin(t) }
        const own = a.terms.filter((term) => /^cw/.test(term.item))
        const wrong = own.flatMap(({ unbalance_g_mm: u }) =>
          [-0.02, 0.02].map((k) => Math.hypot(left.x + k * u.x, left.y + k * u.y)),
        )
        const most = Math.max(0, ...wrong.map((r) => r - plan.residual_g_mm))
        expect(plan.sensitivity.mass_2pct_g_mm).toBeCloseTo(most, 5)
        const slid = plan.stations.flatMap((s, i) =>
          'slot' in s
            ? [-1, 1].map((d) => {
                const stations = plan.stations.map((o, k) =>
                  k === i ? { ...o, radius_mm: o.radius_mm + d } : o,
                )
                return analyse(applyPlan(job, 'op10', { ...plan, stations }), 'op10').unbalance.static_g_mm
              })
            : [],
        )
        if (slid.length === 2 * own.length)
          expect(plan.sensitivity.slip_1mm_g_mm).toBeCloseTo(
            Math.max(0, ...slid.map((r) => r - plan.residual_g_mm)),
            4,
          )
      }
    }
  })
})
