/** The lists one sets up by: clamps, what weights and blocks are made of, the cuts, and the steps with room to write. */
import type { Analysis } from '../../analysis/result.ts'
import { cutPlaces, cutWords, type CutPlace } from '../../cutting/cutPlace.ts'
import { fastenerOf, fastenerWords } from '../../hardware/fastener.ts'
import { standOf } from '../../holding/stand.ts'
import { isClamp, type Clamp, type Hardware, type Job } from '../../job/schema.ts'
import { angleText, indexWords } from '../../mounting/plateAngle.ts'
import type { Mounted, MountedPiece, MountedToe } from '../../mounting/types.ts'
import { inOrder } from '../../steps/hold.ts'
import type { Step } from '../../steps/step.ts'
import { stepsOf } from '../../steps/steps.ts'
import { clockPosition, formatter, plain, significant, spannerPull } from '../../units/format.ts'
import { convert } from '../../units/convert.ts'
import { dimensionText, hasHeavySide } from '../views/view.ts'
import { bounded } from '../text/bounded.ts'
import type { TableInput } from './table.ts'

/** Room to write a figure in, mm. */
const TO_WRITE = 24
const NONE = '–'

const lengthUnit = ({ displayUnits }: Job): string => (displayUnits === 'in' ? 'in' : 'mm')
const torqueUnit = ({ displayUnits }: Job): string => (displayUnits === 'in' ? 'lbf·ft' : 'N·m')

/** A torque in the unit that the column is headed with. */
export function torqueFigure({ displayUnits }: Job, torque: number): string {
  if (displayUnits === 'mm') return significant(torque, 3)
  return significant(convert(convert(torque, 'N', 'lbf'), 'm', 'ft'), 3)
}

const by = (job: Job, sizes: readonly number[]): string => sizes.map((s) => dimensionText(job, s)).join(' × ')

/** Thread, class and length; a length that is not given is the least that the joint wants. */
function studWords(job: Job, { item, fastenings }: MountedPiece): string {
  const words = fastenerWords(fastenerOf(item))
  const known = fastenings[0]
  if (!known) return words || NONE
  const length =
    known.length === null ? `at least ${dimensionText(job, known.needed)}` : dimensionText(job, known.length)
  return [words || 'stud', length].join(' × ')
}

const torqueCell = (job: Job, item: Hardware): string => {
  const torque = fastenerOf(item)?.torque
  return torque ? torqueFigure(job, torque) : NONE
}

const orderCell = (item: Hardware): string => ('order' in item && item.order ? plain(item.order, 0) : NONE)

/** Null where nothing presses the part. */
export function clampTable(mounted: Mounted): TableInput | null {
  const { job, pieces, setup } = mounted
  const clamps = inOrder(pieces.filter((p) => isClamp(p.item)))
  if (clamps.length === 0) return null
  const rows = clamps.map((piece, i) => {
    const { item, facing } = piece
    const { toe } = standOf(mounted, piece).seen
    const strap = item.kind === 'clamp' ? by(job, strapSize(item)) : NONE
    return [
      plain(i + 1, 0),
      plain(pieces.indexOf(piece) + 1, 0),
      item.kind === 'clamp' ? angleText(job, facing) : NONE,
      strap,
      studWords(job, piece),
      item.kind === 'clamp' ? heelWords(job, item, toe) : NONE,
      item.kind === 'clamp' && item.packing && setup.packing > 0
        ? `${by(job, item.packing.size)} × ${dimensionText(job, setup.packing)}`
        : NONE,
      toe ? dimensionText(job, toe.toWork) : NONE,
      toe?.rest ? dimensionText(job, toe.rest.z) : NONE,
      torqueCell(job, item),
      '',
    ]
  })
  const over = clamps.some((c) => c.shelf) ? 'what it stands on' : 'the plate'
  return {
    title: 'Clamps',
    remark: `In the order of tightening; ${lengthUnit(job)}. Toe: from the stud to the strap's end, and its height over ${over}; it points toward the angle, from ${indexWords(job)}.${pullWords(job, clamps)}`,
    columns: [
      { title: 'Order', align: 'end' },
      { title: 'No', align: 'middle' },
      { title: 'Toward', align: 'end' },
      { title: 'Strap', wraps: true },
      { title: 'Stud' },
      { title: 'Heel' },
      { title: 'Packing', wraps: true },
      { title: 'Toe', align: 'end' },
      { title: 'High', align: 'end' },
      { title: torqueUnit(job), align: 'end' },
      { title: 'Set', least: 11 },
    ],
    rows,
    small: true,
  }
}

/** Torques for which the pull is said. */
const MOST_PULLS = 3

/** What each torque is by hand, the largest first; nothing where none is given. */
function pullWords(job: Job, clamps: readonly MountedPiece[]): string {
  const fmt = formatter(job.displayUnits)
  const torques = new Set(clamps.map((c) => fastenerOf(c.item)?.torque ?? 0).filter((t) => t > 0))
  const words = [...torques]
    .sort((a, b) => b - a)
    .slice(0, MOST_PULLS)
    .map((t) => `${fmt.torque(t)} is ${spannerPull(fmt, t, job.clampingKit?.spanner ?? null)}`)
  return words.length > 0 ? ` ${words.join('; ')}.` : ''
}

