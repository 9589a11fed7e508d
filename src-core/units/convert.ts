/**
 * Unit conversion by the units' definitions. Inch, foot and pound are exact by the agreement of 1959 (0.0254 m,
 * 0.3048 m, 0.45359237 kg); an ounce is 1/16 lb; a pound-force is a pound under standard gravity, 9.80665 m/s².
 */
const INCH = 0.0254
const FOOT = 0.3048
const POUND = 0.45359237
const POUND_FORCE = POUND * 9.80665

/** One unit in the SI's, by dimension; named as `readExpression` names them. */
const UNITS = {
  length: { um: 1e-6, mm: 1e-3, cm: 1e-2, dm: 0.1, m: 1, mil: 2.54e-5, in: INCH, ft: FOOT },
  mass: { g: 1e-3, kg: 1, oz: POUND / 16, lbm: POUND },
  angle: { deg: Math.PI / 180 },
  force: { N: 1, lbf: POUND_FORCE },
  torque: { 'N m': 1, 'lbf ft': POUND_FORCE * FOOT },
  speed: { 'm/minute': 1 / 60, 'ft/minute': FOOT / 60 },
  density: { 'kg/m^3': 1, 'lbm/inch^3': POUND / INCH ** 3 },
} as const

type Dimensions = typeof UNITS
type Dimension = keyof Dimensions
type UnitsOf<D extends Dimension> = Extract<keyof Dimensions[D], string>
export type UnitName = { [D in Dimension]: UnitsOf<D> }[Dimension]

const known = new Map<string, { readonly dimension: string; readonly si: number }>(
  Object.entries(UNITS).flatMap(([dimension, units]) =>
    Object.entries(units).map(([name, si]) => [name, { dimension, si }] as const),
  ),
)

/** `value` in unit `from`, in unit `to`; throws RangeError unless both are of one dimension. */
export function convert(value: number, from: UnitName, to: UnitName): number {
  if (from === to) return value
  const [a, b] = [known.get(from), known.get(to)]
  if (a === undefined || b === undefined || a.dimension !== b.dimension)
    throw new RangeError(`"${from}" cannot be told in "${to}"`)
  return value * (a.si / b.si)
}

/** mm of a size in inches, to a tenth of a micrometre, so that no tail of digits stands in a job. */
export const inches = (size: number): number => Math.round(convert(size, 'in', 'mm') * 1e4) / 1e4

/** A length in mm to what a rule of a shop's own units shows: millimetres, or sixteenths. Returns mm. */
export const byRule = (mm: number, units: 'mm' | 'in'): number =>
  // Divided by the inch half a sixteenth stays half, and goes up.
  units === 'in' ? inches(Math.round((mm / convert(1, 'in', 'mm')) * 16) / 16) : Math.round(mm)

/** A round size to start from in a shop's own units: so many mm, or inches. Returns mm. */
export const sizeFor = (units: 'mm' | 'in', mm: number, inch: number): number =>
  units === 'in' ? inches(inch) : mm
