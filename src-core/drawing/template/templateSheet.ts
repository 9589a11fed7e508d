/** One sheet of the paper template: its piece of the plate, what joins where, what it is, and lines to check the print by. */
import { breakText, SUBSTITUTE, wrapText } from '../text/textWidth.ts'
import { LETTERING } from '../text/lettering.ts'
import type { Drawing, PlainPrimitive } from '../model/model.ts'
import { box, line, text } from '../model/primitives.ts'
import type { Point } from '../../geometry/types.ts'
import { PRECEDENCE } from '../../words/cautions.ts'
import { checkLine } from '../sheet/frame.ts'
import { LACKED } from '../sheet/footer.ts'
import type { DisplayUnits } from '../../units/format.ts'
import { clipTo } from './clip.ts'
import { CAPTION, MARGIN, OVERLAP, tileName, type Tiling } from './tiles.ts'

export interface TemplateSheet {
  readonly tiling: Tiling
  readonly column: number
  readonly row: number
  readonly units: DisplayUnits
  /** What it is of, for the file and for the caption's first line. */
  readonly title: string
  /** Document number, revision, date and check sum, as far as there are any. */
  readonly issue: string
  /** Plate frame: lines that run on from sheet to sheet, and what stands on one sheet alone. */
  readonly lines: readonly PlainPrimitive[]
  readonly marks: readonly PlainPrimitive[]
}

const HOW =
  'Cut the left and the upper edge along the frame. Lay them on the frames of the sheets before, so that the lines run on, and glue. This side out, as seen from the tailstock. Prick through at the crosses.'

export function templateSheet(input: TemplateSheet): Drawing {
  const { tiling, column, row } = input
  const { paper, tile, columns, rows, origin } = tiling
  const dx = tile.x0 - origin.x - column * (tile.x1 - tile.x0)
  const dy = tile.y0 - origin.y - (rows - 1 - row) * (tile.y1 - tile.y0)
  const here = (p: PlainPrimitive) => moved(p, dx, dy)
  // Beyond the frame as far as the next sheet covers it.
  const wide = {
    ...tile,
    x1: tile.x1 + (column + 1 < columns ? OVERLAP : 0),
    y0: tile.y0 - (row + 1 < rows ? OVERLAP : 0),
  }
  const pieces = [...clipTo(input.lines.map(here), wide), ...clipTo(input.marks.map(here), tile)]
  return {
    title: `${input.title}, plate template ${tileName(column, row)}`,
    width: paper.width,
    height: paper.height,
    primitives: [
      ...pieces,
      box('outline-thin', tile.x0, tile.y0, tile.x1 - tile.x0, tile.y1 - tile.y0),
      ...cropMarks(tiling),
      ...neighbours(tiling, column, row),
      ...caption(
        input,
        pieces.some((p) => p.kind === 'text' && p.text.includes(SUBSTITUTE)),
      ),
      ...assemblyMap(input),
      ...checkLines(tiling, input.units),
    ],
  }
}

function moved(p: PlainPrimitive, dx: number, dy: number): PlainPrimitive {
  switch (p.kind) {
    case 'path':
      return {
        ...p,
        steps: p.steps.map((s) => (s.to === 'close' ? s : { ...s, x: s.x + dx, y: s.y + dy })),
      }
    case 'circle':
      return { ...p, centre: { x: p.centre.x + dx, y: p.centre.y + dy } }
    case 'text':
      return { ...p, at: { x: p.at.x + dx, y: p.at.y + dy } }
  }
}

/** Short lines outside the corners of the tile, in line with the edges that are cut. */
function cropMarks({ tile: { x0, y0, x1, y1 } }: Tiling): PlainPrimitive[] {
  return [
    line('outline-thin', { x: x0, y: y1 + 1.5 }, { x: x0, y: y1 + 5.5 }),
    line('outline-thin', { x: x0, y: y0 - 1.5 }, { x: x0, y: y0 - 5.5 }),
    line('outline-thin', { x: x0 - 1.5, y: y1 }, { x: x0 - 5.5, y: y1 }),
    line('outline-thin', { x: x1 + 1.5, y: y1 }, { x: x1 + 5.5, y: y1 }),
  ]
}

