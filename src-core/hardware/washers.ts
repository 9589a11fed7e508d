/**
 * Washers by thread: hole, outside diameter, thickness. mm.
 *
 * Plain: ISO 7089; inch: ASME B18.21.1, type A wide. Large: ISO 7093. Both from memory. Clamping washers: DIN 6340 as
 * an open data set has them.
 */
import { discArea } from '../geometry/discArea.ts'
import { convert } from '../units/convert.ts'
import { inchSize, type Thread } from './threads.ts'

export interface Washer {
  readonly hole: number
  readonly outside: number
  readonly thickness: number
}
export type WasherForm = 'plain' | 'large' | 'clamping'
type Rows = Readonly<Record<string, readonly [hole: number, outside: number, thickness: number]>>

const METRIC: Readonly<Record<WasherForm, Rows>> = {
  plain: {
    M5: [5.3, 10, 1],
    M6: [6.4, 12, 1.6],
    M8: [8.4, 16, 1.6],
    M10: [10.5, 20, 2],
    M12: [13, 24, 2.5],
    M14: [15, 28, 2.5],
    M16: [17, 30, 3],
    M18: [19, 34, 3],
    M20: [21, 37, 3],
    M22: [23, 39, 3],
    M24: [25, 44, 4],
    M27: [28, 50, 4],
    M30: [31, 56, 4],
    M33: [34, 60, 5],
    M36: [37, 66, 5],
  },
  large: {
    M5: [5.3, 15, 1.2],
    M6: [6.4, 18, 1.6],
    M8: [8.4, 24, 2],
    M10: [10.5, 30, 2.5],
    M12: [13, 37, 3],
    M16: [17, 50, 3],
    M20: [22, 60, 4],
    M24: [26, 72, 5],
    M30: [33, 92, 6],
    M36: [39, 110, 8],
  },
  clamping: {
    M8: [8.4, 23, 4],
    M10: [10.5, 26, 4],
    M12: [13, 35, 5],
    M16: [17, 45, 6],
    M20: [21, 50, 6],
  },
}
/** Inches, by the size before the pitch. */
const INCH: Rows = {
  '1/4': [0.312, 0.734, 0.065],
  '5/16': [0.375, 0.875, 0.083],
  '3/8': [0.438, 1, 0.083],
  '7/16': [0.5, 1.25, 0.083],
  '1/2': [0.562, 1.375, 0.109],
  '9/16': [0.625, 1.469, 0.109],
  '5/8': [0.688, 1.75, 0.134],
  '3/4': [0.812, 2, 0.148],
  '7/8': [0.938, 2.25, 0.165],
  '1': [1.062, 2.5, 0.165],
  '1-1/8': [1.25, 2.75, 0.165],
  '1-1/4': [1.375, 3, 0.165],
  '1-3/8': [1.5, 3.25, 0.18],
  '1-1/2': [1.625, 3.5, 0.18],
}

/** Null for a thread that the table of the form does not have; inch threads have plain ones only. */
export function washerSize(thread: Thread, form: WasherForm = 'plain'): Washer | null {
  const unit = thread.standard === 'metric' ? 1 : convert(1, 'in', 'mm')
  const inch = form === 'plain' ? INCH[inchSize(thread)] : undefined
  const found = thread.standard === 'metric' ? METRIC[form][thread.name] : inch
  if (!found) return null
  const [hole, outside, thickness] = found
  return { hole: hole * unit, outside: outside * unit, thickness: thickness * unit }
}

/** mm³ of a ring. */
export const washerVolume = ({ hole, outside, thickness }: Washer): number =>
  (discArea(outside) - discArea(hole)) * thickness

/** mm: mean radius of the ring that a washer presses on, from a thread's hole to its own rim. */
export const washerMeanRadius = (thread: Thread, diameter: number): number =>
  (diameter + (washerSize(thread)?.hole ?? thread.diameter)) / 4
