import PDFDocument from 'pdfkit'
import { formatNumber } from './formatNumber.ts'
import type {
  CirclePrimitive,
  Drawing,
  PathPrimitive,
  PlainPrimitive,
  TextPrimitive,
} from '../model/model.ts'
import { pathData } from './pathData.ts'
import { plainFont } from './pdfFont.ts'
import { plainPrimitives, plainText } from '../model/plain.ts'
import { CAPITAL_HEIGHT_EM, fillColour, LAYER_STYLES } from '../model/styles.ts'

/** DejaVu Sans and DejaVu Sans Bold, as TrueType files. */
export interface PdfFonts {
  readonly regular: Uint8Array
  readonly bold: Uint8Array
}

const POINTS_PER_MM = 72 / 25.4
const REGULAR = 'regular'
const BOLD = 'bold'
/** One date for all, so that the same drawing gives the same file (the document's identifier is made from it too). */
// eslint-disable-next-line no-restricted-globals -- a constant, not the clock
const CREATED = new Date(0)

/**
 * Drawings as one PDF, a page each in the drawing's own size and at true scale, with a bookmark for each. Fonts are embedded as subsets and
 * text can be searched; a character the font lacks would print as a box (`settable`). Asks viewers not to scale when printing.
 * Same drawings and fonts in, same bytes out (Node and a browser compress differently, so theirs differ).
 *
 * @param title of the whole; that of the first drawing where not given
 * @throws RangeError (as a rejection) on no drawings or a number that is not finite
 */
export async function writePdf(
  drawings: readonly Drawing[],
  fonts: PdfFonts,
  title?: string,
): Promise<Uint8Array> {
  const first = drawings[0]
  if (first === undefined) throw new RangeError('A PDF needs at least one drawing')
  const document = startDocument({ ...first, title: title ?? first.title }, fonts)
  const bytes = collect(document)
  drawings.forEach((drawing, i) => {
    writePage(document, drawing)
    document.outline.addItem(`${plainText(drawing.title)}, sheet ${formatNumber(i + 1, 0)}`)
  })
  document.end()
  return bytes
}

type Document = PDFKit.PDFDocument

function startDocument({ title, author }: Drawing, fonts: PdfFonts): Document {
  const options = {
    autoFirstPage: false,
    margin: 0,
    displayTitle: true,
    lang: 'en',
    // No built-in font: in a browser there is none to load.
    font: null as unknown as string,
    info: {
      Title: plainText(title),
      ...(author && { Author: plainText(author) }),
      Creator: 'Evenswing',
      Producer: 'Evenswing',
      CreationDate: CREATED,
    },
  }
  const document = new PDFDocument(options)
  const catalogue = document as unknown as { _root: { data: { ViewerPreferences: { data: object } } } }
  Object.assign(catalogue._root.data.ViewerPreferences.data, { PrintScaling: 'None' })
  document.registerFont(REGULAR, plainFont(fonts.regular))
  document.registerFont(BOLD, plainFont(fonts.bold))
  return document
}

function collect(document: Document): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = []
    document.on('data', (chunk: Uint8Array) => chunks.push(chunk))
    document.on('error', reject)
    document.on('end', () => {
      const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0))
      let offset = 0
      for (const chunk of chunks) {
        bytes.set(chunk, offset)
        offset += chunk.length
      }
      resolve(bytes)
    })
  })
}

function writePage(document: Document, drawing: Drawing): void {
  const size: [number, number] = [
    finite(drawing.width) * POINTS_PER_MM,
    finite(drawing.height) * POINTS_PER_MM,
  ]
  document.addPage({ size, margin: 0 })
  // From here one unit is a millimetre, y down from the upper edge.
  document.scale(POINTS_PER_MM, POINTS_PER_MM)
  document.lineJoin('round')
  for (const primitive of plainPrimitives(drawing)) writePrimitive(document, primitive, drawing.height)
}

function writePrimitive(document: Document, primitive: PlainPrimitive, sheetHeight: number): void {
  switch (primitive.kind) {
    case 'path': {
      const data = pathData(primitive.steps, sheetHeight)
      if (data !== '') paint(document.path(data), primitive)
      return
    }
    case 'circle': {
      const { centre, radius } = primitive
      paint(document.circle(finite(centre.x), finite(sheetHeight - centre.y), finite(radius)), primitive)
      return
    }
    case 'text':
      writeText(document, primitive, sheetHeight)
  }
}

/** A solid shape has no line round it, nor has ground, so that an arrowhead's tip is where the point is. */
function paint(document: Document, { fill, layer }: PathPrimitive | CirclePrimitive): void {
  const style = LAYER_STYLES[layer]
  const colour = fillColour(fill, style)
  if (colour !== null && (fill === 'solid' || layer === 'ground')) {
    document.fill(colour, 'even-odd')
    return
  }
  document.lineWidth(style.width)
  // The library takes a list; its types know a single length only.
  if (style.dash.length > 0) document.dash([...style.dash] as unknown as number, {})
  else document.undash()
  if (colour === null) document.stroke(style.colour)
  else document.fillAndStroke(colour, style.colour, 'even-odd')
}

function writeText(document: Document, text: TextPrimitive, sheetHeight: number): void {
  const line = plainText(text.text)
  if (line.trim() === '') return
  const x = finite(text.at.x)
  const y = finite(sheetHeight - text.at.y)
  document.font(text.bold === true ? BOLD : REGULAR).fontSize(finite(text.height / CAPITAL_HEIGHT_EM))
  document.fillColor(LAYER_STYLES[text.layer].colour)
  const share = { start: 0, middle: 0.5, end: 1 }[text.anchor]
  const left = x - share * document.widthOfString(line, {})
  document.save()
  if (text.angle !== 0) document.rotate(finite(-text.angle), { origin: [x, y] })
  document.text(line, left, y, { lineBreak: false, baseline: 'alphabetic' })
  document.restore()
}

/** The number as the other writers would round it. */
function finite(value: number): number {
  return Number(formatNumber(value, 6))
}
