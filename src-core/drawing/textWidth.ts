import { BOLD_WIDTHS, REGULAR_WIDTHS } from './fontWidths.ts'

/** Capital height of DejaVu Sans over its em. */
export const CAP_HEIGHT = 0.729
/** Width taken for a character that the table does not hold: a wide one. */
const UNKNOWN = 840

/** Width in mm of a line of text at a capital height in mm. */
export function textWidth(text: string, height: number, bold = false): number {
  const widths = bold ? BOLD_WIDTHS : REGULAR_WIDTHS
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
  let cut = text
  while (cut.length > 1 && textWidth(`${cut}…`, height, bold) > width) cut = cut.slice(0, -1)
  return `${cut.trimEnd()}…`
}
