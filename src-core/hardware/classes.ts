/** Strength classes of studs and screws: stress at proof load and at yield, N/mm². d is the nominal diameter in mm. */
import { convert } from '../units/convert.ts'

/** N/mm² in one lbf/in². */
const PSI = convert(1, 'lbf', 'N') / convert(1, 'in', 'mm') ** 2
const INCH = convert(1, 'in', 'mm')

interface StrengthClass {
  readonly proof: (d: number) => number
  readonly yields: (d: number) => number
  /** The largest diameter that the class is made in, mm. */
  readonly upTo?: number
}

const row = (proof: number, yields: number): StrengthClass => ({ proof: () => proof, yields: () => yields })

/**
 * ISO 898-1. Proof stress of 4.6, 8.8, 10.9 and 12.9 agrees with the published loads; that of the others is from memory.
 * Yield is what the designation says, first figure × 100 × second figure / 10: the least that the standard allows is
 * that or a little more.
 */
export const METRIC_CLASSES: Readonly<Record<string, StrengthClass>> = {
  '4.6': row(225, 240),
  '5.6': row(280, 300),
  '5.8': row(380, 400),
  '6.8': row(440, 480),
  '8.8': { proof: (d) => (d <= 16 ? 580 : 600), yields: () => 640 },
  '9.8': { ...row(650, 720), upTo: 16 },
  '10.9': row(830, 900),
  '12.9': row(970, 1080),
}

const upToThreeQuarters = (d: number) => d <= 0.75 * INCH + 1e-6
const psi = (proof: number, yields: number): StrengthClass => row(proof * PSI, yields * PSI)

/**
 * SAE J429, sizes to 1 in; yields from memory. Grade 2 falls above ¾ in. B7 is ASTM A193: yield 105,000 lbf/in², from
 * memory; it states no proof load, so nine tenths of yield stands for it, below what J429 has for its grades.
 */
export const UNIFIED_GRADES: Readonly<Record<string, StrengthClass>> = {
  'grade 2': {
    proof: (d) => (upToThreeQuarters(d) ? 55_000 : 33_000) * PSI,
    yields: (d) => (upToThreeQuarters(d) ? 57_000 : 36_000) * PSI,
  },
  'grade 5': psi(85_000, 92_000),
  'grade 8': psi(120_000, 130_000),
  B7: psi(0.9 * 105_000, 105_000),
}

/** A Whitworth stud is as strong as the bar it is cut from: any of the classes and grades, on its own core. */
export const WHITWORTH_CLASSES: Readonly<Record<string, StrengthClass>> = {
  ...METRIC_CLASSES,
  ...UNIFIED_GRADES,
}

/** Proof loads in N of the classes that a thread is made in: stress × stress area. */
export const proofLoads = (
  classes: Readonly<Record<string, StrengthClass>>,
  diameter: number,
  stressArea: number,
): Record<string, number> =>
  Object.fromEntries(
    Object.entries(classes)
      .filter(([, c]) => diameter <= (c.upTo ?? Infinity))
      .map(([name, c]) => [name, c.proof(diameter) * stressArea]),
  )
