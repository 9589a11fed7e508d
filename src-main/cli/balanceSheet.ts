/** The analysis of a setup as text for people. */
import type { Analysis } from '../../src-core/analysis/result.ts'
import { STANDINGS, standingAt, type Standing } from '../../src-core/findings/finding.ts'
import { VERDICT_WORDS } from '../../src-core/verdict/speeds.ts'
import { LIMITS, limitWords } from '../../src-core/verdict/limits.ts'
import { checkSum } from '../../src-core/job/checkSum.ts'
import type { Job, Setup } from '../../src-core/job/schema.ts'
import { directionWords, formatter, significant, type Formatter } from '../../src-core/units/format.ts'
import { convert } from '../../src-core/units/convert.ts'
import { STANDARD_GRAVITY } from '../../src-core/unbalance/static.ts'
import { checksByHand, PRECEDENCE } from '../../src-core/words/cautions.ts'
import { printable } from './failure.ts'
import { clampsSection, holdingAt, jointsSection } from './jointSheet.ts'
import { table, wrap } from './table.ts'

const COLUMNS = 100

const STANDING_WORDS: Record<Standing, string> = {
  stop: 'STOP',
  'not-judged': 'NOT JUDGED',
  caution: 'CAUTION',
  note: 'note',
}

/** The verdict with its reason, for a line of its own. */
export const verdictLine = ({ verdict }: Analysis): string =>
  printable(`${VERDICT_WORDS[verdict.state].toUpperCase()}: ${verdict.reason}`)

interface Context {
  readonly job: Job
  readonly setup: Setup
  readonly a: Analysis
  readonly fmt: Formatter
}

