/**
 * What an SVG must be for the painter of pictures to get it: line by line what `writeSvg` writes, no more of it than a
 * sheet can hold. The painter is machine code; nests, repeats, references and endless dashes bring it down.
 */
import { SHEETS } from '../sheet/sheetSizes.ts'
import { LAYER_STYLES } from '../model/styles.ts'
import { groupStyle } from './writeSvg.ts'

export type SheetSvg =
  /** mm */
  | { readonly ok: true; readonly width: number; readonly height: number }
  /** Why it is no sheet, as the end of a sentence, and the line that says so, from 1. */
  | { readonly ok: false; readonly reason: string; readonly line: number }

/** No sheet is larger, either way up; mm. */
const LARGEST = Math.max(...Object.values(SHEETS).flatMap((s) => [s.width, s.height]))
/** Some ten times what the fullest sheet has. */
const MOST = { lines: 200_000, numbers: 1_000_000, letters: 400_000, track_mm: 1_000_000 }

const NUMBER = '-?\\d{1,9}(?:\\.\\d{1,4})?'
const COLOUR = '#[0-9a-f]{6}'
const PAINT = `(?: fill="${COLOUR}" fill-rule="evenodd"(?: stroke="none")?)?`
const STEP = new RegExp(`[ML]${NUMBER} ${NUMBER}|A${NUMBER} ${NUMBER} 0 0 [01] ${NUMBER} ${NUMBER}|Z`, 'y')
/** A mark of XML other than the three that are written out. */
const FOREIGN_MARK = /&(?!(?:amp|lt|gt);)/

const XML = '<?xml version="1.0" encoding="UTF-8"?>'
const SIZE = /^<svg xmlns="[^"]*" width="([\d.]+)mm" height="([\d.]+)mm" /
const head = (width: string, height: string) => [
  `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" ` +
    `viewBox="0 0 ${width} ${height}" font-family="DejaVu Sans" stroke-linejoin="round">`,
  `<rect class="sheet" width="${width}" height="${height}" fill="#ffffff"/>`,
]
const TITLE = /^<title>([^<>]*)<\/title>$/
const GROUP = /^<g id="layer-([a-z-]+?)(?:-\d{1,6})?" (.*)>$/
const PATH = new RegExp(`^<path d="([^"]*)"${PAINT}/>$`)
const CIRCLE = new RegExp(`^<circle cx="${NUMBER}" cy="${NUMBER}" r="(${NUMBER})"${PAINT}/>$`)
const LETTERING = new RegExp(
  `^<text x="${NUMBER}" y="${NUMBER}" font-size="(${NUMBER})" text-anchor="(?:start|middle|end)"` +
    `(?: font-weight="bold")?(?: transform="rotate\\(${NUMBER} ${NUMBER} ${NUMBER}\\)")? ` +
    `fill="${COLOUR}" stroke="none">([^<>]*)</text>$`,
)
const STYLES = new Map(Object.entries(LAYER_STYLES).map(([name, style]) => [name, groupStyle(name, style)]))

/** Looks at a whole document; never throws. */
export function readSheetSvg(svg: string): SheetSvg {
  const lines = svg.split('\n')
  const no = (reason: string, line: number): SheetSvg => ({ ok: false, reason, line: line + 1 })
  if (lines.length > MOST.lines) return no('it has more lines than a sheet', MOST.lines)
  const [, width = '', height = ''] = SIZE.exec(lines[1] ?? '') ?? []
  const [start, paper] = head(width, height)
  const title = TITLE.exec(lines[2] ?? '')?.[1]
  const isTitle = title !== undefined && !FOREIGN_MARK.test(title)
  const fixed = [lines[0] === XML, lines[1] === start, isTitle, lines[3] === paper]
  if (fixed.includes(false)) return no('it does not begin as one', fixed.indexOf(false))
  const size = { width: Number(width), height: Number(height) }
  if (!(size.width > 0 && size.height > 0)) return no('it has no size', 1)
  if (size.width > LARGEST || size.height > LARGEST) return no(`no sheet is ${width} × ${height} mm`, 1)
  const end = lines.length - 2
  if (end < 4 || lines[end] !== '</svg>' || lines[end + 1] !== '') return no('it does not end as one', end)
  const fault = readLines(lines, end)
  return fault === null ? { ok: true, ...size } : no(fault.reason, fault.line)
}

/** How much of everything there was so far. */
interface Sum {
  numbers: number
  letters: number
  track: number
}

function readLines(lines: readonly string[], end: number): { reason: string; line: number } | null {
  let isOpen = false
  const sum: Sum = { numbers: 0, letters: 0, track: 0 }
  for (let i = 4; i < end; i++) {
    const line = lines[i]!
    const [, layer = '', style] = GROUP.exec(line) ?? []
    if (style !== undefined ? isOpen || STYLES.get(layer) !== style : !isOpen)
      return { reason: 'a group is not as a layer of a sheet', line: i }
    if (style !== undefined) isOpen = true
    else if (line === '</g>') isOpen = false
    else if (!isElement(line, sum)) return { reason: 'this is nothing that stands on a sheet', line: i }
    if (sum.numbers > MOST.numbers || sum.letters > MOST.letters || !(sum.track <= MOST.track_mm))
      return { reason: 'it holds more than a sheet', line: i }
  }
  return isOpen ? { reason: 'a group has no end', line: end } : null
}

function isElement(line: string, sum: Sum): boolean {
  const path = PATH.exec(line)?.[1]
  if (path !== undefined) return addPath(path, sum)
  const radius = CIRCLE.exec(line)?.[1]
  if (radius !== undefined) {
    sum.numbers += 3
    sum.track += 2 * Math.PI * Math.abs(Number(radius))
    return true
  }
  const [, size, text] = LETTERING.exec(line) ?? []
  if (size === undefined || text === undefined || FOREIGN_MARK.test(text)) return false
  sum.letters += text.length
  return Number(size) > 0 && Number(size) <= LARGEST
}

/** Adds a path's numbers and its length; an arc of up to half a turn is at most π/2 times its chord. */
function addPath(data: string, sum: Sum): boolean {
  let [x, y] = [0, 0]
  for (let at = 0; at < data.length && sum.numbers <= MOST.numbers;) {
    STEP.lastIndex = at
    const step = STEP.exec(data)?.[0]
    if (step === undefined) return false
    at += step.length
    sum.numbers++
    if (step === 'Z') continue
    const numbers = step.slice(1).split(' ').map(Number)
    const [toX, toY] = numbers.slice(-2) as [number, number]
    if (!step.startsWith('M')) sum.track += (Math.PI / 2) * Math.hypot(toX - x, toY - y)
    sum.numbers += numbers.length
    ;[x, y] = [toX, toY]
  }
  return true
}
