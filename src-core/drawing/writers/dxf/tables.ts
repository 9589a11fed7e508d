import { DxfWriter, Units } from '@tarikjabiri/dxf'
import { formatNumber } from '../formatNumber.ts'
import { LAYER_STYLES } from '../../model/styles.ts'
import type { LayerStyle } from '../../model/styles.ts'
import { dxfNumber } from './number.ts'

export const REGULAR_STYLE = 'SHEET'
export const BOLD_STYLE = 'SHEET_BOLD'

/** Group code of a layer's line width, in hundredths of a millimetre. */
const LINE_WIDTH = 370

/** mm. */
export interface Extents {
  readonly x0: number
  readonly y0: number
  readonly x1: number
  readonly y1: number
}

/** A document with its header, line types, text styles and layers. */
export function startDxf(units: 'mm' | 'in', { x0, y0, x1, y1 }: Extents): DxfWriter {
  const dxf = new DxfWriter()
  const metric = units === 'mm'
  const unit = metric ? 1 : 1 / 25.4
  dxf.setUnits(metric ? Units.Millimeters : Units.Inches)
  dxf.setVariable('$LASTSAVEDBY', { 1: 'Evenswing' })
  dxf.setVariable('$MEASUREMENT', { 70: metric ? 1 : 0 })
  dxf.setVariable('$LTSCALE', { 40: 1 })
  dxf.setVariable('$LWDISPLAY', { 290: 1 })
  const at = (x: number, y: number) => ({ 10: dxfNumber(x * unit), 20: dxfNumber(y * unit) })
  dxf.setVariable('$LIMMIN', at(x0, y0))
  dxf.setVariable('$LIMMAX', at(x1, y1))
  dxf.setVariable('$EXTMIN', { ...at(x0, y0), 30: 0 })
  dxf.setVariable('$EXTMAX', { ...at(x1, y1), 30: 0 })
  dxf.tables.addStyle(REGULAR_STYLE).fontFileName = 'DejaVuSans.ttf'
  dxf.tables.addStyle(BOLD_STYLE).fontFileName = 'DejaVuSans-Bold.ttf'
  for (const style of Object.values(LAYER_STYLES)) addLayer(dxf, style, unit)
  return dxf
}

function addLayer(dxf: DxfWriter, style: LayerStyle, unit: number): void {
  if (style.dash.length > 0) {
    // Dashes are positive, gaps negative.
    const lengths = style.dash.map((length, i) => dxfNumber((i % 2 === 0 ? length : -length) * unit))
    dxf.addLType(style.lineType, describe(style), lengths)
  }
  const layer = dxf.addLayer(style.dxfName, style.aci, style.lineType)
  const write = layer.dxfy.bind(layer)
  // The library writes every layer with line width 0; tags are a flat list of codes and values.
  layer.dxfy = (dx) => {
    const start = dx.lines.length
    write(dx)
    for (let i = start; i < dx.lines.length; i += 2) {
      if (dx.lines[i] === LINE_WIDTH) dx.lines[i + 1] = dxfNumber(Math.round(style.width * 100))
    }
  }
}

function describe(style: LayerStyle): string {
  return style.dash.map((length) => formatNumber(length, 3)).join(' ')
}
