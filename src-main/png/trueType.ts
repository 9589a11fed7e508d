/** Glyph outlines of a TrueType font (OpenType specification: tables cmap, head, hhea, hmtx, loca, glyf). */

/** x and y alternating, in font units, y up; closed. */
type Contour = readonly number[]

interface Glyph {
  /** Font units. */
  readonly advance: number
  readonly contours: readonly Contour[]
}

export interface Font {
  readonly unitsPerEm: number
  /** The glyph of a character; the font's box for one it lacks. */
  glyph(codePoint: number): Glyph
}

/** Straight pieces that a quadratic curve is drawn in: at text sizes far below a pixel. */
const PIECES = 6
/** Composite glyphs are nested no deeper than this. */
const DEEPEST = 6

/** Opens a font's bytes; throws a RangeError where they are no TrueType font. */
export function openFont(bytes: Uint8Array): Font {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const tables = tableStarts(view)
  const at = (name: string): number => {
    const start = tables.get(name)
    if (start === undefined) throw new RangeError(`The font has no table "${name}"`)
    return start
  }
  const longLocations = view.getInt16(at('head') + 50) === 1
  const metrics = view.getUint16(at('hhea') + 34)
  const indexOf = characterMap(view, at('cmap'))
  const font: OpenFont = {
    view,
    glyf: at('glyf'),
    location: (index) =>
      longLocations ? view.getUint32(at('loca') + 4 * index) : 2 * view.getUint16(at('loca') + 2 * index),
  }
  const known = new Map<number, Glyph>()
  return {
    unitsPerEm: view.getUint16(at('head') + 18),
    glyph(codePoint) {
      const index = indexOf(codePoint)
      let glyph = known.get(index)
      if (!glyph) {
        const advance = view.getUint16(at('hmtx') + 4 * Math.min(index, metrics - 1))
        known.set(index, (glyph = { advance, contours: contoursOf(font, index, 0) }))
      }
      return glyph
    },
  }
}

interface OpenFont {
  readonly view: DataView
  readonly glyf: number
  readonly location: (index: number) => number
}

function tableStarts(view: DataView): Map<string, number> {
  const tables = new Map<string, number>()
  for (let i = 0; i < view.getUint16(4); i++) {
    const record = 12 + 16 * i
    const name = String.fromCharCode(...[0, 1, 2, 3].map((k) => view.getUint8(record + k)))
    tables.set(name, view.getUint32(record + 8))
  }
  return tables
}

/** Character to glyph index, by the font's Unicode table of segments (format 4) or of groups (format 12). */
function characterMap(view: DataView, cmap: number): (codePoint: number) => number {
  const starts = Array.from(
    { length: view.getUint16(cmap + 2) },
    (_, i) => cmap + view.getUint32(cmap + 8 + 8 * i),
  )
  const groups = starts.find((s) => view.getUint16(s) === 12)
  if (groups !== undefined) return (c) => groupIndex(view, groups, c)
  const segments = starts.find((s) => view.getUint16(s) === 4)
  if (segments === undefined) throw new RangeError('The font has no Unicode character table')
  return (c) => segmentIndex(view, segments, c)
}

function groupIndex(view: DataView, start: number, codePoint: number): number {
  for (let i = 0; i < view.getUint32(start + 12); i++) {
    const group = start + 16 + 12 * i
    const first = view.getUint32(group)
    if (codePoint >= first && codePoint <= view.getUint32(group + 4))
      return view.getUint32(group + 8) + codePoint - first
  }
  return 0
}

function segmentIndex(view: DataView, start: number, codePoint: number): number {
  const doubled = view.getUint16(start + 6)
  for (let i = 0; i < doubled; i += 2) {
    if (codePoint > view.getUint16(start + 14 + i)) continue
    const first = view.getUint16(start + 16 + doubled + i)
    if (codePoint < first) return 0
    const delta = view.getInt16(start + 16 + 2 * doubled + i)
    const rangeAt = start + 16 + 3 * doubled + i
    const range = view.getUint16(rangeAt)
    if (range === 0) return (codePoint + delta) & 0xffff
    const index = view.getUint16(rangeAt + range + 2 * (codePoint - first))
    return index === 0 ? 0 : (index + delta) & 0xffff
  }
  return 0
}

