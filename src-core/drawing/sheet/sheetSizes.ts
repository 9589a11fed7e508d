/**
 * Sheet sizes and borders, from memory. ISO 216 and ISO 5457: A4 upright, A3 to A1 lying, a 20 mm filing margin at the
 * left, 10 mm else. ASME Y14.1: A (8.5 × 11 in) upright, B (17 × 11 in), C (22 × 17 in) and D (34 × 22 in) lying, here
 * with the same filing margin.
 */
export type SheetName = 'A4' | 'A3' | 'A2' | 'A1' | 'ANSI-A' | 'ANSI-B' | 'ANSI-C' | 'ANSI-D'

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
  /** Of text, on a sheet without views. */
  readonly columns: number
}

const FILING = 20
const MARGIN = 10

const size = (name: SheetName, width: number, height: number, columns: number): SheetSize => ({
  name,
  width,
  height,
  left: FILING,
  right: width - MARGIN,
  bottom: MARGIN,
  top: height - MARGIN,
  large: columns > 1,
  columns,
})

export const SHEETS: Readonly<Record<SheetName, SheetSize>> = {
  A4: size('A4', 210, 297, 1),
  A3: size('A3', 420, 297, 2),
  A2: size('A2', 594, 420, 3),
  A1: size('A1', 841, 594, 4),
  'ANSI-A': size('ANSI-A', 215.9, 279.4, 1),
  'ANSI-B': size('ANSI-B', 431.8, 279.4, 2),
  'ANSI-C': size('ANSI-C', 558.8, 431.8, 2),
  'ANSI-D': size('ANSI-D', 863.6, 558.8, 4),
}

/** From small to large, as one cuts them out of one another. */
const SERIES: readonly (readonly SheetName[])[] = [
  ['A4', 'A3', 'A2', 'A1'],
  ['ANSI-A', 'ANSI-B', 'ANSI-C', 'ANSI-D'],
]

/** Sizes of the same series that are larger, the next one first. */
export function largerSheets(name: SheetName): readonly SheetName[] {
  const series = SERIES.find((s) => s.includes(name))!
  return series.slice(series.indexOf(name) + 1)
}

/** As the sheet itself names it. */
export const sizeText = (name: SheetName): string => name.replace('ANSI-', 'ANSI ')

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
