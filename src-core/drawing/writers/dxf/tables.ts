import { DxfWriter, Units } from '@tarikjabiri/dxf'
import { formatNumber } from '../formatNumber.ts'
import type { Drawing } from '../../model/model.ts'
import { LAYER_STYLES } from '../../model/styles.ts'
import type { LayerStyle } from '../../model/styles.ts'
import { dxfNumber } from './number.ts'

export const REGULAR_STYLE = 'SHEET'
export const BOLD_STYLE = 'SHEET_BOLD'

/** Group code of a layer's line width, in hundredths of a millimetre. */
const LINE_WIDTH = 370

/** A document with its header, line types, text styles and layers; `unit` drawing units a sheet millimetre. */
export function startDxf(drawing: Drawing, unit: number): DxfWriter {
  const dxf = new DxfWriter()
  const metric = unit === 1
  dxf.setUnits(metric ? Units.Millimeters : Units.Inches)
  dxf.setVariable('$LASTSAVEDBY', { 1: 'Evenswing' })
  dxf.setVariable('$MEASUREMENT', { 70: metric ? 1 : 0 })
  dxf.setVariable('$LTSCALE', { 40: 1 })
  dxf.setVariable('$LWDISPLAY', { 290: 1 })
  const corner = { 10: dxfNumber(drawing.width * unit), 20: dxfNumber(drawing.height * unit) }
  dxf.setVariable('$LIMMIN', { 10: 0, 20: 0 })
  dxf.setVariable('$LIMMAX', corner)
  dxf.setVariable('$EXTMIN', { 10: 0, 20: 0, 30: 0 })
  dxf.setVariable('$EXTMAX', { ...corner, 30: 0 })
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
