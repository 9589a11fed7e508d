/** Lengths, view boxes and transforms of SVG. */
import { IDENTITY, compose, rotation, scaling, translation, type Affine } from '../../geometry/affine.ts'
import { toRadians } from '../../geometry/angles.ts'
import { convert } from '../../units/convert.ts'
import { plainNumber } from '../refusal.ts'

/** CSS pixels an inch. */
const PER_INCH = 96
const UNIT = /^([+-]?[\d.]+(?:e[+-]?\d+)?)\s*([a-z%]*)$/i

export interface Length {
  readonly value: number
  /** '' or px, an absolute unit, % or a unit of the font. */
  readonly unit: string
}

/** Null for what is no number with a unit. */
export function parseLength(text: string): Length | null {
  const found = UNIT.exec(text.trim())
  if (!found) return null
  const value = plainNumber(found[1]!)
  return value === null ? null : { value, unit: found[2]!.toLowerCase() }
}

/** mm of an absolute unit, or null: CSS Values 4 fixes pt at 1/72 inch, pc at 1/6 inch, Q at a quarter millimetre. */
export function absoluteMm({ value, unit }: Length): number | null {
  if (unit === 'pt') return convert(value / 72, 'in', 'mm')
  if (unit === 'pc') return convert(value / 6, 'in', 'mm')
  if (unit === 'q') return value / 4
  return unit === 'mm' || unit === 'cm' || unit === 'in' ? convert(value, unit, 'mm') : null
}

/** In user units, or null where it depends on the font or on the size of what surrounds it. */
export function userLength(text: string): number | null {
  const length = parseLength(text)
  if (!length) return null
  if (length.unit === '' || length.unit === 'px') return length.value
  const mm = absoluteMm(length)
  return mm === null ? null : convert(mm, 'mm', 'in') * PER_INCH
}

export interface ViewBox {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/** In user units; null where it is left out, no four numbers or has no area. */
export function parseViewBox(text: string | undefined): ViewBox | null {
  const numbers = (text ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(plainNumber)
  if (numbers.length !== 4 || numbers.includes(null)) return null
  const [x, y, width, height] = numbers as [number, number, number, number]
  return width > 0 && height > 0 ? { x, y, width, height } : null
}

/** Maps a view box into a rectangle of the given size at the origin, by preserveAspectRatio. */
export function viewBoxMap(
  box: ViewBox,
  width: number,
  height: number,
  preserve: string | undefined,
): Affine {
  const [align = 'xMidYMid', how = 'meet'] = (preserve ?? '').trim().split(/\s+/).filter(Boolean)
  let sx = width / box.width
  let sy = height / box.height
  if (align !== 'none') sx = sy = how === 'slice' ? Math.max(sx, sy) : Math.min(sx, sy)
  const share = (word: string) => (word === 'Min' ? 0 : word === 'Max' ? 1 : 0.5)
  const ax = align === 'none' ? 0 : share(align.slice(1, 4)) * (width - box.width * sx)
  const ay = align === 'none' ? 0 : share(align.slice(5, 8)) * (height - box.height * sy)
  return compose(translation(ax, ay), compose(scaling(sx, sy), translation(-box.x, -box.y)))
}

const LONGEST_TRANSFORM = 10_000
const FUNCTION = /\s*,?\s*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)/y

/** A transform list, the first applied last; null where it is not one. */
export function parseTransform(text: string | undefined): Affine | null {
  if (text === undefined || text.trim() === '') return IDENTITY
  if (text.length > LONGEST_TRANSFORM) return null
  let result = IDENTITY
  let at = 0
  while (text.slice(at).trim() !== '') {
    FUNCTION.lastIndex = at
    const found = FUNCTION.exec(text)
    if (!found) return null
    at = FUNCTION.lastIndex
    const numbers = found[2]!
      .trim()
      .split(/[\s,]+/)
      .map(plainNumber)
    if (numbers.includes(null)) return null
    const map = oneTransform(found[1]!, numbers as number[])
    if (!map) return null
    result = compose(result, map)
  }
  return result
}

/** Angles turn from +x to +y, so the same formula holds with y down. */
function oneTransform(name: string, n: readonly number[]): Affine | null {
  const tan = (degrees: number) => Math.tan(toRadians(degrees))
  const [a, b, c, d, e, f] = n as [number, number, number, number, number, number]
  const count = n.length
  if (name === 'matrix') return count === 6 ? { a, b, c, d, e, f } : null
  if (name === 'translate') return count === 1 || count === 2 ? translation(a, b ?? 0) : null
  if (name === 'scale') return count === 1 || count === 2 ? scaling(a, b ?? a) : null
  if (name === 'skewX') return count === 1 ? { ...IDENTITY, c: tan(a) } : null
  if (name === 'skewY') return count === 1 ? { ...IDENTITY, b: tan(a) } : null
  if (count === 1) return rotation(a)
  return count === 3 ? compose(translation(b, c), compose(rotation(a), translation(-b, -c))) : null
}
