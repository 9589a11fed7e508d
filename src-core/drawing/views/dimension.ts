/**
 * Linear dimensions after ISO 129-1: extension lines with a gap, closed filled arrowheads, the value above the
 * dimension line, readable from the bottom or the right of the sheet. Sheet mm.
 */
import { angleTowards, onCircle, toDegrees, toRadians } from '../../geometry/angles.ts'
import type { Point } from '../../geometry/types.ts'
import { handFirst, isHidden, type DimensionChoices } from './choices.ts'
import { dimensionName } from './dimensionNames.ts'
import { LETTERING } from '../text/lettering.ts'
import type { DimensionPrimitive, PlainPrimitive } from '../model/model.ts'
import { quad, quadsMeet, segmentMeetsQuad, type Quad, type Segment } from '../placing/quad.ts'
import type { Label } from '../placing/placeLabels.ts'
import { APART, FROM_LINE, type Candidate } from '../placing/option.ts'
import { arrowhead, line, text } from '../model/primitives.ts'
import { settable, textWidth } from '../text/textWidth.ts'

const GAP = 1
const OVERSHOOT = 2
const ARROW = 3
/** From the dimension line to the foot of the value. */
const LIFT = 0.9
const HEIGHT = LETTERING.read
const OFFSET_COST = 0.3

export interface DimensionSpec {
  readonly id: string
  /** Points measured, sheet mm. */
  readonly from: Point
  readonly to: Point
  /** Direction of the measurement, radians; the dimension line runs along it. */
  readonly direction: number
  /** Model mm, and sheet mm a model mm. */
  readonly value: number
  readonly scale: number
  readonly text: string
  /** mm from the point within which a line of the drawing already stands in for the extension line. */
  readonly clearFrom?: number
  readonly clearTo?: number
}

/** Where the value stands: at a share of the way between the arrowheads, or on the line drawn on past one end. */
type TextPlace = number | 'after' | 'before'

interface BuiltDimension {
  draw(): DimensionPrimitive
  readonly quad: Quad
  readonly lines: readonly Segment[]
  /** Whether the value fits between the arrowheads. */
  readonly fits: boolean
  /** Whether it also fits away from the middle. */
  readonly isLong: boolean
}

/** A dimension whose line runs at `offset` to the left of `from`, seen along the direction. */
function buildDimension(spec: DimensionSpec, offset: number, place: TextPlace): BuiltDimension {
  const { from, ux, uy, length, away } = measured(spec)
  const at = (along: number, left: number): Point => ({
    x: from.x + ux * along - uy * left,
    y: from.y + uy * along + ux * left,
  })
  const a = at(0, offset)
  const b = at(length, offset)
  const width = textWidth(spec.text, HEIGHT)
  const arrowsInside = length >= 2 * ARROW + 1.5
  const fits = arrowsInside && length >= width + 3
  const lines: Segment[] = []
  for (const [along, foot, clear] of [
    [0, 0, spec.clearFrom ?? GAP],
    [length, away, spec.clearTo ?? GAP],
  ] as const) {
    const reach = offset - foot
    const side = Math.sign(reach)
    if (Math.abs(reach) > clear)
      lines.push({ a: at(along, foot + side * clear), b: at(along, offset + side * OVERSHOOT) })
  }
  const tail = arrowsInside ? 0 : 2 * ARROW
  const carry = width + ARROW + 1
  const start = place === 'before' ? -carry : -tail
  const end = place === 'after' ? length + carry : length + tail
  lines.push({ a: at(start, offset), b: at(end, offset) })
  const middle =
    place === 'after'
      ? length + ARROW + 1 + width / 2
      : place === 'before'
        ? -ARROW - 1 - width / 2
        : length * place
  const direction = Math.atan2(uy, ux)
  const { angle, up } = readable(direction)
  const textAt = at(middle, offset + up * LIFT)
  const parts = (): PlainPrimitive[] => [
    ...lines.map((s) => line('dimension', s.a, s.b)),
    arrowhead('dimension', a, arrowsInside ? direction + Math.PI : direction, ARROW),
    arrowhead('dimension', b, arrowsInside ? direction : direction + Math.PI, ARROW),
    text(textAt, spec.text, HEIGHT, { anchor: 'middle', angle, layer: 'dimension' }),
  ]
  return {
    draw: () => ({
      kind: 'dimension',
      layer: 'dimension',
      id: spec.id,
      from,
      to: at(length, away),
      line: { a, b },
      text: settable(spec.text),
      textAt,
      textAngle: angle,
      height: HEIGHT,
      value: spec.value,
      scale: spec.scale,
      parts: parts(),
    }),
    quad: quad(at(middle, offset + up * (LIFT + HEIGHT / 2)), width, HEIGHT, toRadians(angle)),
    lines,
    fits,
    isLong: fits && 0.3 * length >= width / 2 + ARROW + 1,
  }
}

