/** Turns what people write (12,5 · 3 ft 2 in · 1 1/2" · ½ · 30°) into text that an expression parser can read. */

export interface Refusal {
  readonly ok: false
  /** One sentence for the person who typed it. */
  readonly reason: string
}
export type QuantityText = { readonly ok: true; readonly text: string } | Refusal

const no = (reason: string): Refusal => ({ ok: false, reason })

const FRACTIONS: Readonly<Record<string, string>> = {
  '½': '1/2', '¼': '1/4', '¾': '3/4', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8', '⅓': '1/3', '⅔': '2/3',
} // prettier-ignore

/** `unit` is the field's own, so that a unit that the parser cannot know (rpm) may be written out. */
export function normaliseQuantity(text: string, unit: string): QuantityText {
  const given = text.normalize('NFC').trim()
  if (given === '') return no('A number is wanted here.')
  const comma = decimalComma(given)
  if (!comma.ok) return comma
  let s = comma.text
    .replace(/[½¼¾⅛⅜⅝⅞⅓⅔]/g, (c) => ` ${FRACTIONS[c]!} `)
    .replace(/[−–]/g, '-')
    .replace(/[×·]/g, '*')
    .replace(/÷/g, '/')
    .replace(/[µμ]m\b/g, 'um')
    .replace(/°/g, ' deg ')
    .replace(/²/g, '^2')
    .replace(/³/g, '^3')
    .replace(/"|″|”|''/g, ' inch ')
    .replace(/['′’]/g, ' ft ')
    .replace(/(?<![A-Za-z_])in(?![A-Za-z_])/g, ' inch')
  if (unit === '' || unit === 'rpm') s = s.replace(/\s*(rpm|\/min)\s*$/i, '')
  // "1 1/2" is one and a half; the space would otherwise be a missing sign.
  s = s.replace(/(^|[^\d.\w])(\d+)\s+(\d+)\s*\/\s*(\d+)/g, '$1($2+$3/$4)')
  const amount = String.raw`\d*\.?\d+(?:\s*\/\s*\d+)?|\([\d+/]+\)`
  s = s.replace(
    new RegExp(String.raw`(${amount})\s*(?:ft|feet|foot)\s*(${amount})\s*inch(?:es)?\b`, 'g'),
    '($1 ft + ($2) inch)',
  )
  s = s.replace(
    new RegExp(String.raw`(${amount})\s*(?:lb|lbs|lbm)\s*(${amount})\s*oz\b`, 'g'),
    '($1 lb + ($2) oz)',
  )
  s = s.trim()
  if (/[^\w\s.+\-*/^()]/.test(s)) {
    const odd = /[^\w\s.+\-*/^()]/.exec(s)![0]
    return no(`"${odd}" cannot be used here.`)
  }
  return { ok: true, text: s }
}

/** A comma between digits is a decimal comma, unless it could as well part thousands. */
function decimalComma(text: string): QuantityText {
  if (!text.includes(',')) return { ok: true, text }
  if (text.includes('.')) return no('A comma and a point together can be read two ways: leave one out.')
  const two = /(?<![\d,])(\d{1,3})(?:,(\d{3}))+(?![\d,])/.exec(text)
  if (two && !/^0,/.test(two[0]))
    return no(
      `${two[0]} can be read two ways: write ${two[0].replaceAll(',', '')} or ${two[0].replace(',', '.')}.`,
    )
  const fixed = text.replace(/(\d),(\d)/g, '$1.$2')
  return fixed.includes(',') ? no('A comma must stand between digits.') : { ok: true, text: fixed }
}
