/**
 * Limits of size of holes by their tolerance class: ISO 286-2 (tables as published; IT 5 to 11 up to 500 mm). Holes of
 * letter F, G and H keep the same fundamental deviation in every grade; K, N and P are tabled in grade 7 alone. µm.
 * `ANSI` before H6, H7 or H8 means the inch table of ANSI B4.1.
 */
import { convert } from '../units/convert.ts'

/** Largest nominal size of the step, mm; IT5 … IT11; EI of F and G; EI and ES of K7, N7 and P7. */
type Row = readonly [
  to: number,
  grades: readonly number[],
  f: number,
  g: number,
  k7: readonly [number, number],
  n7: readonly [number, number],
  p7: readonly [number, number],
]

const STEPS: readonly Row[] = [
  [3, [4, 6, 10, 14, 25, 40, 60], 6, 2, [-10, 0], [-14, -4], [-16, -6]],
  // An open data set has G7 of 3 to 6 mm begin at 2: it is 4.
  [6, [5, 8, 12, 18, 30, 48, 75], 10, 4, [-9, 3], [-16, -4], [-20, -8]],
  [10, [6, 9, 15, 22, 36, 58, 90], 13, 5, [-10, 5], [-19, -4], [-24, -9]],
  [18, [8, 11, 18, 27, 43, 70, 110], 16, 6, [-12, 6], [-23, -5], [-29, -11]],
  // The same set has N7 of 18 to 30 mm at −36/−15: it is −28/−7.
  [30, [9, 13, 21, 33, 52, 84, 130], 20, 7, [-15, 6], [-28, -7], [-35, -14]],
  [50, [11, 16, 25, 39, 62, 100, 160], 25, 9, [-18, 7], [-33, -8], [-42, -17]],
  [80, [13, 19, 30, 46, 74, 120, 190], 30, 10, [-21, 9], [-39, -9], [-51, -21]],
  [120, [15, 22, 35, 54, 87, 140, 220], 36, 12, [-25, 10], [-45, -10], [-59, -24]],
  [180, [18, 25, 40, 63, 100, 160, 250], 43, 14, [-28, 12], [-52, -12], [-68, -28]],
  [250, [20, 29, 46, 72, 115, 185, 290], 50, 15, [-33, 13], [-60, -14], [-79, -33]],
  [315, [23, 32, 52, 81, 130, 210, 320], 56, 17, [-36, 16], [-66, -14], [-88, -36]],
  [400, [25, 36, 57, 89, 140, 230, 360], 62, 18, [-40, 17], [-73, -16], [-98, -41]],
  [500, [27, 40, 63, 97, 155, 250, 400], 68, 20, [-45, 18], [-80, -17], [-108, -45]],
]

/**
 * ANSI B4.1, standard tolerances of holes as printed in Machinery's Handbook, 27th ed., p. 663: largest nominal size in
 * inches, then H6, H7 and H8 in thousandths of an inch.
 */
const INCH_STEPS: readonly (readonly [to: number, h6: number, h7: number, h8: number])[] = [
  [0.12, 0.25, 0.4, 0.6],
  [0.24, 0.3, 0.5, 0.7],
  [0.4, 0.4, 0.6, 0.9],
  [0.71, 0.4, 0.7, 1],
  [1.19, 0.5, 0.8, 1.2],
  [1.97, 0.6, 1, 1.6],
  [3.15, 0.7, 1.2, 1.8],
  [3.94, 0.9, 1.4, 2.2],
]
/** in: what rounding leaves of a size at the end of a step. */
const ROUNDED = 1e-9

/** A class to begin with. */
export const USUAL_CLASS = { mm: 'H7', in: 'ANSI H7' } as const

const LEAST_GRADE = 5
/** What is tabled, for a sentence. */
export const HOLE_CLASSES =
  'F, G, H and JS in grades 5 to 11, K7, N7 and P7, up to 500 mm; ANSI H6, H7 and H8 up to 3.94 in'

/** Smallest and largest size, mm. */
export type SizeLimits = readonly [low: number, high: number]

/** Limits of a hole of a nominal diameter in mm and a class such as `H7`; null where the table has none. */
export function holeLimits(nominal: number, name: string): SizeLimits | null {
  const inch = /^\s*ANSI\s*H\s*([678])\s*$/.exec(name)
  if (inch) return inchLimits(nominal, Number(inch[1]) - 6)
  const match = /^\s*(F|G|H|JS|K|N|P)\s*(\d{1,2})\s*$/.exec(name)
  const row = nominal > 0 ? STEPS.find(([to]) => nominal <= to) : undefined
  if (!match || !row) return null
  const deviations = deviationsOf(row, match[1]!, Number(match[2]))
  if (!deviations) return null
  return [nominal + deviations[0] / 1000, nominal + deviations[1] / 1000]
}

/** @param column 0 for H6 */
function inchLimits(nominal: number, column: number): SizeLimits | null {
  const inches = convert(nominal, 'mm', 'in')
  const row = nominal > 0 ? INCH_STEPS.find(([to]) => inches <= to + ROUNDED) : undefined
  return row ? [nominal, nominal + convert(row[column + 1]!, 'mil', 'mm')] : null
}

function deviationsOf(row: Row, letter: string, grade: number): readonly [number, number] | null {
  const [, grades, f, g, k7, n7, p7] = row
  const tolerance = grades[grade - LEAST_GRADE]
  if (tolerance === undefined) return null
  switch (letter) {
    case 'H':
      return [0, tolerance]
    case 'F':
      return [f, f + tolerance]
    case 'G':
      return [g, g + tolerance]
    case 'JS':
      return [-tolerance / 2, tolerance / 2]
  }
  if (grade !== 7) return null
  return { K: k7, N: n7, P: p7 }[letter] ?? null
}