/**
 * A dimension as a label: its line at one of several offsets, the best first, and its value outside the arrowheads
 * where it must be. None where the user hid it; where he moved it, there before anywhere else.
 */
export function dimensionLabel(
  spec: DimensionSpec,
  offsets: readonly number[],
  choices: DimensionChoices,
): Label[] {
  if (isHidden(choices, spec.id)) return []
  const offset = Object.hasOwn(choices, spec.id) ? choices[spec.id]!.offset : undefined
  const automatic = offsets.flatMap((at, i) =>
    candidatesAt(spec, at).map((c) => ({ ...c, cost: c.cost + i * OFFSET_COST })),
  )
  const candidates = offset === undefined ? automatic : handFirst(candidatesAt(spec, offset), automatic)
  return [{ id: spec.id, words: dimensionWords(spec), candidates }]
}

/** A dimension and the offsets at which its line may run, the best first. */
export interface OffsetDimension {
  readonly spec: DimensionSpec
  readonly offsets: readonly number[]
}

/** Offsets at which each of a pair is tried where they find no level together. */
const APART_LEVELS = 8

/** Two dimensions that are read together: their lines on one level, the nth of either's offsets, wherever there is room. */
export function pairLabel(one: OffsetDimension, other: OffsetDimension): Label {
  const at = ({ spec, offsets }: OffsetDimension, i: number) => candidatesAt(spec, offsets[i]!)
  const levels = Math.min(one.offsets.length, other.offsets.length)
  const both = (i: number, k: number, extra: number): Candidate[] =>
    at(one, i).flatMap((a) =>
      at(other, k).flatMap((b) => together(a, b, ((i + k) / 2) * OFFSET_COST + extra)),
    )
  const few = [...Array(Math.min(levels, APART_LEVELS)).keys()]
  return {
    id: `${one.spec.id} and ${other.spec.id}`,
    words: `${dimensionWords(one.spec)}, ${dimensionWords(other.spec)}`,
    candidates: [...Array(levels).keys()].flatMap((i) => both(i, i, 0)),
    spare: () => few.flatMap((i) => few.flatMap((k) => (i === k ? [] : both(i, k, 5)))),
  }
}

/** Both as one candidate; none where one runs through the other's value. */
function together(a: Candidate, b: Candidate, extra: number): Candidate[] {
  const through = (c: Candidate, d: Candidate) =>
    c.quads.some(
      (q) =>
        d.quads.some((t) => quadsMeet(q, t, APART)) || d.lines.some((s) => segmentMeetsQuad(s, q, FROM_LINE)),
    )
  if (through(a, b) || through(b, a)) return []
  return [
    {
      quads: [...a.quads, ...b.quads],
      lines: [...a.lines, ...b.lines],
      cost: a.cost + b.cost + extra,
      draw: () => [...a.draw(), ...b.draw()],
    },
  ]
}

