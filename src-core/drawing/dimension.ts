/** Linear dimensions after ISO 129-1: extension lines with a gap, filled arrowheads, text above the line. Sheet mm. */
import type { Point } from '../geometry/types.ts'
import type { DimensionPrimitive, PlainPrimitive } from './model.ts'
import type { LabelBox } from './placer.ts'
import { arrowhead, line, text } from './primitives.ts'
import { textWidth } from './textWidth.ts'

const GAP = 0.8
const OVERSHOOT = 1.6
const ARROW = 2.2
export const DIMENSION_TEXT = 2.5

export interface DimensionInput {
  /** Points measured, sheet mm. */
  readonly from: Point
  readonly to: Point
  /** Signed distance of the dimension line from the measured points, to the left of from → to. */
  readonly offset: number
  /** Model mm and sheet mm a model mm. */
  readonly value: number
  readonly scale: number
  readonly text: string
}

/** A dimension parallel to the line through its two points. */
export function linearDimension(input: DimensionInput): DimensionPrimitive {
  const { from, to, offset } = input
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1
  const ux = (to.x - from.x) / length
  const uy = (to.y - from.y) / length
  const nx = -uy
  const ny = ux
  const side = Math.sign(offset) || 1
  const at = (p: Point, along: number, away: number): Point => ({
    x: p.x + ux * along + nx * away,
    y: p.y + uy * along + ny * away,
  })
  const a = at(from, 0, offset)
  const b = at(to, 0, offset)
  const wide = textWidth(input.text, DIMENSION_TEXT)
  const inside = length > 2 * ARROW + 1
  const fits = length > wide + 1
  const direction = Math.atan2(uy, ux)
  const parts: PlainPrimitive[] = []
  for (const [p, foot] of [
    [from, a],
    [to, b],
  ] as const) {
    if (Math.abs(offset) > GAP)
      parts.push(line('dimension', at(p, 0, side * GAP), at(foot, 0, side * OVERSHOOT)))
  }
  const reach = fits ? 0 : wide + 2 * ARROW + 1
  if (inside) parts.push(line('dimension', a, fits ? b : at(b, reach, 0)))
  else parts.push(line('dimension', at(a, -2 * ARROW, 0), at(b, fits ? 2 * ARROW : reach, 0)))
  parts.push(arrowhead('dimension', a, inside ? direction + Math.PI : direction, ARROW))
  parts.push(arrowhead('dimension', b, inside ? direction : direction + Math.PI, ARROW))
  // Text reads from the bottom or from the right of the sheet.
  let angle = (direction * 180) / Math.PI
  let up = 1
  if (angle > 90 + 1e-6 || angle <= -90 + 1e-6) {
    angle += angle > 0 ? -180 : 180
    up = -1
  }
  const middle = fits ? length / 2 : length + 2 * ARROW + 0.5 + wide / 2
  const textAt = at(a, middle, up * 0.9)
  parts.push(text(textAt, input.text, DIMENSION_TEXT, { anchor: 'middle', angle, layer: 'dimension' }))
  return {
    kind: 'dimension',
    layer: 'dimension',
    from,
    to,
    line: { a, b },
    text: input.text,
    textAt,
    textAngle: angle,
    height: DIMENSION_TEXT,
    value: input.value,
    scale: input.scale,
    parts,
  }
}

/** Box of a dimension's text, for placing other labels clear of it. */
export function dimensionBox(d: DimensionPrimitive): LabelBox {
  const w = textWidth(d.text, d.height) / 2
  const angle = (d.textAngle * Math.PI) / 180
  const c = Math.cos(angle)
  const s = Math.sin(angle)
  const corners = [
    [-w, -0.5],
    [w, -0.5],
    [w, d.height + 0.5],
    [-w, d.height + 0.5],
  ].map(([u, v]) => ({
    x: d.textAt.x + u! * c - v! * s,
    y: d.textAt.y + u! * s + v! * c,
  }))
  return {
    x0: Math.min(...corners.map((p) => p.x)),
    y0: Math.min(...corners.map((p) => p.y)),
    x1: Math.max(...corners.map((p) => p.x)),
    y1: Math.max(...corners.map((p) => p.y)),
  }
}
