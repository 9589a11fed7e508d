/** Counterweight plans as text for people. */
import type { Job, Setup } from '../../src-core/job/schema.ts'
import type { PlanReport } from '../../src-core/planner/plan.ts'
import { clockPosition, formatter, type Formatter } from '../../src-core/units/format.ts'
import { printable } from './failure.ts'
import { table } from './table.ts'

type Plan = PlanReport['plans'][number]
type Station = Plan['stations'][number]

/** The plans, best first, ending in a line feed. */
export function planSheet(job: Job, setup: Setup, report: PlanReport): string {
  const fmt = formatter(job.displayUnits)
  const head = [
    printable(`${job.title || 'Untitled job'}: counterweights for setup ${setup.id}`),
    `Unbalance before: ${fmt.unbalance(report.before_g_mm)}; aim: ${fmt.unbalance(report.target_g_mm)}`,
  ]
  if (report.plans.length === 0) head.push('', 'No plan was found with this stock and these slots and holes.')
  return `${[...head, ...report.plans.flatMap((plan, i) => ['', ...planLines(fmt, plan, i + 1)])].join('\n')}\n`
}

function planLines(fmt: Formatter, plan: Plan, number: number): string[] {
  const left = `${fmt.unbalance(plan.residual_g_mm)} left at ${fmt.angle(plan.residual_angle_deg)} (${clockPosition(plan.residual_angle_deg)})`
  const ceiling =
    plan.ceiling_rpm === null
      ? 'nothing given limits the speed'
      : `ceiling ${fmt.speed(Math.floor(plan.ceiling_rpm))}`
  return [
    `Plan ${number}: ${left}, 95 % bound ${fmt.unbalance(plan.upper95_g_mm)}; ${ceiling}`,
    ...table(
      plan.stations.map((station) => stationCells(fmt, station)),
      ['left', 'right', 'right', 'left'],
    ),
  ]
}

function stationCells(fmt: Formatter, station: Station): string[] {
  const place = 'slot' in station ? `slot ${station.slot}` : `hole ${station.hole}`
  const stack = station.stack.map(({ stock, count }) => `${count} × ${stock}`).join(' + ')
  return [
    printable(place),
    `at ${fmt.length(station.radius_mm)}`,
    fmt.mass(station.mass_kg),
    printable(stack),
  ]
}