/** Whether nobody moved or hid a dimension by hand. */
export const isUntouched = (choices: DimensionChoices, id: string): boolean =>
  !isHidden(choices, id) && !(Object.hasOwn(choices, id) && choices[id]!.offset !== undefined)

/** Name and value. */
export const dimensionWords = ({ id, text }: Pick<DimensionSpec, 'id' | 'text'>): string =>
  `${dimensionName(id)} ${text}`

/** The middle first; on a long line also nearer one end, where a centre line may be in the way of the middle. */
const PLACES: readonly TextPlace[] = [0.5, 0.3, 0.7, 'after', 'before']

function candidatesAt(spec: DimensionSpec, offset: number): Candidate[] {
  return PLACES.flatMap((place): Candidate[] => {
    const built = buildDimension(spec, offset, place)
    const between = typeof place === 'number'
    if (between && (!built.fits || (place !== 0.5 && !built.isLong))) return []
    const cost = place === 0.5 ? 0 : between ? 1.5 : built.fits ? 12 : 3
    return [{ quads: [built.quad], lines: built.lines, cost, draw: () => [built.draw()] }]
  })
}

/** The direction as a vector, the points' distance along it, and how far `to` lies to its left. */
function measured(spec: DimensionSpec): {
  from: Point
  ux: number
  uy: number
  length: number
  away: number
} {
  const ux = Math.cos(spec.direction)
  const uy = Math.sin(spec.direction)
  const dx = spec.to.x - spec.from.x
  const dy = spec.to.y - spec.from.y
  const along = dx * ux + dy * uy
  const left = dy * ux - dx * uy
  return { from: spec.from, ux, uy, length: along, away: left }
}

/** Steeper falls than this, degrees, are read from the right like upright text. */
const STEEPEST_FALL = -75

/** Angle at which text along a direction reads from the bottom or the right, degrees, and on which side it is then up. */
function readable(direction: number): { angle: number; up: 1 | -1 } {
  const degrees = toDegrees(direction)
  const turns = Math.ceil((degrees - (STEEPEST_FALL + 180)) / 180)
  return { angle: degrees - 180 * turns, up: turns % 2 === 0 ? 1 : -1 }
}

/**
 * A circle's diameter on a leader that points at its centre: candidates for the text's middle, best first.

 */
export function diameterCandidates(
  spec: Omit<DimensionSpec, 'from' | 'to' | 'direction' | 'clearFrom' | 'clearTo'> & {
    readonly centre: Point
    /** Sheet mm. */
    readonly radius: number
  },
  places: readonly { readonly at: Point; readonly cost: number }[],
): Candidate[] {
  const { centre, radius } = spec
  const width = textWidth(spec.text, HEIGHT)
  return places.map(({ at, cost }): Candidate => {
    const side = at.x >= centre.x ? -1 : 1
    const foot = { x: at.x + side * (width / 2 + 1), y: at.y }
    const lead = angleTowards(centre, foot)
    const near = onCircle(centre, radius, lead)
    const far = onCircle(centre, -radius, lead)
    const textAt = { x: at.x, y: at.y - HEIGHT / 2 }
    const dimension = (): DimensionPrimitive => ({
      kind: 'dimension',
      layer: 'dimension',
      id: spec.id,
      from: far,
      to: near,
      line: { a: far, b: near },
      text: settable(spec.text),
      textAt,
      textAngle: 0,
      height: HEIGHT,
      value: spec.value,
      scale: spec.scale,
      parts: [
        line('dimension', near, foot),
        arrowhead('dimension', near, lead + Math.PI, ARROW),
        text(textAt, spec.text, HEIGHT, { anchor: 'middle', layer: 'dimension' }),
      ],
    })
    return {
      quads: [quad(at, width, HEIGHT)],
      lines: [{ a: near, b: foot }],
      cost,
      draw: () => [dimension()],
    }
  })
}
