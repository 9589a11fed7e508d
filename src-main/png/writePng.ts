/** A drawing as a picture, for where there is no browser to paint it: its SVG through resvg. */
import { Resvg } from '@resvg/resvg-js'
import type { Drawing } from '../../src-core/drawing/model.ts'
import { writeSvg } from '../../src-core/drawing/writeSvg.ts'
import { fontFiles } from '../services/fonts.ts'

/** Pixels a mm: near 200 dots an inch, enough for the narrowest line and for text to be read. */
export const PIXELS_PER_MM = 8
/** Pixels; a sheet of A0 has 63 million. */
const MOST_PIXELS = 1e8

/** PNG bytes at `PIXELS_PER_MM` on white. Throws RangeError on a sheet without a size or too large to paint. */
export function writePng(drawing: Drawing): Uint8Array {
  const width = Math.round(drawing.width * PIXELS_PER_MM)
  const height = Math.round(drawing.height * PIXELS_PER_MM)
  if (!(width > 0 && height > 0 && width * height <= MOST_PIXELS))
    throw new RangeError(`A sheet of ${drawing.width} × ${drawing.height} mm cannot be painted`)
  const picture = new Resvg(writeSvg(drawing), {
    background: 'white',
    fitTo: { mode: 'width', value: width },
    // Only the embedded fonts, so that the picture does not depend on the machine.
    font: { fontFiles: fontFiles(), loadSystemFonts: false, defaultFontFamily: 'DejaVu Sans' },
  }).render()
  return picture.asPng()
}
