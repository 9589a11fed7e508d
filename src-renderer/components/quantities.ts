/** What a number field may hold: the job's unit, how it is shown in either system, and what to call it. */
import { capital } from '../../src-core/words/capital.ts'
import { convert, type UnitName } from '../../src-core/units/convert.ts'
import { readExpression, type Expression } from '../../src-core/units/expression.ts'
import { plain, type DisplayUnits } from '../../src-core/units/format.ts'

interface Shown {
  /** '' for a plain number. */
  readonly unit: UnitName | ''
  readonly label: string
  readonly decimals: number
  /** Shown value per job value where the unit has no name. */
  readonly factor?: number
}

interface Quantity {
  /** Unit in the job. */
  readonly job: UnitName | ''
  readonly words: string
  readonly mm: Shown
  readonly in: Shown
}

const same = (job: UnitName | '', words: string, shown: Shown): Quantity => ({
  job,
  words,
  mm: shown,
  in: shown,
})

export const QUANTITIES = {
  length: {
    job: 'mm',
    words: 'a length',
    mm: { unit: 'mm', label: 'mm', decimals: 3 },
    in: { unit: 'in', label: 'in', decimals: 4 },
  },
  mass: {
    job: 'kg',
    words: 'a mass',
    mm: { unit: 'kg', label: 'kg', decimals: 4 },
    in: { unit: 'lbm', label: 'lb', decimals: 4 },
  },
  /** On a letter scale. */
  grams: {
    job: 'g',
    words: 'a mass',
    mm: { unit: 'g', label: 'g', decimals: 1 },
    in: { unit: 'oz', label: 'oz', decimals: 3 },
  },
  angle: same('deg', 'an angle', { unit: 'deg', label: '°', decimals: 3 }),
  rpm: same('', 'a speed', { unit: '', label: 'rpm', decimals: 1 }),
  seconds: same('', 'a time in seconds', { unit: '', label: 's', decimals: 2 }),
  torque: {
    job: 'N m',
    words: 'a torque',
    mm: { unit: 'N m', label: 'N·m', decimals: 2 },
    in: { unit: 'lbf ft', label: 'lbf·ft', decimals: 2 },
  },
  force: {
    job: 'N',
    words: 'a force',
    mm: { unit: 'N', label: 'N', decimals: 1 },
    in: { unit: 'lbf', label: 'lbf', decimals: 2 },
  },
  cuttingSpeed: {
    job: 'm/minute',
    words: 'a cutting speed',
    mm: { unit: 'm/minute', label: 'm/min', decimals: 1 },
    in: { unit: 'ft/minute', label: 'ft/min', decimals: 0 },
  },
  density: {
    job: 'kg/m^3',
    words: 'a density',
    mm: { unit: 'kg/m^3', label: 'kg/m³', decimals: 0 },
    in: { unit: 'lbm/inch^3', label: 'lb/in³', decimals: 4 },
  },
  unbalance: {
    job: '',
    words: 'an unbalance',
    mm: { unit: '', label: 'g·mm', decimals: 1 },
    in: { unit: '', label: 'oz·in', decimals: 3, factor: convert(1, 'g', 'oz') * convert(1, 'mm', 'in') },
  },
  feed: {
    job: 'mm',
    words: 'a feed',
    mm: { unit: 'mm', label: 'mm/rev', decimals: 3 },
    in: { unit: 'in', label: 'in/rev', decimals: 4 },
  },
  percent: same('', 'a percentage', { unit: '', label: '%', decimals: 2, factor: 100 }),
  grade: same('', 'a grade', { unit: '', label: 'mm/s', decimals: 2 }),
  count: same('', 'a count', { unit: '', label: '', decimals: 0 }),
  pixels: same('', 'a number of pixels', { unit: '', label: 'px', decimals: 2 }),
  ratio: same('', 'a plain number', { unit: '', label: '', decimals: 4 }),
} as const satisfies Record<string, Quantity>

export type QuantityName = keyof typeof QUANTITIES

export const shownIn = (name: QuantityName, system: DisplayUnits): Shown => QUANTITIES[name][system]

/** A job's value as the field shows it, without its unit. */
export function quantityText(name: QuantityName, value: number, system: DisplayUnits): string {
  const q: Quantity = QUANTITIES[name]
  const shown = q[system]
  const converted =
    shown.factor !== undefined
      ? value * shown.factor
      : shown.unit === '' || q.job === ''
        ? value
        : convert(value, q.job, shown.unit)
  return plain(converted, shown.decimals)
}

/** What an empty field takes, as an example of how it is written. */
export function exampleOf(name: QuantityName, system: DisplayUnits): string {
  if (name === 'length') return system === 'in' ? 'such as 3-1/4' : 'such as 12.5'
  if (name === 'mass') return system === 'in' ? 'such as 2 lb 8 oz' : 'such as 1.2'
  return ''
}

export interface Bounds {
  readonly min?: number | undefined
  readonly max?: number | undefined
  /** `min` itself is refused. */
  readonly above?: boolean | undefined
  readonly whole?: boolean | undefined
}

/** What stands before the field's own unit, where the parser does not know that: %, mm/rev, g·mm. */
function withoutUnit(text: string, { unit, label }: Shown): string {
  const given = text.trimEnd()
  return label !== unit && given.endsWith(label) && (unit === '' || label.endsWith('/rev'))
    ? given.slice(0, -label.length)
    : text
}

/** What was typed, in the job's unit, or why not. */
export function readQuantity(
  name: QuantityName,
  text: string,
  system: DisplayUnits,
  bounds: Bounds = {},
): Expression {
  const q: Quantity = QUANTITIES[name]
  const shown = q[system]
  const read = readExpression(withoutUnit(text, shown), { unit: shown.unit, kind: capital(q.words) })
  if (!read.ok) return read
  const raw =
    shown.factor !== undefined
      ? read.value / shown.factor
      : shown.unit === '' || q.job === ''
        ? read.value
        : convert(read.value, shown.unit, q.job)
  // Twelve digits: what a conversion adds beyond them is not meant.
  const value = Number(raw.toPrecision(12))
  const figure = (v: number) => `${quantityText(name, v, system)} ${shown.label}`.trim()
  if (bounds.whole && !Number.isInteger(value)) return { ok: false, reason: 'A whole number is wanted.' }
  if (bounds.min !== undefined && (value < bounds.min || (bounds.above && value === bounds.min)))
    return {
      ok: false,
      reason: `It must be ${bounds.above ? 'more than' : 'at least'} ${figure(bounds.min)}.`,
    }
  if (bounds.max !== undefined && value > bounds.max)
    return { ok: false, reason: `It can be at most ${figure(bounds.max)}.` }
  return { ok: true, value }
}
