/** A trim as text for people. */
import type { Job, Setup } from '../../src-core/job/schema.ts'
import { VERDICT_WORDS } from '../../src-core/verdict/speeds.ts'
import type { TrimAnswer } from '../../src-core/trim/estimate.ts'
import type { TrimMethod } from '../../src-core/trim/readings.ts'
import type { TrimPlan, TrimReport } from '../../src-core/trim/report.ts'
import { directionWords, formatter, significant, type Formatter } from '../../src-core/units/format.ts'
import { printable } from './failure.ts'
import { planLines } from './planSheet.ts'
import { table, wrap } from './table.ts'

const COLUMNS = 100

const METHOD_WORDS: Record<TrimMethod, string> = {
  roll: 'roll test',
  'four-run': 'amplitudes of four runs',
  vector: 'one trial, amplitude and phase',
}

const sentences = (texts: readonly string[]) =>
  texts.flatMap((text) => wrap(printable(text), COLUMNS, '  - ', '    '))

/** Measured, computed, what the difference points to, the plans; ends in a line feed. */
export function trimSheet(job: Job, setup: Setup, report: TrimReport): string {
  const fmt = formatter(job.displayUnits)
  const { remarks, runs, computed, suggests, plans, plan_remarks } = report
  const runLines = runs.map(
    (run) =>
      `${run.weight ? `trial weight of ${fmt.mass(run.weight.mass_g / 1000)} at ${fmt.angle(run.weight.angle_deg)}` : 'as it is'}, ${fmt.speed(run.rpm)}: ${VERDICT_WORDS[run.verdict]}, ${run.reason}`,
  )
  const sections = [
    [
      printable(`${job.title || 'Untitled job'}: trim of setup ${setup.id}, ${METHOD_WORDS[report.method]}`),
      ...measuredLines(fmt, report),
      ...sentences(remarks),
    ],
    ...(runLines.length > 0 ? [['Runs', ...sentences(runLines)]] : []),
    ['Beside what was computed', ...sentences([computed.message])],
    ...(suggests.length > 0 ? [['What would explain it', ...sentences(suggests.map((s) => s.message))]] : []),
    ['Correction', ...sentences(plan_remarks)],
    ...plans.map((plan, i) => trimPlanLines(fmt, plan, i + 1)),
    ['After bolting up: turn the spindle by hand through a full turn, then measure again.'],
  ]
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`
}

function measuredLines(fmt: Formatter, report: TrimReport): string[] {
  const { measured_g_mm: u, heavy_angle_deg: angle, upper95_g_mm: upper, also } = report
  if (angle === null) return []
  if (u === null || upper === null)
    return [`Heavy side: ${directionWords(fmt, angle)}; how heavy is not measured`]
  const row = (a: TrimAnswer) => [
    fmt.unbalance(a.measured_g_mm),
    `at ${directionWords(fmt, a.heavy_angle_deg)}`,
    `95 % bound ${fmt.unbalance(a.upper95_g_mm)}`,
  ]
  const first = { measured_g_mm: u, heavy_angle_deg: angle, upper95_g_mm: upper }
  return [
    also.length > 0 ? 'Measured: one of' : 'Measured',
    ...table([first, ...also].map(row), ['right', 'left', 'left']),
  ]
}

function trimPlanLines(fmt: Formatter, plan: TrimPlan, number: number): string[] {
  const { reading } = plan
  if (!reading) return planLines(fmt, plan, number)
  const phase = reading.phase_deg === null ? '' : ` at phase ${fmt.angle(reading.phase_deg)}`
  return [
    ...planLines(fmt, plan, number),
    `  the meter should then read ${significant(reading.amplitude, 3)}${phase}`,
  ]
}
