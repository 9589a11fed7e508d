/**
 * Plain hexagon nuts to the threads: across flats and height. Metric: ISO 4032, largest height; inch: ASME
 * B18.2.2, both from memory. mm.
 */
import { convert } from '../units/convert.ts'
import { discArea } from '../geometry/discArea.ts'
import { inchSize, pitchDiameter, type Thread } from './threads.ts'

const METRIC: Readonly<Record<string, readonly [flats: number, height: number]>> = {
  M5: [8, 4.7],
  M6: [10, 5.2],
  M8: [13, 6.8],
  M10: [16, 8.4],
  M12: [18, 10.8],
  M14: [21, 12.8],
  M16: [24, 14.8],
  M18: [27, 15.8],
  M20: [30, 18],
  M22: [34, 19.4],
  M24: [36, 21.5],
  M27: [41, 23.8],
  M30: [46, 25.6],
  M33: [50, 28.7],
  M36: [55, 31],
}
/** Inches, by the size before the pitch. */
const INCH: Readonly<Record<string, readonly [flats: number, height: number]>> = {
  '1/4': [7 / 16, 7 / 32],
  '5/16': [1 / 2, 17 / 64],
  '3/8': [9 / 16, 21 / 64],
  '7/16': [11 / 16, 3 / 8],
  '1/2': [3 / 4, 7 / 16],
  '9/16': [7 / 8, 31 / 64],
  '5/8': [15 / 16, 35 / 64],
  '3/4': [9 / 8, 41 / 64],
  '7/8': [21 / 16, 3 / 4],
  '1': [3 / 2, 55 / 64],
  '1-1/8': [27 / 16, 31 / 32],
  '1-1/4': [15 / 8, 17 / 16],
  '1-3/8': [33 / 16, 75 / 64],
  '1-1/2': [9 / 4, 41 / 32],
}
/** Inches, BS 1083:1965 as printed in Machinery's Handbook: the sizes that Whitworth's two series share. */
const WHITWORTH: Readonly<Record<string, readonly [flats: number, height: number]>> = {
  '1/4': [0.445, 0.2],
  '5/16': [0.525, 0.25],
  '3/8': [0.6, 0.312],
  '7/16': [0.71, 0.375],
  '1/2': [0.82, 0.437],
  '9/16': [0.92, 0.5],
  '5/8': [1.01, 0.562],
  '3/4': [1.2, 0.687],
  '7/8': [1.3, 0.75],
  '1': [1.48, 0.875],
  '1-1/8': [1.67, 1],
  '1-1/4': [1.86, 1.125],
  '1-3/8': [2.05, 1.25],
  '1-1/2': [2.22, 1.375],
}

export interface NutSize {
  readonly flats: number
  readonly height: number
}

/** Null for a thread that the tables do not have. */
export function nutSize(thread: Thread): NutSize | null {
  const metric = METRIC[thread.name]
  if (metric) return { flats: metric[0], height: metric[1] }
  const inch = (thread.standard === 'whitworth' ? WHITWORTH : INCH)[inchSize(thread)]
  if (!inch) return null
  const mm = (v: number) => convert(v, 'in', 'mm')
  return { flats: mm(inch[0]), height: mm(inch[1]) }
}

/** mm across the corners of a hexagon, which a nut sweeps as it turns: 2/√3 of its width across flats. */
export const acrossCorners = ({ flats }: NutSize): number => (2 / Math.sqrt(3)) * flats

/**
 * mm³: a hexagon of the width across flats, (√3/2)·s², less the thread at its pitch diameter d − 0.6495·P. The
 * chamfers of its corners, some hundredths of it, are left in.
 */
export function nutVolume(thread: Thread, { flats, height }: NutSize): number {
  return ((Math.sqrt(3) / 2) * flats ** 2 - discArea(pitchDiameter(thread))) * height
}
