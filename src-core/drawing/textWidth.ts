import { BOLD_WIDTHS, REGULAR_WIDTHS, type WidthRange } from './fontWidths.ts'

/** Capital height of DejaVu Sans over its em. */
export const CAP_HEIGHT = 0.729
/** Width taken for a character that the tables do not hold: as wide as the font's widest in common use. */
const UNKNOWN = 1140

const tableOf = (ranges: readonly WidthRange[]): ReadonlyMap<string, number> =>
  new Map(
    ranges.flatMap(({ first, widths }) =>
      widths.flatMap((w, i): [string, number][] => (w > 0 ? [[String.fromCodePoint(first + i), w]] : [])),
    ),
  )
const REGULAR = tableOf(REGULAR_WIDTHS)
const BOLD = tableOf(BOLD_WIDTHS)

/** Width in mm of a line of text at a capital height in mm. */
export function textWidth(text: string, height: number, bold = false): number {
  const widths = bold ? BOLD : REGULAR
  let sum = 0
  for (const character of text) sum += widths.get(character) ?? UNKNOWN
  return (sum / 1000) * (height / CAP_HEIGHT)
}

/** Breaks text at spaces into lines no wider than `width` mm; a single longer word stands alone. */
export function wrapText(text: string, height: number, width: number, bold = false): string[] {
  const lines: string[] = []
  let line = ''
  for (const word of text.split(/\s+/)) {
    const longer = line ? `${line} ${word}` : word
    if (line && textWidth(longer, height, bold) > width) {
      lines.push(line)
      line = word
    } else line = longer
  }
  if (line) lines.push(line)
  return lines
}

/** Text cut with an ellipsis so that it fits a width in mm. */
export function fitText(text: string, height: number, width: number, bold = false): string {
  if (textWidth(text, height, bold) <= width) return text
  const room = width - textWidth('…', height, bold)
  let used = 0
  let kept = ''
  for (const character of text) {
    used += textWidth(character, height, bold)
    if (used > room) break
    kept += character
  }
  return `${kept.trimEnd()}…`
}