const strapSize = ({ strap }: Clamp): number[] => [strap.length, strap.width, strap.thickness]

function heelWords(job: Job, { heel }: Clamp, toe: MountedToe | null): string {
  if (!heel) return NONE
  const height = toe?.heel ?? null
  return `${heel.kind} ${height === null ? 'height not given' : dimensionText(job, height)}`
}

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

/** Null where the setup cuts nothing, or nothing is known of it. */
export function cutTable(mounted: Mounted, analysis: Analysis): TableInput | null {
  const places = cutPlaces(mounted)
  if (places.length === 0) return null
  const { job } = mounted
  const inch = job.displayUnits === 'in'
  const fmt = formatter(job.displayUnits)
  const rows = places.map((place, i) => {
    const { cut, bore, diameter } = place
    const passes = passesOf(place, places)
    const advice = analysis.cutting?.cuts[i]
    return [
      cutWords(cut),
      cut.tool,
      `Ø${dimensionText(job, diameter)}${bore ? toleranceWords(job, place) : ''}`,
      bore
        ? bore.through
          ? 'through'
          : dimensionText(job, place.z1 - place.z0)
        : dimensionText(job, place.z1 - place.z0),
      'depth' in cut ? dimensionText(job, cut.depth) : NONE,
      passes === null ? NONE : plain(passes, 0),
      plain(inch ? convert(cut.speed, 'm', 'ft') : cut.speed, 0),
      inch ? plain(convert(cut.feed, 'mm', 'in'), 4) : plain(cut.feed, 3),
      advice
        ? `${advice.set_rpm === null ? 'none' : plain(advice.set_rpm, 1)} (${plain(advice.ideal_rpm, 0)})`
        : NONE,
      '',
    ]
  })
  return {
    title: 'Cuts',
    remark: `At ${mounted.setup.speed === null ? 'no speed chosen yet' : fmt.speed(mounted.setup.speed)}; speed and feed as planned; rpm to set (wanted at the diameter cut). ${lengthUnit(job)}.`,
    columns: [
      { title: 'Cut', wraps: true },
      { title: 'Tool' },
      { title: 'To', wraps: true },
      { title: 'Deep', align: 'end' },
      { title: 'A pass', align: 'end' },
      { title: 'Passes', align: 'end' },
      { title: inch ? 'ft/min' : 'm/min', align: 'end' },
      { title: inch ? 'in/rev' : 'mm/rev', align: 'end' },
      { title: 'Set rpm', align: 'end' },
      { title: 'Measured', least: TO_WRITE },
    ],
    rows,
    small: true,
  }
}

function toleranceWords(job: Job, { bore, cut }: CutPlace): string {
  if (cut.kind === 'drill' || !bore) return ''
  const { tolerance } = bore.bore
  if (!tolerance) return ', tolerance not given'
  if ('class' in tolerance) return ` ${tolerance.class}`
  return ` (${tolerance.limits.map((l) => dimensionLimit(job, l)).join(' to ')})`
}

/** A limit of size to a thousandth of a millimetre or a ten-thousandth of an inch. */
const dimensionLimit = ({ displayUnits }: Job, mm: number): string =>
  displayUnits === 'in' ? plain(convert(mm, 'mm', 'in'), 4) : plain(mm, 3)

/** From what is there, or what a drill leaves, to the finished size; null where nothing opens the bore. */
function passesOf({ cut, bore }: CutPlace, all: readonly CutPlace[]): number | null {
  if (cut.kind !== 'bore' || !bore) return null
  const drilled = all.flatMap((p) => (p.bore === bore && p.cut.kind === 'drill' ? [p.cut.diameter] : []))
  const start = Math.max(bore.bore.start, ...drilled)
  return start > 0 ? Math.max(1, Math.ceil((bore.bore.diameter - start) / 2 / cut.depth - 1e-9)) : null
}

/** Facts of a step that are set or read off, first come first; the others are in the other lists. */
const SET_TO = ['Torque', 'Height', 'Turned', 'Gap', 'Unbalance, computed', 'Then up to', 'Spindle']
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
      step.facts.find((f) => SET_TO.includes(f.label))?.value ?? '',
      '',
    ]),
    small: true,
    splits: true,
    mostLines: 40,
  }
}

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
  const list = does.every((d) => /[.?!]$/.test(d)) ? does.join(' ') : `${does.join('; ')}.`
  const words = [`${[title + one, ...where].join(': ')}.`, barred, list].filter(Boolean).join(' ')
  return bounded(words, MOST_LETTERS)
}

/** Room for the readings of a roll test, beside what is computed. */
export function rollTestTable({ job }: Mounted, analysis: Analysis): TableInput {
  const fmt = formatter(job.displayUnits)
  const { static_g_mm: size, static_angle_deg: angle } = analysis.unbalance
  const computed = hasHeavySide(analysis)
    ? `${fmt.unbalance(size)}, heavy side ${angleText(job, angle, 0)} from ${indexWords(job)}, ${clockPosition(angle)} as drawn`
    : 'no heavy side to speak of'
  return {
    title: 'Roll test',
    remark: `Computed: ${computed}. Note the plate's angle that points straight down at rest.`,
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
