/** Figures for people, in the job's display units: millimetres and kilograms, or inches and pounds. */
import { convert } from './convert.ts'

export type DisplayUnits = 'mm' | 'in'

/** No figure of a lathe job is larger: what is, by sizes that cannot be, is said to be over it. */
const MOST = 1e12

/** Fixed decimals without trailing zeros and without "-0". */
export function plain(value: number, decimals: number): string {
  if (Math.abs(value) > MOST) return `${value < 0 ? 'under -' : 'over '}${MOST}`
  const fixed = value.toFixed(decimals)
  const trimmed = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed
  return trimmed === '-0' ? '0' : trimmed
}

/** `digits` significant figures in plain notation. */
export function significant(value: number, digits: number): string {
  if (value === 0) return '0'
  const decimals = Math.max(0, Math.min(9, digits - 1 - Math.floor(Math.log10(Math.abs(value)))))
  return plain(value, decimals)
}

/** Long whole numbers in groups of three with narrow spaces (ISO 80000-1, 7.3.1). */
export const grouped = (text: string): string =>
  text.replace(/\d{5,}/g, (digits) => digits.replace(/\B(?=(\d{3})+$)/g, '\u202f'))

/** Smaller than this is nought: what arithmetic leaves behind, in any unit shown. */
const NOUGHT = 1e-9

/** As `plain`; what is there but rounds to nought is "under" the least figure shown, so that it is not read as nothing. */
function shown(value: number, decimals: number): string {
  const text = plain(value, decimals)
  if (text !== '0' || Math.abs(value) < NOUGHT) return text
  return `${value < 0 ? 'minus ' : ''}under ${plain(10 ** -decimals, decimals)}`
}

/** As `significant`; what is less than `least` is said to be under it, not written out in noughts. */
function figures(value: number, digits: number, least: number): string {
  const size = Math.abs(value)
  if (size < NOUGHT) return '0'
  if (!(size < least)) return significant(value, digits)
  return `${value < 0 ? 'minus ' : ''}under ${least}`
}

/** A round figure may be so much less or more than what it stands for. */
const ROUNDED = 0.03

/** With as few figures as come near enough: 19.7 is 20, 11.8 is 12. */
function roundFigure(value: number): number {
  const near = [1, 2].map((digits) => Number(value.toPrecision(digits)))
  return near.find((v) => Math.abs(v - value) <= ROUNDED * Math.abs(value)) ?? value
}

/** At most four significant figures: of a mass at a radius no more is known. */
const fourFigures = (value: number): number => Number(value.toPrecision(4))

export interface Formatter {
  readonly units: DisplayUnits
  /** mm to text with unit. */
  length(mm: number): string
  /** A size that is bored to, mm: thousandths of a millimetre, or ten-thousandths of an inch. */
  bored(mm: number): string
  /** kg to text with unit. */
  mass(kg: number): string
  /** g·mm to text with unit: g·mm to four figures, or oz·in to three. */
  unbalance(gmm: number): string
  /** kg/m³ to text with unit: kg/m³, or lb/in³. */
  density(kgM3: number): string
  /** mm² to text with unit: mm², or in². */
  area(mm2: number): string
  /** N/mm² to text with unit: N/mm², or psi to the ten. */
  stress(nMm2: number): string
  force(n: number): string
  torque(nm: number): string
  /** m/s to text with unit. */
  velocity(mps: number): string
  /** J to text with unit. */
  energy(j: number): string
  speed(rpm: number): string
  /** A limit on the speed, rpm, never rounded up: the one form in which it is written everywhere. */
  speedLimit(rpm: number): string
  /** m/min to text with unit: m/min, or ft/min. */
  cuttingSpeed(mMin: number): string
  /** mm a turn to text with unit: mm/rev, or in/rev. */
  feed(mm: number): string
  /** A small length that is measured, mm: hundredths of a millimetre, or thou. */
  fine(mm: number): string
  /** How far a length may be out, mm, as a round figure: it is an estimate. */
  give(mm: number): string
  /** A size that is set with gauge and indicator. */
  size(mm: number): string
  angle(degrees: number): string
  percent(share: number): string
}

