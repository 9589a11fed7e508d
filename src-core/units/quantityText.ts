/** Turns what people write (12,5 · 3 ft 2 in · 1 1/2" · ½ · 30°) into text that an expression parser can read. */

export interface Refusal {
  readonly ok: false
  /** One sentence for the person who typed it. */
  readonly reason: string
}
export type QuantityText = { readonly ok: true; readonly text: string } | Refusal

const no = (reason: string): Refusal => ({ ok: false, reason })

/** Hyphens and dashes as they come out of a drawing or a page; the fraction stroke, and ½ and its like. */
const DASHES = /[−–—‐‑]/g
const STROKES = /[⁄∕]/g
const FRACTION = /(-?)([¼-¾⅐-⅞])/g

/** `3-1/4`, tight: in an inch field three and a quarter, anywhere else as likely a difference. */
const TIGHT = /(?<![\d.\w])(?<!\/\s*)(?<![\w)]\s*-)(\d+)-(\d+)\s*\/\s*(\d+)(?![\d-])/g
/** `5'-2`, `5 ft-2`: feet and inches joined by a hyphen. */
const FEET_HYPHEN = /((?:['′’]|\bft|\bfeet|\bfoot|(?<=\d)ft))-(?=[\d(])/g
const FEET = String.raw`\d+(?:\.\d+)?\s*(?:['′’](?!['′’])|ft|feet|foot)`
/** A whole number and a fraction, with feet before them or not, or feet and a hyphen; and the unit after them. */
const MIXED = new RegExp(
  String.raw`(?<![\d.\w])(?<!/\s*)(?:(?:${FEET}(?:-|\s*))?\d+(?:\s+|-)\d+\s*/\s*\d+(?![\d.])|${FEET}-\d+(?:\.\d+)?)(?<unit>\s*(?:''|["″”'′’]|[A-Za-z]+))?`,
)

/** The first mixed number in what was typed, written so that an inch field reads it; null where there is none. */
export function mixedNumberIn(text: string): string | null {
  const found = MIXED.exec(plainSigns(text.normalize('NFC')))
  if (!found) return null
  const words = found[0].replace(/\s+/g, ' ').replace(/ (?=["″”'′’])/g, '')
  return found.groups?.unit ? words : `${words} in`
}

/** A hyphen before a fraction, or after feet, that is neither a difference nor part of a mixed number by its spaces. */
const ODD_SPACES =
  /[\d./]*(?:\d-\d+|\d\s-\d+|\d-\s\d+)\s*\/\s*\d+|(?:['′’]|\bfeet|\bfoot|(?<=\d\s?)ft)\s?-\s?(?=[\d(])(?<!\s-\s)/

/** Mixed numbers of an inch field made plain to a parser; where a hyphen can be read two ways, the reason. */
function mixedNumbers(text: string, unit: string): QuantityText {
  const halves = /[\d./]*\d-\d+\s*\/\s*\d+/.exec(text)
  if (unit === 'in' || (unit === 'mm' && !halves)) {
    const s = unit === 'in' ? text.replace(FEET_HYPHEN, '$1 ').replace(TIGHT, '$1 $2/$3') : text
    const odd = ODD_SPACES.exec(s)
    if (odd)
      return no(
        `"${odd[0].trim()}" can be read two ways: a difference has a space on both sides of its sign, a mixed number none.`,
      )
    return { ok: true, text: s }
  }
  if (halves)
    return no(`"${halves[0]}" can be read two ways: write ${halves[0].replace('-', ' - ')} for a difference.`)
  return { ok: true, text }
}

const plainSigns = (text: string): string =>
  text
    .replace(DASHES, '-')
    .replace(FRACTION, (_, sign: string, one: string) => `${sign || ' '}${one.normalize('NFKC')} `)
    .replace(STROKES, '/')

/** `unit` is the field's own, so that a unit that the parser cannot know (rpm) may be written out. */
export function normaliseQuantity(text: string, unit: string): QuantityText {
  const given = text.normalize('NFC').trim()
  if (given === '') return no('A number is wanted here.')
  const comma = decimalComma(given)
  if (!comma.ok) return comma
  const mixed = mixedNumbers(plainSigns(comma.text), unit)
  if (!mixed.ok) return mixed
  let s = mixed.text
    .replace(/[×·]/g, '*')
    .replace(/÷/g, '/')
    .replace(/[µμ]m\b/g, 'um')
    .replace(/°/g, ' deg ')
    .replace(/²/g, '^2')
    .replace(/³/g, '^3')
    .replace(/"|″|”|''/g, ' inch ')
    .replace(/['′’]/g, ' ft ')
    .replace(/(?<![A-Za-z_])in(?![A-Za-z_])/g, ' inch')
  s = inTheTrade(s, unit)
  if (unit === '' || unit === 'rpm') s = s.replace(/\s*(rpm|\/min)\s*$/i, '')
  // "1 1/2" is one and a half; the space would otherwise be a missing sign.
  s = s.replace(/(^|[^\d.\w])(\d+)\s+(\d+)\s*\/\s*(\d+)/g, '$1($2+$3/$4)')
  const amount = String.raw`\d*\.?\d+(?:\s*\/\s*\d+)?|\([\d+/]+\)`
  // After feet an inch field needs no mark: 5' 2 1/2. What follows may not be more than a sum.
  const bare = unit === 'in' ? String.raw`|(?=\s*(?:$|[-+)]))` : ''
  s = s.replace(
    new RegExp(String.raw`(${amount})\s*(?:ft|feet|foot)\s*(${amount})(?:\s*inch(?:es)?\b${bare})`, 'g'),
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

/** A torque as wrenches are marked, ft-lb and Nm; a pound where a force is wanted. */
function inTheTrade(text: string, unit: string): string {
  if (unit === 'N m' || unit === 'lbf ft')
    return text
      .replace(/\b(?:ft|foot)[-*\s.]*(?:lbf|lbs?)\b|(?:lbf|lbs?)[-*\s.]*ft\b/gi, ' lbf ft')
      .replace(/(\d)\s*Nm\b/g, '$1 N m')
  return unit === 'N' || unit === 'lbf' ? text.replace(/(\d)\s*lbs?\b/gi, '$1 lbf') : text
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
