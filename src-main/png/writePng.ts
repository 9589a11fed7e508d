/** A drawing as a picture: its SVG through resvg, the same on every machine. */
import { createRequire } from 'node:module'
import type * as Painter from '@resvg/resvg-js'
import type { Drawing } from '../../src-core/drawing/model/model.ts'
import { readSheetSvg } from '../../src-core/drawing/writers/sheetSvg.ts'
import { writeSvg } from '../../src-core/drawing/writers/writeSvg.ts'
import { withResolution } from './resolution.ts'
import { fontFiles } from '../services/fonts.ts'

/** Pixels a mm: near 200 dots an inch, enough for the narrowest line and for text to be read. */
export const PIXELS_PER_MM = 8

/** PNG bytes on white. Throws RangeError on a sheet without a size or larger than any. */
export const writePng = (drawing: Drawing, pixelsPerMm: number = PIXELS_PER_MM): Uint8Array =>
  paintSheet(writeSvg(drawing), pixelsPerMm)

/**
 * PNG bytes on white, of a sheet as `writeSvg` writes it. Throws RangeError on any other SVG. A fault of the machine
 * code would end the process: where the SVG is not this process's own work, `painter.ts` has it done in another.
 */
export function paintSheet(svg: string, pixelsPerMm: number = PIXELS_PER_MM): Uint8Array {
  const sheet = readSheetSvg(svg)
  if (!sheet.ok)
    throw new RangeError(`This is not a sheet that Evenswing drew: line ${sheet.line}: ${sheet.reason}`)
  // Asked for when it is needed: it is machine code, which no bundle can hold.
  const { Resvg } = createRequire(import.meta.url)('@resvg/resvg-js') as typeof Painter
  const picture = new Resvg(svg, {
    background: 'white',
    fitTo: { mode: 'width', value: Math.round(sheet.width * pixelsPerMm) },
    // Only the embedded fonts, so that the picture does not depend on the machine.
    font: { fontFiles: fontFiles(), loadSystemFonts: false, defaultFontFamily: 'DejaVu Sans' },
  }).render()
  return withResolution(picture.asPng(), pixelsPerMm)
}
