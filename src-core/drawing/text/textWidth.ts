import { REGULAR_WIDTHS, type WidthRange } from './fontWidths.ts'
import { BOLD_WIDTHS } from './fontWidthsBold.ts'

/** Capital height of DejaVu Sans over its em. */
export const CAP_HEIGHT = 0.729
/** Stands for a character that the sheet's typeface lacks. */
export const SUBSTITUTE = '\ufffd'
const PLAIN = /^[ -~]*$/
/** Joiners, marks of direction, soft hyphens, variation selectors; and accents that no letter with them is there for. */
const WITHOUT_INK = /\p{Default_Ignorable_Code_Point}|\p{M}/gu

const tableOf = (ranges: readonly WidthRange[]): ReadonlyMap<string, number> =>
  new Map(
    ranges.flatMap(({ first, widths }) =>
      widths.flatMap((w, i): [string, number][] => (w > 0 ? [[String.fromCodePoint(first + i), w]] : [])),
    ),
  )
const REGULAR = tableOf(REGULAR_WIDTHS)
const BOLD = tableOf(BOLD_WIDTHS)

/**
 * Text as the sheet's typeface can set it: characters that it lacks in their plain form where they have one (ﬁ as fi),
 * else as the substitute.
 */
export function settable(text: string): string {
  if (PLAIN.test(text)) return text
  let out = ''
  for (const character of text.normalize('NFC').replace(WITHOUT_INK, '')) {
    // Line ends and the like are the writers' business.
    if (character < ' ' || (character >= '\u007f' && character < '\u00a0') || has(character)) out += character
    else {
      const plain = character.normalize('NFKD').replace(/\p{M}/gu, '')
      out += [...plain].every(has) ? plain : SUBSTITUTE
    }
  }
  return out
}

const has = (character: string): boolean => REGULAR.has(character) && BOLD.has(character)

/** Width in mm of a line of text at a capital height in mm. */
export function textWidth(text: string, height: number, bold = false): number {
  const widths = bold ? BOLD : REGULAR
  let sum = 0
  for (const character of settable(text)) sum += widths.get(character) ?? widths.get(SUBSTITUTE)!
  return (sum / 1000) * (height / CAP_HEIGHT)
}

/**
 * Where a line may break: at spaces, but not between a figure and its unit or hour, a number and what there are so many
 * of, x or y and its value, nor after a cross, within a column's `% wt`, before a blank to write in or a bracket's last
 * figure.
 */
const BREAK =
  /\s+(?!_|\d+\)|(?<=\d\s)(?:%|g·mm|kg|g|mm|N·m|N|lbf·ft|lbf|lb|ft·lbf|J|rpm|oz·in|in|thou|o'clock)(?![\w·])|(?<=%\s)wt:|(?<=\bpast\s)\d|(?<=\b[xy]\s)-?\d|(?<=\d\s)×\s(?!\d)|(?<=×\s))/

/** Breaks text at spaces into lines no wider than `width` mm; a single longer word stands alone. */
export function wrapText(text: string, height: number, width: number, bold = false): string[] {
  const lines: string[] = []
  let line = ''
  for (const word of settable(text).split(BREAK)) {
    const longer = line ? `${line} ${word}` : word
    if (line && textWidth(longer, height, bold) > width) {
      lines.push(line)
      line = word
    } else line = longer
  }
  if (line) lines.push(line)
  return lines
}

/** Breaks text as `wrapText` does, and words that are wider than a line wherever they must be. */
export function breakText(text: string, height: number, width: number, bold = false): string[] {
  return wrapText(text, height, width, bold).flatMap((line) => {
    if (textWidth(line, height, bold) <= width) return [line]
    const out: string[] = []
    let part = ''
    for (const character of line) {
      if (part && textWidth(part + character, height, bold) > width) {
        out.push(part)
        part = ''
      }
      part += character
    }
    return [...out, part]
  })
}

/** Text cut with an ellipsis so that it fits a width in mm. */
export function fitText(content: string, height: number, width: number, bold = false): string {
  const text = settable(content)
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
