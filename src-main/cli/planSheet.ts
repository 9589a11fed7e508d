/** Counterweight plans as text for people. */
import { VERDICT_WORDS } from '../../src-core/verdict/speeds.ts'
import type { Job, Setup } from '../../src-core/job/schema.ts'
import type { Plan, PlanReport, PlanStation } from '../../src-core/planner/report.ts'
import { directionWords, formatter, type Formatter } from '../../src-core/units/format.ts'
import { fastenerText } from '../../src-core/planner/words.ts'
import { printable } from './failure.ts'
import { table, wrap } from './table.ts'

const COLUMNS = 100

/** The plans, best first, ending in a line feed. */
export function planSheet(job: Job, setup: Setup, report: PlanReport): string {
  const fmt = formatter(job.displayUnits)
  const lines = [
    printable(`${job.title || 'Untitled job'}: counterweights for setup ${setup.id}`),
    `Unbalance before: ${fmt.unbalance(report.before_g_mm)}; aim at ${fmt.speed(report.target_rpm)}: 95 % bound under ${fmt.unbalance(report.target_g_mm)}`,
  ]
  if (report.plans.length === 0)
    lines.push('', 'No plan was found with this stock and these slots and holes.')
  report.plans.forEach((plan, i) => lines.push('', ...planLines(fmt, plan, i + 1)))
  const last = [...shortfallLines(fmt, report), ...report.remarks]
  if (last.length > 0) lines.push('', ...last.flatMap((text) => wrap(printable(text), COLUMNS, '', '  ')))
  lines.push(
    '',
    'After bolting up: turn the spindle by hand through a full turn, and let it roll to rest to see.',
  )
  return `${lines.join('\n')}\n`
}

/** One plan: what it leaves, what is bolted where, what limits it. */
export function planLines(fmt: Formatter, plan: Plan, number: number): string[] {
  const left = `${fmt.unbalance(plan.residual_g_mm)} left at ${directionWords(fmt, plan.residual_angle_deg)}`
  const clear = plan.clearance_mm === null ? '' : `, tightest clearance ${fmt.length(plan.clearance_mm)}`
  const ceiling =
    plan.ceiling_rpm === null
      ? 'nothing given limits the speed'
      : `ceiling ${fmt.speedLimit(plan.ceiling_rpm)}`
  const { slip_1mm_g_mm: slip, mass_2pct_g_mm: wrong } = plan.sensitivity
  const turn = plan.turn_deg === null ? [] : [`  turn the part to ${fmt.angle(plan.turn_deg)}`]
  const moves = plan.moves.map((m) =>
    printable(`  move ${m.item} from ${fmt.length(m.from_mm)} to ${fmt.length(m.radius_mm)}`),
  )
  return [
    `Plan ${number}, ${VERDICT_WORDS[plan.verdict]}${plan.meets_target ? '' : ' (misses the aim)'}: ${left}, 95 % bound ${fmt.unbalance(plan.upper95_g_mm)}`,
    ...turn,
    ...moves,
    ...(plan.stations.length === 0 ? ['  no counterweight'] : []),
    ...table(
      plan.stations.map((station) => stationCells(fmt, station)),
      ['left', 'right', 'right', 'left'],
    ),
    ...plan.stations.flatMap((station) => fastenerLines(fmt, station)),
    `  ${ceiling}${clear}; a slip of 1 mm adds up to ${fmt.unbalance(slip)}, a mass 2 % off up to ${fmt.unbalance(wrong)}`,
  ]
}

function stationCells(fmt: Formatter, station: PlanStation): string[] {
  const stack = station.stack.map(({ stock, count }) => `${count} × ${stock}`).join(' + ')
  return [
    printable(placeOf(station)),
    `at ${fmt.length(station.radius_mm)}`,
    fmt.mass(station.mass_kg),
    printable(stack),
  ]
}

/** What bolts a stack on, in one line. */
function fastenerLines(fmt: Formatter, station: PlanStation): string[] {
  return wrap(printable(`${placeOf(station)}: ${fastenerText(fmt, station)}`), COLUMNS, '    ', '      ')
}

const placeOf = (station: PlanStation) =>
  'slot' in station ? `slot ${station.slot}` : `hole ${station.hole}`

function shortfallLines(fmt: Formatter, { shortfall }: PlanReport): string[] {
  if (!shortfall) return []
  const { missing_g_mm: missing, extra_mass_kg: mass, radius_mm: radius, angle_deg: angle } = shortfall
  return [
    `No plan meets the aim: ${fmt.unbalance(missing)} too much. Another ${fmt.mass(mass)} at ${fmt.length(radius)} toward ${directionWords(fmt, angle)} would settle the best one.`,
  ]
}
