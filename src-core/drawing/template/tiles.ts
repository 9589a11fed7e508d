/** Divides a square at full size over sheets of paper. mm. */
import type { Bounds } from '../placing/inkMap.ts'
import { SHEETS, type SheetName } from '../sheet/sheetSizes.ts'

/** What printers leave blank, mm. */
export const MARGIN = 10
/** Left of the tile and over it, for crop marks, the neighbours' names and a check line. */
const RIM = 7
/** Right of the tile and under it: what the next sheet covers. */
export const OVERLAP = 8
/** Beyond that, for the name of the next sheet. */
const NAMES = 4.5
/** Under all of it, for what the sheet is, the map and a check line. */
export const CAPTION = 30
/** More sheets than this are no template. */
const MOST_SHEETS = 100

export interface Tiling {
  readonly paper: { readonly width: number; readonly height: number }
  /** The tile's place on its sheet. */
  readonly tile: Bounds
  readonly columns: number
  readonly rows: number
  /** Lower left corner of the whole, in the plate's frame. */
  readonly origin: { readonly x: number; readonly y: number }
}

/**
 * The fewest sheets, upright or lying, that cover a square of `reach` mm each way from the axis. The axis is kept off
 * the cuts by what room there is.
 *
 * @throws RangeError where that takes more than 100 sheets
 */
export function tilePlate(reach: number, name: SheetName): Tiling {
  const { width, height } = SHEETS[name]
  const upright = tiling(reach, Math.min(width, height), Math.max(width, height))
  const lying = tiling(reach, Math.max(width, height), Math.min(width, height))
  const best = lying.columns * lying.rows < upright.columns * upright.rows ? lying : upright
  const count = best.columns * best.rows
  if (count > MOST_SHEETS)
    throw new RangeError(
      `The plate takes ${count} sheets of ${name} at full size; no more than ${MOST_SHEETS} are drawn.`,
    )
  return best
}

function tiling(reach: number, width: number, height: number): Tiling {
  const tile = {
    x0: MARGIN + RIM,
    y0: MARGIN + CAPTION + NAMES + OVERLAP,
    x1: width - MARGIN - NAMES - OVERLAP,
    y1: height - MARGIN - RIM,
  }
  const across = tile.x1 - tile.x0
  const up = tile.y1 - tile.y0
  const columns = Math.ceil((2 * reach) / across)
  const rows = Math.ceil((2 * reach) / up)
  return {
    paper: { width, height },
    tile,
    columns,
    rows,
    origin: { x: start(reach, across, columns), y: start(reach, up, rows) },
  }
}

/** With an even count the middle would be a cut: the whole is moved by half the room that is left over. */
function start(reach: number, size: number, count: number): number {
  const room = count * size - 2 * reach
  return count % 2 === 0 ? -reach - Math.min(room, size / 2) : -(count * size) / 2
}

/** "B2" for the second row from the top, second column. */
export const tileName = (column: number, row: number): string =>
  `${String.fromCharCode(65 + row)}${column + 1}`