function contoursOf(font: OpenFont, index: number, depth: number): Contour[] {
  const start = font.location(index)
  if (start === font.location(index + 1) || depth > DEEPEST) return []
  const count = font.view.getInt16(font.glyf + start)
  return count >= 0
    ? simpleGlyph(font.view, font.glyf + start, count)
    : compositeGlyph(font, font.glyf + start, depth)
}

function simpleGlyph(view: DataView, start: number, count: number): Contour[] {
  const ends = Array.from({ length: count }, (_, i) => view.getUint16(start + 10 + 2 * i))
  const points = (ends.at(-1) ?? -1) + 1
  let at = start + 10 + 2 * count
  at += 2 + view.getUint16(at)
  const flags: number[] = []
  while (flags.length < points) {
    const flag = view.getUint8(at++)
    flags.push(flag)
    if (flag & 8) for (let n = view.getUint8(at++); n > 0; n--) flags.push(flag)
  }
  const axis = (short: number, same: number): number[] => {
    let value = 0
    return flags.slice(0, points).map((flag) => {
      if (flag & short) value += (flag & same ? 1 : -1) * view.getUint8(at++)
      else if (!(flag & same)) {
        value += view.getInt16(at)
        at += 2
      }
      return value
    })
  }
  const xs = axis(2, 16)
  const ys = axis(4, 32)
  return ends.map((end, i) => {
    const first = i === 0 ? 0 : ends[i - 1]! + 1
    const of = (list: number[]) => list.slice(first, end + 1)
    return flatten(of(xs), of(ys), of(flags))
  })
}

/** A contour of on-curve points and quadratic control points as straight pieces. */
function flatten(xs: number[], ys: number[], flags: number[]): Contour {
  const n = xs.length
  const onCurve = (i: number) => (flags[i]! & 1) === 1
  const middle = (i: number, j: number) => [(xs[i]! + xs[j]!) / 2, (ys[i]! + ys[j]!) / 2] as const
  const begin = flags.findIndex((flag) => flag & 1)
  const out: number[] = []
  let [x, y] = begin < 0 ? middle(n - 1, 0) : [xs[begin]!, ys[begin]!]
  out.push(x, y)
  for (let k = 0; k < n; k++) {
    const i = (Math.max(begin, -1) + 1 + k) % n
    if (onCurve(i)) {
      x = xs[i]!
      y = ys[i]!
      out.push(x, y)
      continue
    }
    const next = (i + 1) % n
    const [ex, ey] = onCurve(next) ? [xs[next]!, ys[next]!] : middle(i, next)
    for (let p = 1; p <= PIECES; p++) {
      const t = p / PIECES
      const s = 1 - t
      out.push(s * s * x + 2 * s * t * xs[i]! + t * t * ex, s * s * y + 2 * s * t * ys[i]! + t * t * ey)
    }
    x = ex
    y = ey
  }
  return out
}

function compositeGlyph(font: OpenFont, start: number, depth: number): Contour[] {
  const { view } = font
  const contours: Contour[] = []
  let at = start + 10
  for (let more = true; more;) {
    const flags = view.getUint16(at)
    const index = view.getUint16(at + 2)
    at += 4
    const words = (flags & 1) !== 0
    const dx = words ? view.getInt16(at) : view.getInt8(at)
    const dy = words ? view.getInt16(at + 2) : view.getInt8(at + 1)
    at += words ? 4 : 2
    const factor = () => {
      at += 2
      return view.getInt16(at - 2) / 16384
    }
    let [a, b, c, d] = [1, 0, 0, 1]
    if (flags & 8) a = d = factor()
    else if (flags & 64) [a, d] = [factor(), factor()]
    else if (flags & 128) [a, b, c, d] = [factor(), factor(), factor(), factor()]
    for (const contour of contoursOf(font, index, depth + 1)) {
      const moved: number[] = []
      for (let i = 0; i < contour.length; i += 2) {
        const [x, y] = [contour[i]!, contour[i + 1]!]
        moved.push(a * x + c * y + dx, b * x + d * y + dy)
      }
      contours.push(moved)
    }
    more = (flags & 32) !== 0
  }
  return contours
}
