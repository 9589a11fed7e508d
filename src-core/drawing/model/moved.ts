/** Primitives moved and made larger or smaller, with all their lettering. */
import type { Point } from '../../geometry/types.ts'
import type { DimensionPrimitive, PathStep, PlainPrimitive, Primitive } from './model.ts'

/** Takes (x, y) to `factor` × (x, y) + `by`. */
export interface Move {
  readonly factor: number
  readonly by: Point
}

const point = ({ factor, by }: Move, { x, y }: Point): Point => ({
  x: factor * x + by.x,
  y: factor * y + by.y,
})

export function movedPlain(p: PlainPrimitive, move: Move): PlainPrimitive {
  switch (p.kind) {
    case 'path':
      return {
        ...p,
        steps: p.steps.map((s): PathStep => (s.to === 'close' ? s : { ...s, ...point(move, s) })),
      }
    case 'circle':
      return { ...p, centre: point(move, p.centre), radius: move.factor * p.radius }
    case 'text':
      return { ...p, at: point(move, p.at), height: move.factor * p.height }
  }
}

/** Its value is the model's and stays; its scale becomes that of where it now stands. */
export function movedDimension(d: DimensionPrimitive, move: Move): DimensionPrimitive {
  return {
    ...d,
    from: point(move, d.from),
    to: point(move, d.to),
    line: { a: point(move, d.line.a), b: point(move, d.line.b) },
    textAt: point(move, d.textAt),
    height: move.factor * d.height,
    scale: move.factor * d.scale,
    parts: d.parts.map((p) => movedPlain(p, move)),
  }
}

export function movedPrimitive(p: Primitive, move: Move): Primitive {
  if (p.kind === 'dimension') return movedDimension(p, move)
  if (p.kind !== 'polar') return movedPlain(p, move)
  return {
    ...p,
    centre: point(move, p.centre),
    at: point(move, p.at),
    balloon: point(move, p.balloon),
    scale: move.factor * p.scale,
    parts: p.parts.map((part) => movedPlain(part, move)),
  }
}
