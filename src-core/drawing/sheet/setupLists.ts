/** The lists one sets up by: what weights and blocks are made of, and the steps with room to write. */
import type { Analysis } from '../../analysis/result.ts'
import type { Hardware, Job } from '../../job/schema.ts'
import { angleText, indexWords } from '../../mounting/plateAngle.ts'
import { capital } from '../../words/capital.ts'
import type { Mounted, MountedPiece } from '../../mounting/types.ts'
import type { Step } from '../../steps/step.ts'
import { stepsOf } from '../../steps/steps.ts'
import { clockPosition, formatter, plain } from '../../units/format.ts'
import { bounded } from '../text/bounded.ts'
import { dimensionText, hasHeavySide } from '../views/view.ts'
import { NONE, TO_WRITE, by, lengthUnit, studWords, torqueCell, torqueUnit } from './cells.ts'
import type { TableInput } from './table.ts'

const orderCell = (item: Hardware): string => ('order' in item && item.order ? plain(item.order, 0) : NONE)

/** Weights, stops, boxes and what else stands there: from the plate up, with stud and torque. Null where there is none. */
export function madeOfTable(mounted: Mounted): TableInput | null {
  const { job, pieces } = mounted
  const rows = pieces.flatMap((piece, i) => {
    const { item } = piece
    if (item.kind === 'clamp' || item.kind === 'press' || item.kind === 'bolt') return []
    return [
      [
        plain(i + 1, 0),
        madeOf(job, piece),
        dimensionText(job, Math.max(...piece.solids.map((s) => s.z1))),
        studWords(job, piece),
        torqueCell(job, item),
        orderCell(item),
        '',
      ],
    ]
  })
  if (rows.length === 0) return null
  return {
    title: 'Weights, packing and blocks',
    remark: `From the plate up, ${lengthUnit(job)}. High: over the plate's face, stud and nut with it.`,
    columns: [
      { title: 'No', align: 'middle' },
      { title: 'Made of', wraps: true },
      { title: 'High', align: 'end' },
      { title: 'Stud' },
      { title: torqueUnit(job), align: 'end' },
      { title: 'Order', align: 'end' },
      { title: 'Set', least: 11 },
    ],
    rows,
    small: true,
    mostLines: 12,
  }
}

function madeOf(job: Job, { item }: MountedPiece): string {
  switch (item.kind) {
    case 'weight':
      return item.stack
        .map(({ stock, count }) => {
          const of = job.stock.find((s) => s.id === stock)
          const size = of ? `, ${sizeOf(job, of.footprint, of.height)}` : ''
          return `${plain(count, 0)} × ${of?.name || stock}${size}`
        })
        .join(' + ')
    case 'stop':
      return by(job, item.size)
    case 'dowel':
      return `Ø${dimensionText(job, item.diameter)}, ${dimensionText(job, item.length)} out of the plate`
    case 'fixture':
      return sizeOf(job, item.footprint, item.thickness)
    case 'anglePlate':
      return `${by(job, item.size)}, ${dimensionText(job, item.thickness)} thick`
    case 'vee':
      return `${by(job, item.size)}, ${plain(item.angle, 1)}°, ${dimensionText(job, item.opening)} wide`
    case 'twin':
      return `the part again${item.raised > 0 ? `, ${dimensionText(job, item.raised)} up` : ''}`
    case 'clamp':
    case 'bolt':
      return ''
    case 'packing':
    case 'bracket':
    case 'counterweight':
    case 'press':
    case 'other': {
      const foot = item.base > 0 ? `, its foot ${dimensionText(job, item.base)} up` : ''
      return `${sizeOf(job, item.footprint, item.height)}${foot}`
    }
  }
}

function sizeOf(
  job: Job,
  footprint: Extract<Hardware, { footprint: unknown }>['footprint'],
  height: number,
): string {
  const high = dimensionText(job, height)
  if ('circle' in footprint) return `Ø${dimensionText(job, footprint.circle)} × ${high}`
  if ('rect' in footprint) return `${by(job, footprint.rect)} × ${high}`
  return `as drawn × ${high}`
}

