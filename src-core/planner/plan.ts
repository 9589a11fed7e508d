/**
 * The counterweight planner: which of the shop's weights, bolted where, settle a setup. The search only proposes;
 * every figure of the report comes from `analyse` on the job with the plan applied. The same job gives the same
 * report: no clock, no chance.
 */
import { analyse } from '../analysis/analyse.ts'
import type { Analysis } from '../analysis/result.ts'
import { polar } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import type { Job } from '../job/schema.ts'
import { findSetup, mountSetup } from '../mounting/mount.ts'
import { replaceableIds, withoutHardware } from './apply.ts'
import { NOTHING } from './choose.ts'
import { FreeRadii } from './free.ts'
import { Front, bestFirst } from './front.ts'
import { judge, proposedBy, type Proposed } from './judge.ts'
import { Model } from './searchModel.ts'
import { remarksOf, shortfallOf } from './remarks.ts'
import { PLAN_DEFAULTS, type Plan, type PlanHooks, type PlanOptions, type PlanReport } from './report.ts'
import { searchModel, type SearchLimits, type SearchState } from './search.ts'
import { slidersOf, movablePieces } from './sliders.ts'
import { StackJoints } from './stackJoint.ts'
import { StackSpace } from './stackSpace.ts'
import { Studs } from './studs.ts'
import { meetsTarget, targetUnbalance, wantedSpeed } from './target.ts'
import { searchTurns } from './turns.ts'

export type * from './report.ts'

/** Nodes opened for one and two stations before the search says that it is not complete. */
const BUDGET = 1_500_000
/** Most pieces slid at once, beside up to two stations. */
const MOST_SLID = 3

/** Static unbalance as a vector, g·mm. */
const unbalanceVector = (a: Analysis): Point => polar(a.unbalance.static_g_mm, a.unbalance.static_angle_deg)

/** Plans counterweights for a setup. Throws RangeError on an unknown setup. */
export function planCounterweights(
  job: Job,
  setupId: string,
  options: PlanOptions = {},
  hooks: PlanHooks = {},
): PlanReport {
  const opt = { ...PLAN_DEFAULTS, ...options }
  const setup = findSetup(job, setupId)
  const replaces = opt.keepCounterweights ? [] : replaceableIds(setup)
  const bareJob = withoutHardware(job, setupId, replaces)
  const before = analyse(job, setupId)
  const bare = replaces.length === 0 ? before : analyse(bareJob, setupId)
  const rpm = wantedSpeed(job, setup, before)
  const base = unbalanceVector(bare)
  const front = new Front(bare.unbalance.static_g_mm)
  const state: SearchState = { complete: true, lower: Infinity, stopped: false }
  const counted = countedSteps(hooks)
  const budget = { left: BUDGET }
  const wideBudget = { left: opt.effort }
  const limits: SearchLimits = {
    mostStations: opt.stations,
    mostPieces: opt.pieces,
    budget,
    wideBudget,
    shouldStop: () => hooks.shouldStop?.() ?? false,
    onStep: counted.step,
  }
  const mounted = mountSetup(bareJob, setupId)
  const free = new FreeRadii(mounted, opt.clearance, opt.swingMargin)
  const space = new StackSpace(job.stock, opt.stackHeight)
  const bolting = { space, studs: new Studs(mounted), joints: new StackJoints(mounted, rpm) }
  const still = new Model(mounted, bolting, free, opt, [])
  searchModel(still, base, 0, null, front, limits, state)
  if (opt.moveHardware) {
    for (const moving of slidSets(mounted, free)) {
      if (state.stopped) break
      const model = new Model(mounted, bolting, free, opt, moving)
      if (model.sliders.length < moving.length) continue
      const beside: SearchLimits = { ...limits, mostStations: Math.min(2, opt.stations) }
      searchModel(model, base, moving.length, null, front, beside, state)
    }
  }
  const turning = opt.turnPart && !state.stopped
  if (turning) searchTurns({ job: bareJob, setupId, analysis: bare, bolting, options: opt, front, limits })

  const judged = (plan: Proposed) => judge(job, setupId, plan, before, bare, rpm)
  const list = bestFirst(front.answers, opt.answers).map((a) => judged(proposedBy(bareJob, a, replaces)))
  if (meetsTarget(bare, rpm) || replaces.length > 0)
    list.push(judged({ stations: [], moves: [], turn_deg: null, replaces }))
  const plans = list.flatMap(({ plan, worsens }) => (worsens ? [] : [plan])).sort(byRank)
  const best = plans[0]?.residual_g_mm ?? bare.unbalance.static_g_mm
  const target = targetUnbalance(job, setup, bare, rpm)
  counted.end()
  return {
    setup: setup.id,
    before_g_mm: before.unbalance.static_g_mm,
    target_g_mm: target,
    target_rpm: rpm,
    plans,
    meets: plans.some((p) => p.meets_target),
    shortfall: shortfallOf(job, bare, plans, target),
    remarks: remarksOf({
      job,
      bare,
      plans,
      target,
      rpm,
      turnsTried: turning,
    }),
    searched: {
      stations: opt.stations,
      pieces: opt.pieces,
      stacks: space.looked,
      placements: BUDGET - budget.left + (opt.effort - wideBudget.left),
      complete: state.complete && !state.stopped,
      stopped: state.stopped,
    },
    gap_g_mm: Math.max(0, best - Math.min(best, state.lower)),
  }
}

const level = (p: Plan) => (p.residual_g_mm <= NOTHING ? 0 : p.residual_g_mm)

/** Least residual first; of those as good as nothing fewest pieces, then moves, then stations. */
const byRank = (a: Plan, b: Plan) =>
  level(a) - level(b) ||
  a.pieces - b.pieces ||
  a.moves.length - b.moves.length ||
  a.stations.length - b.stations.length ||
  a.residual_g_mm - b.residual_g_mm

/** Sets of movable pieces worth sliding together, smallest first, each in the order of the setup. */
function slidSets(mounted: ReturnType<typeof mountSetup>, free: FreeRadii): string[][] {
  const all = movablePieces(mounted).map((p) => p.item.id)
  const worth = new Set(slidersOf(mounted, free, all).map((s) => s.piece.item.id))
  const ids = all.filter((id) => worth.has(id))
  const sets: string[][] = []
  const pick = (from: number, chosen: readonly string[]) => {
    if (chosen.length > 0) sets.push([...chosen])
    if (chosen.length === MOST_SLID) return
    for (let i = from; i < ids.length; i++) pick(i + 1, [...chosen, ids[i]!])
  }
  pick(0, [])
  return sets.sort((a, b) => a.length - b.length)
}

/** Progress by the number of steps done: it nears 1 without knowing how many there will be. */
function countedSteps(hooks: PlanHooks) {
  let steps = 0
  return {
    step(note: string) {
      steps++
      hooks.onProgress?.(1 - 1 / (1 + steps / 8), note)
    },
    end() {
      hooks.onProgress?.(1, 'done')
    },
  }
}
