/** Sheet sizes and borders: ISO 5457 A4 and A3 (20 mm filing margin at the left, 10 mm else), ASME Y14.1 A and B. */
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

const IN = 25.4

function size(
  name: SheetName,
  width: number,
  height: number,
  margin: number,
  filing: number,
  large: boolean,
): SheetSize {
  return {
    name,
    width,
    height,
    left: filing,
    right: width - margin,
    bottom: margin,
    top: height - margin,
    large,
  }
}

export const SHEETS: Readonly<Record<SheetName, SheetSize>> = {
  A4: size('A4', 297, 210, 10, 20, false),
  A3: size('A3', 420, 297, 10, 20, true),
  'ANSI-A': size('ANSI-A', 11 * IN, 8.5 * IN, 10, 20, false),
  'ANSI-B': size('ANSI-B', 17 * IN, 11 * IN, 12.7, 20, true),
}

/** Scales of ISO 5455, sheet over model, largest first. */
export const SCALES = [2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20] as const

/** "1:2" for 0.5, "2:1" for 2. */
export const scaleText = (scale: number): string =>
  scale >= 1 ? `${Math.round(scale)}:1` : `1:${Math.round(1 / scale)}`