/** Facts of a step that are set, first come first; the others are in the other lists. */
const SET_TO = ['Shelf to the axis', 'Lands to the axis', 'Torque', 'Height', 'Turned', 'Begin at', 'Spindle']
/** Facts that nobody sets: what is measured is held against them. What the roll test should show stands over its table. */
const COMPUTED = ['Tightest', 'Gap']
/** Facts that say where. */
const WHERE = ['Place', 'On the axis', 'Stack, bottom first']

export function stepsTable(mounted: Mounted, analysis: Analysis): TableInput {
  return {
    title: 'Order of assembly',
    remark: 'Tick each step; note what was measured.',
    columns: [
      { title: '', ticks: true },
      { title: 'No', align: 'end' },
      { title: 'Step', wraps: true },
      { title: 'Set to', align: 'end' },
      { title: 'Measured', least: TO_WRITE },
    ],
    rows: unrepeated(stepsOf(mounted, analysis)).map((step, i) => [
      '',
      plain(i + 1, 0),
      stepWords(mounted, step),
      setTo(step),
      '',
    ]),
    small: true,
    splits: true,
    mostLines: 40,
  }
}

/** Nothing where the step must not be done: a speed there would be set all the same. */
const setTo = ({ barred, facts }: Step): string =>
  barred ? '' : (facts.find((f) => SET_TO.includes(f.label))?.value ?? '')

/** What a step before it of the same kind said already is left out. */
function unrepeated(steps: readonly Step[]): Step[] {
  const said = new Map<string, Set<string>>()
  return steps.map((step) => {
    const before = said.get(step.kind) ?? new Set()
    said.set(step.kind, new Set([...before, ...step.does]))
    return { ...step, does: step.does.filter((d) => !before.has(d)) }
  })
}

/** Letters of a step: names may be of any length. */
const MOST_LETTERS = 1500

function stepWords({ pieces }: Mounted, { title, lit, facts, does, barred }: Step): string {
  const numbers = lit.flatMap((id) => {
    const k = pieces.findIndex((p) => p.item.id === id)
    return k < 0 ? [] : [plain(k + 1, 0)]
  })
  const one = numbers.length === 1 ? ` (${numbers[0]!})` : ''
  const where = facts.filter((f) => WHERE.includes(f.label)).map((f) => f.value)
  const computed = facts.filter((f) => COMPUTED.includes(f.label)).map((f) => f.value)
  const list = does.every((d) => /[.?!]$/.test(d)) ? does.join(' ') : `${capital(does.join('; '))}.`
  const expected = computed.length > 0 ? `Computed: ${computed.join(', ')}.` : null
  const words = [`${[title + one, ...where].join(': ')}.`, barred, expected, list].filter(Boolean).join(' ')
  return bounded(words, MOST_LETTERS)
}

/** Room for the readings of a roll test, beside what is computed. */
export function rollTestTable({ job }: Mounted, analysis: Analysis): TableInput {
  const fmt = formatter(job.displayUnits)
  const { static_g_mm: size, static_angle_deg: angle } = analysis.unbalance
  const computed = hasHeavySide(analysis)
    ? `${fmt.unbalance(size)}, heavy side ${angleText(job, angle, 0)} from ${indexWords(job)}, ${clockPosition(angle)} as drawn`
    : 'no heavy side to speak of'
  const tooLight =
    analysis.by_hand.rolls === 'stays' ? '; too little to roll it: if it rolls, find out why' : ''
  return {
    title: 'Roll test',
    remark: `Computed: ${computed}${tooLight}. Note the plate's angle that points straight down at rest.`,
    columns: [
      { title: 'Try', align: 'middle' },
      { title: 'Down at rest', least: 34 },
      { title: 'Weight hung', least: TO_WRITE },
      { title: 'At radius', least: TO_WRITE },
      { title: 'Remark', least: 40 },
    ],
    rows: ['1', '2', '3'].map((n) => [n, '', '', '', '']),
  }
}

export const SIGN_OFF: TableInput = {
  title: 'Sign-off',
  columns: [
    { title: '', least: 30 },
    { title: 'Name', least: 46 },
    { title: 'Date and time', least: 34 },
    { title: 'Signed', least: 40 },
  ],
  rows: [
    ['Set up by', '', '', ''],
    ['Checked by', '', '', ''],
    ['Released to run', '', '', ''],
  ],
}
