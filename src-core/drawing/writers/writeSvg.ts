import type {
  CirclePrimitive,
  Drawing,
  LayerName,
  PathPrimitive,
  PlainPrimitive,
  TextPrimitive,
} from '../model/model.ts'
import { formatNumber } from './formatNumber.ts'
import { pathData } from './pathData.ts'
import { plainPrimitives, plainText } from '../model/plain.ts'
import { CAPITAL_HEIGHT_EM, fillColour, LAYER_STYLES, type LayerStyle } from '../model/styles.ts'

const number = (value: number): string => formatNumber(value, 4)

/**
 * A drawing as an SVG document of its own, in real size: width and height in mm, one user unit a millimetre.
 * Text stays text in DejaVu Sans, which is not embedded. Each run of primitives on one layer is a group with the
 * layer as class, in painting order; the first group of a layer has the id `layer-<name>`, later ones a number
 * after it. Same drawing in, same text out.
 *
 * @throws RangeError on a coordinate that is not finite
 */
export function writeSvg(drawing: Drawing): string {
  const width = number(drawing.width)
  const height = number(drawing.height)
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" ` +
      `viewBox="0 0 ${width} ${height}" font-family="DejaVu Sans" stroke-linejoin="round">`,
    `<title>${escapeXml(drawing.title)}</title>`,
    `<rect class="sheet" width="${width}" height="${height}" fill="#ffffff"/>`,
    ...groups(drawing),
    '</svg>',
    '',
  ].join('\n')
}

function groups(drawing: Drawing): string[] {
  const lines: string[] = []
  const seen = new Map<LayerName, number>()
  let open: LayerName | null = null
  for (const primitive of plainPrimitives(drawing)) {
    if (primitive.layer !== open) {
      if (open !== null) lines.push('</g>')
      open = primitive.layer
      const run = (seen.get(open) ?? 0) + 1
      seen.set(open, run)
      lines.push(groupStart(open, run))
    }
    lines.push(element(primitive, drawing.height))
  }
  if (open !== null) lines.push('</g>')
  return lines
}

function groupStart(layer: LayerName, run: number): string {
  const id = run === 1 ? `layer-${layer}` : `layer-${layer}-${number(run)}`
  return `<g id="${id}" ${groupStyle(layer, LAYER_STYLES[layer])}>`
}

/** A group's attributes after its id. */
export function groupStyle(layer: string, style: LayerStyle): string {
  const dashes = style.dash.length > 0 ? ` stroke-dasharray="${style.dash.map(number).join(' ')}"` : ''
  return `class="${layer}" fill="none" stroke="${style.colour}" stroke-width="${number(style.width)}"${dashes}`
}

function element(primitive: PlainPrimitive, sheetHeight: number): string {
  switch (primitive.kind) {
    case 'path':
      return `<path d="${pathData(primitive.steps, sheetHeight)}"${paint(primitive)}/>`
    case 'circle': {
      const { centre, radius } = primitive
      const place = `cx="${number(centre.x)}" cy="${number(sheetHeight - centre.y)}" r="${number(radius)}"`
      return `<circle ${place}${paint(primitive)}/>`
    }
    case 'text':
      return textElement(primitive, sheetHeight)
  }
}

/** A solid shape has no line round it, nor has ground, so that an arrowhead's tip is where the point is. */
function paint({ fill, layer }: PathPrimitive | CirclePrimitive): string {
  const colour = fillColour(fill, LAYER_STYLES[layer])
  if (colour === null) return ''
  return ` fill="${colour}" fill-rule="evenodd"${fill === 'solid' || layer === 'ground' ? ' stroke="none"' : ''}`
}

function textElement(text: TextPrimitive, sheetHeight: number): string {
  const x = number(text.at.x)
  const y = number(sheetHeight - text.at.y)
  const turned = text.angle === 0 ? '' : ` transform="rotate(${number(-text.angle)} ${x} ${y})"`
  const weight = text.bold === true ? ' font-weight="bold"' : ''
  const size = number(text.height / CAPITAL_HEIGHT_EM)
  return (
    `<text x="${x}" y="${y}" font-size="${size}" text-anchor="${text.anchor}"${weight}${turned} ` +
    `fill="${LAYER_STYLES[text.layer].colour}" stroke="none">${escapeXml(text.text)}</text>`
  )
}

function escapeXml(text: string): string {
  return plainText(text).replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
}
