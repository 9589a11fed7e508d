/** A drawing as a picture: its SVG through resvg, the same on every machine. */
import { createRequire } from 'node:module'
import type * as Painter from '@resvg/resvg-js'
import type { Drawing } from '../../src-core/drawing/model/model.ts'
import { writeSvg } from '../../src-core/drawing/writers/writeSvg.ts'
import { fontFiles } from '../services/fonts.ts'

/** Pixels a mm: near 200 dots an inch, enough for the narrowest line and for text to be read. */
export const PIXELS_PER_MM = 8
/** Pixels; a sheet of A0 has 63 million. */
const MOST_PIXELS = 1e8
/** What `writeSvg` writes first. */
const SHEET = /^<\?xml [^>]*\?>\n<svg xmlns="[^"]*" width="([\d.]+)mm" height="([\d.]+)mm" /
/** Elements that a sheet never has, and that could read other files or repeat things without end. */
const FOREIGN = /<!|<(image|use|style|filter|pattern|mask|foreignObject)[\s/>]/i

/** PNG bytes on white. Throws RangeError on a sheet without a size or too large to paint. */
export const writePng = (drawing: Drawing, pixelsPerMm: number = PIXELS_PER_MM): Uint8Array =>
  paintSheet(writeSvg(drawing), pixelsPerMm)

/**
 * PNG bytes on white, of a sheet as `writeSvg` writes it. Throws RangeError on any other SVG, and
 * on a sheet without a size or too large to paint.
 */
export function paintSheet(svg: string, pixelsPerMm: number = PIXELS_PER_MM): Uint8Array {
  const [, wide, tall] = SHEET.exec(svg) ?? []
  if (wide === undefined || tall === undefined || FOREIGN.test(svg))
    throw new RangeError('This is not a sheet that Evenswing drew')
  const width = Math.round(Number(wide) * pixelsPerMm)
  const height = Math.round(Number(tall) * pixelsPerMm)
  if (!(width > 0 && height > 0 && width * height <= MOST_PIXELS))
    throw new RangeError(`A sheet of ${wide} × ${tall} mm cannot be painted`)
  // Asked for when it is needed: it is machine code, which no bundle can hold.
  const { Resvg } = createRequire(import.meta.url)('@resvg/resvg-js') as typeof Painter
  const picture = new Resvg(svg, {
    background: 'white',
    fitTo: { mode: 'width', value: width },
    // Only the embedded fonts, so that the picture does not depend on the machine.
    font: { fontFiles: fontFiles(), loadSystemFonts: false, defaultFontFamily: 'DejaVu Sans' },
  }).render()
  return picture.asPng()
}