const metric: Formatter = {
  units: 'mm',
  length: (v) => `${shown(v, Math.abs(v) < 100 ? 1 : 0)} mm`,
  bored: (v) => `${plain(v, 3)} mm`,
  mass: (v) => (Math.abs(v) < 1 ? `${shown(v * 1000, 0)} g` : `${significant(v, 3)} kg`),
  unbalance: (v) => `${shown(fourFigures(v), v < 100 ? 1 : 0)} g·mm`,
  density: (v) => `${plain(v, 0)} kg/m³`,
  area: (v) => `${shown(v, 0)} mm²`,
  stress: (v) => `${shown(v, 0)} N/mm²`,
  force: (v) => `${figures(v, v < 100 ? 2 : 3, 0.001)} N`,
  torque: (v) => `${figures(v, 3, 0.001)} N·m`,
  velocity: (v) => `${figures(v, 2, 0.001)} m/s`,
  energy: (v) => `${figures(v, 2, 0.001)} J`,
  speed: (v) => `${shown(v, v < 100 ? 1 : 0)} rpm`,
  speedLimit: (v) => `${plain(Math.floor(v), 0)} rpm`,
  cuttingSpeed: (v) => `${figures(v, v < 100 ? 2 : 3, 0.1)} m/min`,
  feed: (v) => `${figures(v, 2, 0.0001)} mm/rev`,
  fine: (v) => `${shown(v, 2)} mm`,
  give: (v) => `${shown(v, 2)} mm`,
  size: (v) => `${v.toFixed(2)} mm`,
  angle: (v) => `${plain(v, 1)}°`,
  percent: (v) => `${figures(v * 100, 2, 0.01)} %`,
}

const inch: Formatter = {
  ...metric,
  units: 'in',
  bored: (v) => `${plain(convert(v, 'mm', 'in'), 4)} in`,
  length: (v) => `${shown(convert(v, 'mm', 'in'), 3)} in`,
  mass: (v) => `${figures(convert(v, 'kg', 'lbm'), 3, 0.001)} lb`,
  unbalance: (v) => `${figures(convert(convert(v, 'g', 'oz'), 'mm', 'in'), 3, 0.001)} oz·in`,
  density: (v) => `${significant(convert(v, 'kg/m^3', 'lbm/inch^3'), 3)} lb/in³`,
  area: (v) => `${figures(convert(convert(v, 'mm', 'in'), 'mm', 'in'), 3, 0.001)} in²`,
  stress: (v) =>
    `${plain(10 * Math.round(convert(v, 'N', 'lbf') / convert(1, 'mm', 'in') ** 2 / 10), 0)} psi`,
  force: (v) => `${figures(convert(v, 'N', 'lbf'), 3, 0.001)} lbf`,
  torque: (v) => `${figures(convert(convert(v, 'N', 'lbf'), 'm', 'ft'), 3, 0.001)} lbf·ft`,
  cuttingSpeed: (v) => `${shown(convert(v, 'm/minute', 'ft/minute'), 0)} ft/min`,
  feed: (v) => `${figures(convert(v, 'mm', 'in'), 2, 0.00001)} in/rev`,
  fine: (v) => `${shown(convert(v, 'mm', 'mil'), 1)} thou`,
  give: (v) => `${shown(roundFigure(convert(v, 'mm', 'mil')), 1)} thou`,
  size: (v) => `${convert(v, 'mm', 'in').toFixed(4)} in`,
  velocity: (v) => `${figures(convert(v, 'm', 'ft'), 2, 0.001)} ft/s`,
  energy: (v) => `${figures(convert(convert(v, 'N', 'lbf'), 'm', 'ft'), 2, 0.001)} ft·lbf`,
}

/** Writes figures of documents (mm, kg, g·mm, N, N·m …) in the units shown. */
export function formatter(units: DisplayUnits): Formatter {
  return units === 'in' ? inch : metric
}

/** mm: a spanner of usual length, a foot where inches are used. */
export const USUAL_SPANNER: Readonly<Record<DisplayUnits, number>> = { mm: 300, in: convert(12, 'in', 'mm') }

/** A torque in N·m as the pull that makes it at the end of a spanner of a length in mm; null: one of usual length. */
export function spannerPull(fmt: Formatter, torque: number, spanner: number | null): string {
  const length = spanner ?? USUAL_SPANNER[fmt.units]
  return `${fmt.force((torque * 1000) / length)} on a spanner of ${fmt.length(length)}`
}

/** What is so many mm long, wide and high, in one piece of text. */
export const sizesText = (fmt: Pick<Formatter, 'length'>, sizes: readonly number[]): string =>
  sizes.map((mm) => fmt.length(mm)).join(' × ')

/** An unbalance in g·mm as the weight that makes it at a radius in mm. */
export const weightAtRadius = (fmt: Formatter, unbalance: number, radius: number): string =>
  `${fmt.mass(unbalance / 1000 / radius)} at ${fmt.length(radius)}`

/** Clock position of a direction, degrees counter-clockwise from +x (3 o'clock), to the half hour. */
export function clockPosition(degrees: number): string {
  const halfHours = ((Math.round((90 - degrees) / 15) % 24) + 24) % 24
  const hour = Math.floor(halfHours / 2) || 12
  return halfHours % 2 === 0 ? `${hour} o'clock` : `half past ${hour}`
}

/** A direction on the plate: its angle, and its clock position as drawn. */
export const directionWords = (fmt: Formatter, degrees: number): string =>
  `${fmt.angle(degrees)} (${clockPosition(degrees)})`
