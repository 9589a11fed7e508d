/** A plan as the analysis sees it once it is on the plate: the only source of the figures that are reported. */
import { polar } from '../geometry/angles.ts'
import { analyse } from '../analysis/analyse.ts'
import type { Analysis } from '../analysis/result.ts'
import { isAboutPlace } from '../findings/codes.ts'
import type { Job } from '../job/schema.ts'
import { applyPlan, type Appliable } from './apply.ts'
import type { Answer } from './front.ts'
import type { Plan, PlanMove, PlanStation } from './report.ts'
import { judgementOf, verdictAt } from '../verdict/speeds.ts'
import { meetsTarget } from './target.ts'

/** The stations, moves and turn of an answer. */
export function appliableOf(job: Job, answer: Answer, replaces: readonly string[]): Appliable {
  const { model, choice } = answer
  const stations: PlanStation[] = []
  const moves: PlanMove[] = []
  choice.entries.forEach((e, i) => {
    if (!e.stack) {
      const slider = model.sliders[e.line - model.stations.length]!
      moves.push({ item: slider.piece.item.id, from_mm: slider.from, radius_mm: choice.radii[i]! })
      return
    }
    const station = model.stations[e.line]!
    const place = station.kind === 'slot' ? { slot: station.id } : { hole: station.id }
    const stack = job.stock.flatMap((s, k) => {
      const count = e.stack!.counts[k]!
      return count > 0 ? [{ stock: s.id, count }] : []
    })
    stations.push({ ...place, radius_mm: choice.radii[i]!, stack, mass_kg: e.stack.mass / 1000 })
  })
  return { stations, moves, turn_deg: answer.turn, replaces }
}

export interface Judged {
  readonly plan: Plan
  /** Something new stands in something else, though the search found it clear: such a plan is never offered. */
  readonly fouls: boolean
}

/** Applies and analyses a plan. @param before the setup as it stands. @param bare it without what is replaced. */
export function judge(
  job: Job,
  setupId: string,
  plan: Appliable,
  before: Analysis,
  bare: Analysis,
  rpm: number,
): Judged {
  const applied = applyPlan(job, setupId, plan)
  const a = analyse(applied, setupId)
  const known = new Set(bare.findings.map((f) => `${f.code} ${f.item}`))
  const fouls = a.findings.some(
    (f) => f.effect === 'stop' && isAboutPlace(f.code) && !known.has(`${f.code} ${f.item}`),
  )
  const old = new Set(bare.terms.map((t) => t.item))
  const moved = new Set(plan.moves.map((m) => m.item))
  const own = a.clearances.filter((c) => !old.has(c.item) || moved.has(c.item))
  return {
    fouls,
    plan: {
      ...plan,
      pieces: plan.stations.reduce((n, s) => n + s.stack.reduce((k, { count }) => k + count, 0), 0),
      residual_g_mm: a.unbalance.static_g_mm,
      residual_angle_deg: a.unbalance.static_angle_deg,
      upper95_g_mm: a.unbalance.upper95_g_mm,
      meets_target: meetsTarget(a, rpm),
      verdict: verdictAt(rpm, judgementOf(a.limits, a.findings)),
      couple_g_mm2: a.unbalance.couple_g_mm2,
      couple_change_g_mm2: a.unbalance.couple_g_mm2 - before.unbalance.couple_g_mm2,
      swept_radius_mm: Math.max(0, ...(own.length > 0 ? own : a.clearances).map((c) => c.swept_radius_mm)),
      clearance_mm: a.clearances[0]?.clearance_mm ?? null,
      ceiling_rpm: a.ceiling.rpm,
      sensitivity: sensitivityOf(a, old),
    },
  }
}

/** mm and share of the sensitivities. */
const SLIP = 1
const WRONG_MASS = 0.02

/**
 * Growth of the residual when one weight slips along its line by 1 mm or weighs 2 % off, whichever weight and way
 * is worst, from the analysis's own terms.
 */
function sensitivityOf(a: Analysis, old: ReadonlySet<string>): Plan['sensitivity'] {
  const weights = a.terms.filter((t) => !old.has(t.item))
  const residual = polar(a.unbalance.static_g_mm, a.unbalance.static_angle_deg)
  const worst = (change: (t: Analysis['terms'][number]) => { x: number; y: number }) =>
    weights.reduce((most, t) => {
      const d = change(t)
      const out = Math.hypot(residual.x + d.x, residual.y + d.y)
      const back = Math.hypot(residual.x - d.x, residual.y - d.y)
      return Math.max(most, out - a.unbalance.static_g_mm, back - a.unbalance.static_g_mm)
    }, 0)
  return {
    slip_1mm_g_mm: worst((t) => {
      const { x, y } = t.centre_mm
      const radius = Math.hypot(x, y) || 1
      return { x: (t.mass_kg * 1000 * SLIP * x) / radius, y: (t.mass_kg * 1000 * SLIP * y) / radius }
    }),
    mass_2pct_g_mm: worst((t) => ({
      x: t.unbalance_g_mm.x * WRONG_MASS,
      y: t.unbalance_g_mm.y * WRONG_MASS,
    })),
  }
}
