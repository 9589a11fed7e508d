/** Force against spindle speed, for a picture: F = U·ω², so a parabola through every gear. */
import type { Analysis } from '../../src-core/analysis/result.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { isCounterweight, type Setup } from '../../src-core/job/schema.ts'
import type { Verdict } from '../../src-core/verdict/speeds.ts'
import { centrifugalForce } from '../../src-core/unbalance/static.ts'

export interface ForceCurve {
  /** rpm and N at the right and top of the picture. */
  readonly topRpm: number
  readonly topForce: number
  /** x rpm, y N. */
  readonly best: readonly Point[]
  readonly upper: readonly Point[]
  /** Without the counterweights; null where none are on. */
  readonly bare: readonly Point[] | null
  /** rpm where the criterion is met to the best estimate and to the bound; null where nothing limits. */
  readonly ceilings: { readonly best: number | null; readonly upper: number | null }
  readonly gears: readonly { readonly rpm: number; readonly force: number; readonly verdict: Verdict }[]
}

const STEPS = 48

export function forceCurve(analysis: Analysis, setup: Setup): ForceCurve {
  const { unbalance, speeds, limits, terms } = analysis
  const highest = speeds.at(-1)?.rpm ?? 100
  const upperCeiling = limits.balance
  // Beyond twice what is allowed the curve says nothing new; the interesting part stays large.
  const topRpm = Math.min(
    highest * 1.05,
    Math.max(2.2 * (upperCeiling ?? highest), setup.speed ?? 0, speeds[0]?.rpm ?? 0),
  )
  const line = (u: number): Point[] =>
    Array.from({ length: STEPS + 1 }, (_, i) => ({
      x: (topRpm * i) / STEPS,
      y: centrifugalForce(u, (topRpm * i) / STEPS),
    }))
  const weights = new Set(setup.hardware.filter(isCounterweight).map((h) => h.id))
  const bareVector = terms
    .filter((t) => !weights.has(t.item))
    .reduce((sum, t) => ({ x: sum.x + t.unbalance_g_mm.x, y: sum.y + t.unbalance_g_mm.y }), { x: 0, y: 0 })
  const bare = weights.size > 0 ? line(Math.hypot(bareVector.x, bareVector.y)) : null
  return {
    topRpm,
    topForce: Math.max(1e-6, centrifugalForce(unbalance.upper95_g_mm, topRpm)) * 1.08,
    best: line(unbalance.static_g_mm),
    upper: line(unbalance.upper95_g_mm),
    bare,
    ceilings: {
      best: limits.balanceBestEstimate,
      upper: upperCeiling,
    },
    gears: speeds
      .filter((s) => s.rpm <= topRpm)
      .map((s) => ({ rpm: s.rpm, force: s.force_N, verdict: s.verdict })),
  }
}

/** Those of some places that can be named without running into one another; `first` before all, then from the end. */
export function spaced(places: readonly number[], first: number, apart: number): number[] {
  const order = places.map((_, i) => i).sort((a, b) => Number(b === first) - Number(a === first) || b - a)
  const kept: number[] = []
  for (const i of order) if (kept.every((k) => Math.abs(places[k]! - places[i]!) > apart)) kept.push(i)
  return kept
}
