/**
 * Sheet sizes and borders. ISO 5457: A4 upright and A3 lying, a 20 mm filing margin at the left, 10 mm else. ASME
 * Y14.1: A (8.5 × 11 in, upright) and B (17 × 11 in), here with the same filing margin.
 */
export type SheetName = 'A4' | 'A3' | 'ANSI-A' | 'ANSI-B'

export interface SheetSize {
  readonly name: SheetName
  readonly width: number
  readonly height: number
  /** Drawing space within the frame. */
  readonly left: number
  readonly right: number
  readonly bottom: number
  readonly top: number
  /** Whether views, lists and notes share one sheet. */
  readonly large: boolean
}

const FILING = 20
const MARGIN = 10

const size = (name: SheetName, width: number, height: number, large: boolean): SheetSize => ({
  name,
  width,
  height,
  left: FILING,
  right: width - MARGIN,
  bottom: MARGIN,
  top: height - MARGIN,
  large,
})

export const SHEETS: Readonly<Record<SheetName, SheetSize>> = {
  A4: size('A4', 210, 297, false),
  A3: size('A3', 420, 297, true),
  // 8.5 by 11 in, and 17 by 11 in.
  'ANSI-A': size('ANSI-A', 215.9, 279.4, false),
  'ANSI-B': size('ANSI-B', 431.8, 279.4, true),
}

/** Scales of ISO 5455, sheet over model, largest first. */
export const SCALES = [
  50,
  20,
  10,
  5,
  2,
  1,
  1 / 2,
  1 / 5,
  1 / 10,
  1 / 20,
  1 / 50,
  1 / 100,
  1 / 200,
  1 / 500,
  1 / 1000,
  1 / 2000,
  1 / 5000,
  1 / 10000,
] as const

/** "1:2" for 0.5, "2:1" for 2. */
export const scaleText = (scale: number): string =>
  scale >= 1 ? `${round(scale)}:1` : `1:${round(1 / scale)}`

const round = (value: number): number => Math.round(value * 1000) / 1000
