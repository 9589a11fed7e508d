/** A drawing as a picture, for where there is no browser to paint it. */
import type { Point } from '../../src-core/geometry/types.ts'
import { flattenRing } from '../../src-core/geometry/flatten.ts'
import type { CirclePrimitive, Drawing, PathPrimitive, TextPrimitive } from '../../src-core/drawing/model.ts'
import { plainPrimitives, plainText } from '../../src-core/drawing/plain.ts'
import { CAPITAL_HEIGHT_EM, fillColour, LAYER_STYLES } from '../../src-core/drawing/styles.ts'
import { subPaths } from '../../src-core/drawing/subPaths.ts'
import type { SheetFonts } from '../services/fonts.ts'
import { createCanvas, type Canvas } from './canvas.ts'
import { encodePng } from './encodePng.ts'
import { strokePolygons, type Polyline } from './strokes.ts'
import { openFont, type Font } from './trueType.ts'

/** Pixels a mm: near 200 dots an inch, enough for the narrowest line and for text to be read. */
const PIXELS_PER_MM = 8
/** Pixels that a chord may stray from its arc. */
const CHORD = 0.1
/** Pixels; a sheet of A0 has 63 million. */
const MOST_PIXELS = 1e8

interface Painter {
  readonly canvas: Canvas
  readonly fonts: { readonly regular: Font; readonly bold: Font }
  /** Sheet mm to pixels, y down. */
  place(p: Point): Point
}

/** PNG bytes at `PIXELS_PER_MM`. Throws RangeError on a sheet without a size or too large to paint. */
export function writePng(drawing: Drawing, fonts: SheetFonts): Uint8Array {
  const width = Math.round(drawing.width * PIXELS_PER_MM)
  const height = Math.round(drawing.height * PIXELS_PER_MM)
  if (!(width > 0 && height > 0 && width * height <= MOST_PIXELS))
    throw new RangeError(`A sheet of ${drawing.width} × ${drawing.height} mm cannot be painted`)
  const painter: Painter = {
    canvas: createCanvas(width, height),
    fonts: { regular: openFont(fonts.regular), bold: openFont(fonts.bold) },
    place: ({ x, y }) => ({ x: x * PIXELS_PER_MM, y: (drawing.height - y) * PIXELS_PER_MM }),
  }
  for (const primitive of plainPrimitives(drawing)) {
    if (primitive.kind === 'text') paintText(painter, primitive)
    else
      paintShape(
        painter,
        primitive,
        primitive.kind === 'path' ? pathLines(primitive) : [circleLine(primitive)],
      )
  }
  return encodePng(painter.canvas, PIXELS_PER_MM * 1000)
}

const CHORD_MM = CHORD / PIXELS_PER_MM

function pathLines({ steps }: PathPrimitive): Polyline[] {
  return subPaths(steps).map(({ vertices, closed }) => {
    if (closed) return { points: flattenRing(vertices, CHORD_MM), closed }
    // An open run is flattened as if it were closed by a straight edge, which then is left out.
    const open = vertices.map((v, i) => (i === vertices.length - 1 ? { x: v.x, y: v.y } : v))
    return { points: [...flattenRing(open, CHORD_MM)], closed }
  })
}

function circleLine({ centre, radius }: CirclePrimitive): Polyline {
  const ends = [-1, 1].map((side) => ({ x: centre.x + side * radius, y: centre.y, bulge: 1 }))
  return { points: flattenRing(ends, CHORD_MM), closed: true }
}

/** A solid shape has no line round it, as in the other formats. */
function paintShape(
  { canvas, place }: Painter,
  shape: PathPrimitive | CirclePrimitive,
  lines: Polyline[],
): void {
  const style = LAYER_STYLES[shape.layer]
  const placed = lines.map(({ points, closed }) => ({ points: points.map(place), closed }))
  const fill = fillColour(shape.fill, style)
  if (fill !== null)
    canvas.fill(
      placed.map(({ points }) => points.flatMap(({ x, y }) => [x, y])),
      fill,
      'even-odd',
    )
  if (shape.fill === 'solid') return
  const dash = style.dash.map((d) => d * PIXELS_PER_MM)
  const polygons = placed.flatMap((line) => strokePolygons(line, style.width * PIXELS_PER_MM, dash))
  canvas.fill(polygons, style.colour, 'non-zero')
}

function paintText({ canvas, fonts, place }: Painter, text: TextPrimitive): void {
  const font = text.bold === true ? fonts.bold : fonts.regular
  const glyphs = Array.from(plainText(text.text), (c) => font.glyph(c.codePointAt(0)!))
  const scale = text.height / CAPITAL_HEIGHT_EM / font.unitsPerEm
  const length = glyphs.reduce((sum, g) => sum + g.advance, 0)
  const turn = (text.angle * Math.PI) / 180
  const [cos, sin] = [Math.cos(turn) * scale, Math.sin(turn) * scale]
  let pen = -{ start: 0, middle: 0.5, end: 1 }[text.anchor] * length
  const polygons: number[][] = []
  for (const { advance, contours } of glyphs) {
    for (const contour of contours) {
      const polygon: number[] = []
      for (let i = 0; i < contour.length; i += 2) {
        const gx = contour[i]! + pen
        const gy = contour[i + 1]!
        const { x, y } = place({ x: text.at.x + gx * cos - gy * sin, y: text.at.y + gx * sin + gy * cos })
        polygon.push(x, y)
      }
      polygons.push(polygon)
    }
    pen += advance
  }
  canvas.fill(polygons, LAYER_STYLES[text.layer].colour, 'non-zero')
}
