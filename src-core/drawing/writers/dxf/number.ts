import type { Point } from '../../../geometry/types.ts'
import { formatNumber } from '../formatNumber.ts'

/** Six decimals: 1 nm on a mm sheet, 25 nm on an inch sheet. More could turn up as an exponent in the file. */
const DECIMALS = 6

/**
 * The number to six decimals, so that no exponent, "-0" or "NaN" reaches the file.
 *
 * @throws RangeError if it is not finite
 */
export function dxfNumber(value: number): number {
  return Number(formatNumber(value, DECIMALS))
}

/** A point of the sheet (mm) in drawing units, `unit` drawing units a millimetre. */
export function dxfPoint(p: Point, unit: number): { x: number; y: number; z: number } {
  return { x: dxfNumber(p.x * unit), y: dxfNumber(p.y * unit), z: 0 }
}
