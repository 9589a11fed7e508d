/**
 * Points typed while drawing, as one would say them: `40, 20` from the part's origin, `by 10, 0` from the last point,
 * `by 25 at 30` as length and direction, `25` as a bare length, `40, 20 radius 15` by an arc of that radius. Every number may be an expression with a unit.
 */
import { readExpression } from '../../../src-core/units/expression.ts'
import { onCircle, toRadians } from '../../../src-core/geometry/angles.ts'
import type { Point } from '../../../src-core/geometry/types.ts'

export type Typed =
  /** `radius`: of the arc that leads there; positive turns counter-clockwise. */
  | { readonly kind: 'point'; readonly point: Point; readonly radius?: number; readonly relative: boolean }
  | { readonly kind: 'value'; readonly value: number }
  | { readonly kind: 'refused'; readonly reason: string }

/** What may be typed, in figures of the units shown: what the field offers is what is read. */
export const ENTRIES = {
  mm: { point: '40, 20', step: 'by 10, 0', aimed: 'by 25 at 30', length: '25', arc: '40, 20 radius 15' },
  in: {
    point: '1-1/2, 3/4',
    step: 'by 1/2, 0',
    aimed: 'by 1 at 30',
    length: '1-1/4',
    arc: '1-1/2, 3/4 radius 1',
  },
} as const

/** Starts a step from the last point. */
const BY = /^by\b/i
/** Between a length and its direction. */
const AT = /\bat\b/i

const refused = (reason: string): Typed => ({ kind: 'refused', reason })

/** After a point: the radius of the arc to it. */
const RADIUS = /\bradius\s*([-+(\d.].*)$/i

/** All kinds of entry with an example of each. */
export function entryWords(unit: 'mm' | 'in'): string {
  const e = ENTRIES[unit]
  return `Type a point (${e.point}), a step (${e.step}), a length and direction (${e.aimed}), a length (${e.length}) or a point by an arc (${e.arc}).`
}

/** A point, and the radius of the arc that leads to it where one is given. `unit` is that of plain numbers; results are in mm. `last` is where relative points count from. */
export function readTyped(
  text: string,
  last: Point | null,
  unit: 'mm' | 'in',
  toMm: (v: number) => number,
): Typed {
  const arc = RADIUS.exec(text)
  if (!arc) return readPoint(text, last, unit, toMm)
  const entry = readPoint(text.slice(0, arc.index).trim(), last, unit, toMm)
  if (entry.kind === 'value')
    return refused(`An arc needs the point it goes to and its radius: ${ENTRIES[unit].arc}.`)
  if (entry.kind === 'refused') return entry
  const read = readExpression(arc[1]!, { unit, kind: 'A radius' })
  if (!read.ok) return refused(read.reason)
  return { ...entry, radius: toMm(read.value) }
}

function readPoint(text: string, last: Point | null, unit: 'mm' | 'in', toMm: (v: number) => number): Typed {
  const given = text.trim()
  if (given === '') return refused(entryWords(unit))
  const relative = BY.test(given)
  if (relative && !last) return refused('There is no point yet that "by" could count from.')
  const rest = given.replace(BY, '')
  const origin = relative && last ? last : { x: 0, y: 0 }
  const number = (part: string) => {
    const read = readExpression(part, { unit, kind: 'A length' })
    return read.ok ? { ok: true as const, value: toMm(read.value) } : read
  }
  if (AT.test(rest)) return polar(rest, origin, relative, number)
  const parts = split(rest)
  if (parts.length > 2)
    return refused('A point has two numbers; part them by a comma and a space, or a semicolon.')
  const values = parts.map(number)
  const bad = values.find((v) => !v.ok)
  const halves = rest.trim().split(/\s+/)
  if (bad && halves.length === 2 && halves.every((h) => number(h).ok))
    return refused(`Part the two numbers by a comma: ${halves.join(', ')}.`)
  if (bad && !bad.ok) return refused(bad.reason)
  const [a, b] = values.map((v) => (v.ok ? v.value : 0))
  if (b === undefined)
    return relative
      ? refused('After "by" two numbers are wanted, or a length at an angle.')
      : { kind: 'value', value: a! }
  return { kind: 'point', relative, point: { x: origin.x + a!, y: origin.y + b } }
}

type Read = (part: string) => { ok: true; value: number } | { ok: false; reason: string }

function polar(text: string, origin: Point, relative: boolean, number: Read): Typed {
  const [lengthText, angleText, more] = text.split(AT)
  if (more !== undefined) return refused('One "at" parts length and angle.')
  const length = number(lengthText!)
  if (!length.ok) return refused(length.reason)
  const angle = readExpression(angleText!, { unit: 'deg', kind: 'An angle' })
  if (!angle.ok) return refused(angle.reason)
  const t = toRadians(angle.value)
  return {
    kind: 'point',
    relative,
    point: onCircle(origin, length.value, t),
  }
}

/** A semicolon parts surely, then a comma with a space, then any comma: here a comma is no decimal sign. */
function split(text: string): string[] {
  if (text.includes(';')) return text.split(';')
  if (/,\s/.test(text)) return text.split(/,\s+/)
  const commas = text.split(',')
  return commas
}
