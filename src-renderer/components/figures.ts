import { convert } from '../../src-core/units/convert.ts'
import { grouped, plain, significant, type DisplayUnits } from '../../src-core/units/format.ts'

/** Splits a message into plain words and the figures in it, so that figures can stand out. */
const FIGURE =
  /-?\d[\d.,]*(?:\s?(?:mm\/rev|mm\/s|mm²|in²|N\/mm²|psi|mm|in\/rev|in|kg·mm²|kg\/m³|kg|lb\/in³|lb|g·mm²?|oz·in²?|g|N·m|lbf·ft|ft·lbf|lbf|kN|N|rpm|m\/min|ft\/min|m\/s|ft\/s|thou|°|%|J)(?![\w·]))/g

export interface Piece {
  readonly text: string
  readonly figure: boolean
}

export function splitFigures(message: string): Piece[] {
  const pieces: Piece[] = []
  let last = 0
  for (const match of message.matchAll(FIGURE)) {
    if (match.index > last) pieces.push({ text: message.slice(last, match.index), figure: false })
    pieces.push({ text: match[0], figure: true })
    last = match.index + match[0].length
  }
  if (last < message.length) pieces.push({ text: message.slice(last), figure: false })
  return pieces
}

/** Things with a key of their own each: the same thing keeps it while others come and go before it. */
export function keyed<T>(things: readonly T[], key: (thing: T) => string): { thing: T; key: string }[] {
  const seen = new Map<string, number>()
  return things.map((thing) => {
    const of = key(thing)
    const before = seen.get(of) ?? 0
    seen.set(of, before + 1)
    return { thing, key: `${of}:${before}` }
  })
}

/** A finding's code as a heading: `fouls-bed` is "Fouls bed". */
export const codeWords = (code: string): string => {
  const words = code.replaceAll('-', ' ')
  return words.charAt(0).toUpperCase() + words.slice(1)
}

/** g·mm²: less is what arithmetic leaves. */
const NOTHING = 1e-6

/** A couple unbalance, given in g·mm², in kg·mm² or oz·in², to four figures. */
export function coupleText(gmm2: number, system: DisplayUnits): string {
  if (system === 'mm') {
    const whole = plain(Number((gmm2 / 1000).toPrecision(4)), 0)
    return `${whole === '0' && gmm2 > NOTHING ? 'under 1' : grouped(whole)} kg·mm²`
  }
  const perInch = convert(1, 'mm', 'in')
  return `${grouped(significant(convert(gmm2, 'g', 'oz') * perInch * perInch, 4))} oz·in²`
}

/** A change of a couple with its sign; what rounds to nothing has none. */
export function coupleChange(gmm2: number, system: DisplayUnits): string {
  const size = coupleText(Math.abs(gmm2), system)
  return /^(?:0|under) /.test(size) ? size : `${gmm2 < 0 ? '−' : '+'}${size}`
}
