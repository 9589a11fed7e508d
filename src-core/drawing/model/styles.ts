/** How each layer is drawn. Widths and dashes after ISO 128-2:2020 (line group 0.5: wide 0.5, narrow 0.25). */
import type { Fill, LayerName } from './model.ts'

export interface LayerStyle {
  /** Line width, mm. */
  readonly width: number
  /** Dash, gap, dash, gap ... in mm; empty is a continuous line. A dot is a dash half a line width long. */
  readonly dash: readonly number[]
  /** SVG and PDF colour, `#rrggbb`. */
  readonly colour: string
  /** Layer name in a DXF file: upper case, under 31 characters. */
  readonly dxfName: string
  /** DXF line type. */
  readonly lineType: 'Continuous' | 'HIDDEN' | 'CENTRE' | 'PHANTOM'
  /** AutoCAD colour index; 7 is black on white and white on black. */
  readonly aci: number
}

/** The frame of the drawing space and its centring marks (ISO 5457). */
const WIDEST = 0.7
const WIDE = 0.5
const MEDIUM = 0.35
const NARROW = 0.25
const BLACK = '#000000'
/** Dark enough to print as black: 7.5 % luminance against white's 100 %. */
const DARK_RED = '#8b0000'

/** Element lengths in line widths: dash 12, long dash 24, dot 0.5, gap 3 (ISO 128-2, line types 02, 10 and 12). */
const dash = 12 * NARROW
const longDash = 24 * NARROW
const dot = 0.5 * NARROW
const gap = 3 * NARROW

function continuous(width: number, dxfName: string, aci = 7, colour = BLACK): LayerStyle {
  return { width, dash: [], colour, dxfName, lineType: 'Continuous', aci }
}

export const LAYER_STYLES: Readonly<Record<LayerName, LayerStyle>> = {
  ground: continuous(NARROW, 'GROUND'),
  outline: continuous(WIDE, 'OUTLINE'),
  'outline-thin': continuous(NARROW, 'OUTLINE_THIN'),
  hidden: {
    width: NARROW,
    dash: [dash, gap],
    colour: BLACK,
    dxfName: 'HIDDEN',
    lineType: 'HIDDEN',
    aci: 7,
  },
  centre: {
    width: NARROW,
    dash: [longDash, gap, dot, gap],
    colour: BLACK,
    dxfName: 'CENTRE',
    lineType: 'CENTRE',
    aci: 7,
  },
  phantom: {
    width: NARROW,
    dash: [longDash, gap, dot, gap, dot, gap],
    colour: BLACK,
    dxfName: 'PHANTOM',
    lineType: 'PHANTOM',
    aci: 7,
  },
  hatch: continuous(NARROW, 'HATCH', 8),
  dimension: continuous(NARROW, 'DIMENSION'),
  text: continuous(NARROW, 'TEXT'),
  border: continuous(WIDEST, 'BORDER'),
  frame: continuous(WIDE, 'FRAME'),
  mark: continuous(MEDIUM, 'MARK'),
  caution: continuous(MEDIUM, 'CAUTION', 1, DARK_RED),
}

/** Capital height of DejaVu Sans in ems (1493 of 2048 units), so font size = capital height / this. */
export const CAPITAL_HEIGHT_EM = 1493 / 2048

const PAPER = '#ffffff'
const TINT = '#e6e6e6'

/** What a shape is painted with; null paints nothing. */
export function fillColour(fill: Fill | undefined, style: LayerStyle): string | null {
  switch (fill) {
    case 'solid':
      return style.colour
    case 'paper':
      return PAPER
    case 'tint':
      return TINT
    default:
      return null
  }
}
