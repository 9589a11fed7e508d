/** A plan as the analysis sees it once it is on the plate: the only source of the figures that are reported. */
import { polar } from '../geometry/angles.ts'
import { analyse } from '../analysis/analyse.ts'
import type { Analysis } from '../analysis/result.ts'
import type { Finding } from '../findings/finding.ts'
import { holdsAt, judgementOf, verdictAt, type Verdict } from '../verdict/speeds.ts'
import type { Job } from '../job/schema.ts'
import { applyPlan } from './apply.ts'
import { boltedStack } from './bolted.ts'
import type { Answer } from './front.ts'
import type { Plan, PlanMove, PlanStation } from './report.ts'
import { meetsTarget } from './target.ts'

/** What a plan asks for, before it is judged. */
export type Proposed = Pick<Plan, 'stations' | 'moves' | 'turn_deg' | 'replaces'>

/** The stations, moves and turn of an answer. */
export function proposedBy(job: Job, answer: Answer, replaces: readonly string[]): Proposed {
  const { model, choice } = answer
  const stations: PlanStation[] = []
  const moves: PlanMove[] = []
  choice.entries.forEach((e, i) => {
    if (!e.stack) {
      const slider = model.sliders[e.line - model.stations.length]!
      moves.push({ item: slider.piece.item.id, from_mm: slider.from, radius_mm: choice.radii[i]! })
      return
    }
    const bolted = boltedStack(job, model.stations[e.line]!, model.space, e.stack)
    stations.push({ ...bolted, radius_mm: choice.radii[i]!, mass_kg: e.mass / 1000 })
  })
  return { stations, moves, turn_deg: answer.turn, replaces }
}

export interface Judged {
  readonly plan: Plan
  /**
   * Something of its own cannot stand or is not held, or the verdict is worse than without it: such a plan is never
   * offered.
   */
  readonly worsens: boolean
}

const VERDICTS: readonly Verdict[] = ['go', 'caution', 'not-judged', 'stop']

/** Whether something stops a setup at a speed that did not before, or one more of its kind does. */
function hasNewStop(a: Analysis, bare: Analysis, rpm: number): boolean {
  const stops = ({ findings }: Analysis) => findings.filter((f) => f.effect === 'stop' && holdsAt(f, rpm))
  const known = stops(bare)
  const like = (list: readonly Finding[], { code, item }: Finding) =>
    list.filter((f) => f.code === code && f.item === item).length
  const all = stops(a)
  return all.some((f) => like(all, f) > like(known, f))
}

/** Applies and analyses a plan. @param before the setup as it stands. @param bare it without what is replaced. */
export function judge(
  job: Job,
  setupId: string,
  plan: Proposed,
  before: Analysis,
  bare: Analysis,
  rpm: number,
): Judged {
  const applied = applyPlan(job, setupId, plan)
  const a = analyse(applied, setupId)
  const verdict = (of: Analysis) => VERDICTS.indexOf(verdictAt(rpm, judgementOf(of.limits, of.findings)))
  const old = new Set(bare.terms.map((t) => t.item))
  const moved = new Set(plan.moves.map((m) => m.item))
  const own = a.clearances.filter((c) => !old.has(c.item) || moved.has(c.item))
  return {
    worsens: hasNewStop(a, bare, rpm) || verdict(a) > verdict(bare),
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