/** Which tile joins at each edge: beyond the strip that it covers, above the check line at the left. */
function neighbours({ tile, columns, rows }: Tiling, column: number, row: number): PlainPrimitive[] {
  const cx = (tile.x0 + tile.x1) / 2
  const high = tile.y0 + 0.75 * (tile.y1 - tile.y0)
  const sides: readonly [number, number, Point, number][] = [
    [-1, 0, { x: tile.x0 - 2, y: high }, 90],
    [1, 0, { x: tile.x1 + OVERLAP + 1 + LETTERING.note, y: high }, 90],
    [0, -1, { x: cx, y: tile.y1 + 2 }, 0],
    [0, 1, { x: cx, y: tile.y0 - OVERLAP - 1 - LETTERING.note }, 0],
  ]
  return sides.flatMap(([dc, dr, at, angle]) => {
    const c = column + dc
    const r = row + dr
    if (c < 0 || r < 0 || c >= columns || r >= rows) return []
    return [text(at, `joins ${tileName(c, r)}`, LETTERING.note, { anchor: 'middle', angle })]
  })
}

/** Over the check line across and its words. */
const FOOT = MARGIN + 5.5
/** Room of the map of sheets, at the right of the caption. */
const MAP = { width: 34, height: MARGIN + CAPTION - FOOT }
const LEADING = 3.8
/** Lines that a title may take in large letters. */
const MOST_LARGE = 1

/** What the sheet is; a long title goes into small letters, and nothing of it is cut. */
function caption({ tiling, column, row, title, issue }: TemplateSheet, lacks: boolean): PlainPrimitive[] {
  const { tile, columns, rows } = tiling
  const width = tile.x1 - tile.x0 - MAP.width - 3
  const nth = `${row * columns + column + 1} of ${rows * columns}`
  const words = `${title}: plate template 1:1, sheet ${tileName(column, row)}, ${nth}`
  const large = breakText(words, LETTERING.read, width, true)
  const height = large.length <= MOST_LARGE ? LETTERING.read : LETTERING.note
  const lines = [
    ...breakText(words, height, width, true).map((content) => ({ content, height, bold: true })),
    ...[issue, HOW, PRECEDENCE, ...(lacks ? [LACKED] : [])]
      .filter(Boolean)
      .flatMap((note) => wrapText(note, LETTERING.note, width))
      .map((content) => ({ content, height: LETTERING.note, bold: false })),
  ]
  const top = MARGIN + CAPTION
  // Closer together where there are more than fit.
  const step = Math.min(LEADING, (top - FOOT - height) / Math.max(1, lines.length - 1))
  return lines.map((l, i) =>
    text({ x: tile.x0, y: top - height - i * step }, l.content, l.height, { bold: l.bold }),
  )
}

/** How the sheets lie together; this one has the thick frame. */
function assemblyMap({ tiling, column, row }: TemplateSheet): PlainPrimitive[] {
  const { tile, columns, rows } = tiling
  const [across, up] = [tile.x1 - tile.x0, tile.y1 - tile.y0]
  const scale = Math.min(MAP.width / (columns * across), MAP.height / (rows * up))
  const [w, h] = [across * scale, up * scale]
  const x0 = tile.x1 - columns * w
  const y0 = MARGIN + CAPTION - rows * h
  const out: PlainPrimitive[] = []
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) {
      const [x, y] = [x0 + c * w, y0 + (rows - 1 - r) * h]
      const isThis = c === column && r === row
      out.push(box('outline-thin', x, y, w, h))
      if (isThis) out.push(box('frame', x, y, w, h))
      const name = tileName(c, r)
      if (h > LETTERING.note + 1.5 && w > 7)
        out.push(
          text({ x: x + w / 2, y: y + (h - LETTERING.note) / 2 }, name, LETTERING.note, {
            anchor: 'middle',
            bold: isThis,
          }),
        )
    }
  return out
}

/** Printers stretch the two directions differently, so there is a line each way, within what they print. */
const checkLines = ({ tile }: Tiling, units: DisplayUnits): PlainPrimitive[] => [
  ...checkLine({ x: tile.x0, y: MARGIN + 0.5 }, units, 'across'),
  ...checkLine({ x: MARGIN + 3.5, y: tile.y0 }, units, 'up'),
]
