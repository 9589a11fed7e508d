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

const upToOne = (d: number) => d <= INCH + 1e-6

/**
 * SAE J429, sizes to 1½ in; yields, and proof of grade 5 above 1 in, from memory. Grade 2 falls above ¾ in, grade 5 above 1 in. B7 is ASTM A193: yield 105,000 lbf/in², from
 * memory; it states no proof load, so nine tenths of yield stands for it, below what J429 has for its grades.
 */
export const UNIFIED_GRADES: Readonly<Record<string, StrengthClass>> = {
  'grade 2': {
    proof: (d) => (upToThreeQuarters(d) ? 55_000 : 33_000) * PSI,
    yields: (d) => (upToThreeQuarters(d) ? 57_000 : 36_000) * PSI,
  },
  'grade 5': {
    proof: (d) => (upToOne(d) ? 85_000 : 74_000) * PSI,
    yields: (d) => (upToOne(d) ? 92_000 : 81_000) * PSI,
  },
  'grade 8': psi(120_000, 130_000),
  B7: psi(0.9 * 105_000, 105_000),
}

/** N/mm² in one long ton to the square inch. */
const TSI = 2240 * PSI
const NINE_TENTHS = 0.9
/** Yield in tons to the square inch; nine tenths of it stands for the proof stress. */
const tons = (yields: number): StrengthClass => row(NINE_TENTHS * yields * TSI, yields * TSI)

/**
 * Grades of BS 1083 by the letters of their steels: A of 28 tons to the square inch, R of 45, S of 50 and T of 55. Yields
 * 16, 34, 38 and 44, the lowest of the steels' (BS 970, from memory); proof stresses are not known, so nine tenths of yield
 * stands for them.
 */
const BRITISH_GRADES: Readonly<Record<string, StrengthClass>> = {
  'grade A': tons(16),
  'grade R': tons(34),
  'grade S': tons(38),
  'grade T': tons(44),
}

/** A Whitworth stud is as strong as the bar it is cut from: any of the classes and grades, on its own core. */
export const WHITWORTH_CLASSES: Readonly<Record<string, StrengthClass>> = {
  ...BRITISH_GRADES,
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