/** The whole balance sheet, ending in a line feed; worst findings first. */
export function balanceSheet(job: Job, setup: Setup, analysis: Analysis): string {
  const context: Context = { job, setup, a: analysis, fmt: formatter(job.displayUnits) }
  const sections = [
    heading(context),
    masses(context),
    heavySide(context),
    speeds(context),
    ceiling(context),
    clearances(context),
    jointsSection(analysis, context.fmt),
    clampsSection(analysis, context.fmt),
    findings(context),
    [
      'Before power',
      ...[PRECEDENCE, ...checksByHand(analysis.by_hand.rolls)].flatMap((caution) =>
        wrap(caution, COLUMNS, '  - ', '    '),
      ),
    ],
  ]
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`
}

function heading({ job, setup, a }: Context): string[] {
  const part = [job.title || job.part.name || 'Untitled job', job.partNumber].filter(Boolean).join(', ')
  const title = setup.title ? `${setup.id}, ${setup.title}` : setup.id
  return [
    ...wrap(verdictLine(a), COLUMNS, '', '  '),
    printable(`${part}: setup ${title}`),
    `Check sum ${checkSum(job, setup)}`,
    printable(`Lathe ${job.lathe.name || 'without a name'}, plate ${job.plate.name || 'without a name'}`),
    "Estimates for planning. Angles counter-clockwise from 3 o'clock, seen from the tailstock.",
  ]
}

function masses({ job, a, fmt }: Context): string[] {
  const origin = job.part.weighedMass === null ? 'computed from outline and density' : 'weighed'
  const plate = job.plate.mass
  const hardware = a.assembly.mass_kg - plate - a.part.mass_kg
  return [
    'Masses',
    ...table(
      [
        ['part', fmt.mass(a.part.mass_kg), origin],
        ['plate', fmt.mass(plate), ''],
        ['hardware', fmt.mass(Math.max(0, hardware)), ''],
        [
          'all that turns',
          fmt.mass(a.assembly.mass_kg),
          `${fmt.force(a.assembly.mass_kg * STANDARD_GRAVITY)} of weight`,
        ],
      ],
      ['left', 'right', 'left'],
    ),
  ]
}

/** g·mm² to text, or oz·in². */
function coupleText(job: Job, gmm2: number): string {
  if (job.displayUnits === 'mm') return `${significant(gmm2, 3)} g·mm²`
  return `${significant(convert(convert(convert(gmm2, 'g', 'oz'), 'mm', 'in'), 'mm', 'in'), 3)} oz·in²`
}

function heavySide({ job, a, fmt }: Context): string[] {
  const u = a.unbalance
  const rows = [
    ['as mounted', fmt.unbalance(u.static_g_mm), `at ${directionWords(fmt, u.static_angle_deg)}`],
    ['95 % upper bound', fmt.unbalance(u.upper95_g_mm), ''],
    ['after the cut', fmt.unbalance(u.after_cut_g_mm), `at ${directionWords(fmt, a.after_cut_angle_deg)}`],
    ['centre of mass off the axis', fmt.length(a.assembly.eccentricity_um / 1000), ''],
    [
      'couple about the plate face',
      coupleText(job, u.couple_g_mm2),
      `at ${directionWords(fmt, u.couple_angle_deg)}`,
    ],
  ]
  const moment = a.assembly.bearing_moment_N_m
  if (moment !== null) rows.push(['weight on the front bearing', fmt.torque(moment), 'moment at rest'])
  return [`Heavy side: ${directionWords(fmt, u.static_angle_deg)}`, ...table(rows, ['left', 'right', 'left'])]
}

function speeds({ setup, a, fmt }: Context): string[] {
  const surface = (v: number | null) => (v === null ? '-' : fmt.cuttingSpeed(v))
  const rows = a.speeds.map((row) => [
    `${fmt.speed(row.rpm)}${row.rpm === setup.speed ? ' *' : '  '}`,
    fmt.force(row.force_N),
    fmt.percent(row.weight_share),
    fmt.force(row.force_upper95_N),
    `G ${significant(row.grade_mm_s, 3)}`,
    surface(row.surface_speed_m_min),
    holdingAt(a, row.rpm, setup.speed),
    VERDICT_WORDS[row.verdict],
  ])
  return [
    `Pull at each speed${setup.speed === null ? ' (no speed is chosen)' : ' (* chosen)'}`,
    ...table(
      [
        ['speed  ', 'force', 'of weight', '95 % force', 'grade mm/s', 'at the bore', 'holding', 'verdict'],
        ...rows,
      ],
      ['right', 'right', 'right', 'right', 'right', 'right', 'right', 'left'],
    ),
  ]
}

function ceiling({ setup, a, fmt }: Context): string[] {
  const { rpm, limit } = a.ceiling
  const words =
    rpm === null || limit === null
      ? 'nothing given limits the speed'
      : `${fmt.speedLimit(rpm)}, set by ${limitWords(limit).long}`
  const each = [
    ...LIMITS.map(
      ({ id, long, detail }) => [detail ? `${long}: ${detail(setup, fmt)}` : long, a.limits[id]] as const,
    ),
    ['balance, best estimate', a.limits.balanceBestEstimate] as const,
  ]
  const shown = (v: number | null) => (v === null ? 'no limit, or not checked' : fmt.speedLimit(v))
  return [
    `Ceiling: ${words}`,
    ...table(
      each.map(([what, v]) => [what, shown(v)]),
      ['left', 'left'],
    ),
  ]
}

function clearances({ a, fmt }: Context): string[] {
  if (a.clearances.length === 0) return ['Clearances', '  none checked']
  const sorted = [...a.clearances].sort((p, q) => p.clearance_mm - q.clearance_mm)
  const rows = sorted.map((c) => [
    printable(c.body ? `${c.item} (${c.body})` : c.item),
    `to the ${c.against}`,
    c.clearance_mm < 0 ? `fouls by ${fmt.length(-c.clearance_mm)}` : fmt.length(c.clearance_mm),
    `swept radius ${fmt.length(c.swept_radius_mm)}`,
  ])
  return ['Clearances, tightest first', ...table(rows, ['left', 'left', 'right', 'left'])]
}

function findings({ a }: Context): string[] {
  const counts = STANDINGS.map((standing) => {
    const n = a.findings.filter((f) => standingAt(f, a.chosen_rpm) === standing).length
    return `${n} ${STANDING_WORDS[standing].toLowerCase()}`
  })
  const head = `Findings: ${counts.join(', ')}`
  const body = a.findings.flatMap((f) =>
    wrap(
      printable(`${f.item}: ${f.message}`),
      COLUMNS,
      `  ${STANDING_WORDS[standingAt(f, a.chosen_rpm)].padEnd(11)}`,
      ' '.repeat(13),
    ),
  )
  return [head, ...body]
}
