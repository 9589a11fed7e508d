/** What is worth saying beside the plans, and what is missing where none reaches the target. */
import { opposite } from '../geometry/angles.ts'
import type { Analysis } from '../analysis/result.ts'
import type { Job } from '../job/schema.ts'
import { seatShelf } from '../mounting/shelf.ts'
import { coupleMoment } from '../unbalance/static.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { NOTHING } from './choose.ts'
import { massForRadius } from './closedForms.ts'
import { listStations } from './free.ts'
import type { Plan, Shortfall } from './report.ts'
import { meetsTarget } from './target.ts'

/** Null where a plan meets the target, or the target is not known. @param bare the setup without what the plans replace. */
export function shortfallOf(
  job: Job,
  bare: Analysis,
  plans: readonly Plan[],
  target: number,
): Shortfall | null {
  if (target === 0 || plans.some((p) => p.meets_target)) return null
  const best = plans[0] ?? {
    residual_g_mm: bare.unbalance.static_g_mm,
    residual_angle_deg: bare.unbalance.static_angle_deg,
    upper95_g_mm: bare.unbalance.upper95_g_mm,
  }
  const radii = listStations(job.plate).map((s) => s.to)
  const radius = radii.length > 0 ? Math.max(...radii) : job.plate.diameter / 2
  return {
    missing_g_mm: Math.max(0, best.upper95_g_mm - target),
    extra_mass_kg: best.residual_g_mm <= NOTHING ? 0 : massForRadius(best.residual_g_mm, radius),
    radius_mm: radius,
    angle_deg: opposite(best.residual_angle_deg),
  }
}

export interface RemarkInput {
  readonly job: Job
  readonly bare: Analysis
  readonly plans: readonly Plan[]
  readonly target: number
  readonly rpm: number
  readonly turnsTried: boolean
}

export function remarksOf(input: RemarkInput): string[] {
  const { job, bare, plans, target, rpm } = input
  const fmt = formatter(job.displayUnits)
  const remarks: string[] = []
  if (target === 0)
    return [
      "What the balance has to meet is not known: give the lathe's mass. The plans leave the least they can.",
    ]
  if (meetsTarget(bare, rpm))
    remarks.push(
      `Without any of these plans' weights the 95 % bound is ${fmt.unbalance(bare.unbalance.upper95_g_mm)}, which the criterion allows at ${fmt.speed(rpm)}: no weight is needed.`,
    )
  else remarks.push(...moveRemarks(fmt, plans, target))
  const best = plans[0]
  if (best && !plans.some((p) => p.meets_target) && best.residual_g_mm <= target)
    remarks.push(
      `The best plan leaves ${fmt.unbalance(best.residual_g_mm)}, under the target of ${fmt.unbalance(target)}; what misses is doubt, which brings its 95 % bound to ${fmt.unbalance(best.upper95_g_mm)}. Weigh the part, set it more closely or run slower; more weight does not help.`,
    )
  const rocks = best ? rockRemark(job, bare, best, rpm, fmt) : null
  if (rocks) remarks.push(rocks)
  if (input.turnsTried)
    remarks.push(
      'Turns of the part were tried every 5° and where one weight would leave nothing; they are not proven to be the best.',
    )
  return remarks
}

/** What stands on a shelf stands far out, weights lie near the plate: balanced they still rock the spindle. */
function rockRemark(job: Job, bare: Analysis, best: Plan, rpm: number, fmt: Formatter): string | null {
  const setup = job.setups.find((s) => s.id === bare.setup)
  if (!setup || !seatShelf(setup) || best.pieces === 0) return null
  const moment = fmt.torque(coupleMoment(best.couple_g_mm2, rpm))
  return `The weights lie near the plate and the part far out: in balance they still rock the spindle, with ${moment} at ${fmt.speed(rpm)} by the best plan. A stack that stands as far out as the part would settle that; a slower speed makes it less.`
}

/** Where sliding a piece or turning the part saves weights that the target would ask for. */
function moveRemarks(fmt: Formatter, plans: readonly Plan[], target: number): string[] {
  const good = (p: Plan) => p.meets_target || p.residual_g_mm <= target
  const isMoved = (p: Plan) => p.moves.length > 0 || p.turn_deg !== null
  const fewest = (list: readonly Plan[]) =>
    list.filter(good).reduce<Plan | null>((a, p) => (a === null || p.pieces < a.pieces ? p : a), null)
  const moved = fewest(plans.filter(isMoved))
  const still = fewest(plans.filter((p) => !isMoved(p)))
  if (!moved || (still && still.pieces <= moved.pieces)) return []
  const what = [
    ...moved.moves.map(
      (m) => `sliding ${m.item} from ${fmt.length(m.from_mm)} to ${fmt.length(m.radius_mm)}`,
    ),
    ...(moved.turn_deg === null ? [] : [`turning the part to ${fmt.angle(moved.turn_deg)}`]),
  ].join(' and ')
  const saved = still ? still.pieces - moved.pieces : null
  const text =
    moved.pieces === 0
      ? `${what} makes every weight unnecessary: it leaves ${fmt.unbalance(moved.residual_g_mm)}.`
      : saved === null
        ? `only with ${what} does a plan come under the target by its best estimate.`
        : `${what} makes ${saved} of ${still!.pieces} weights unnecessary.`
  return [text.charAt(0).toUpperCase() + text.slice(1)]
}
