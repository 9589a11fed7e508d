/** Plane affine maps: x′ = a·x + c·y + e, y′ = b·x + d·y + f. */
import { toRadians, wholeTurn } from './angles.ts'
import { ROUNDING } from './tolerance.ts'
import type { Point } from './types.ts'

export interface Affine {
  readonly a: number
  readonly b: number
  readonly c: number
  readonly d: number
  readonly e: number
  readonly f: number
}

export const IDENTITY: Affine = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 }

export const translation = (e: number, f: number): Affine => ({ ...IDENTITY, e, f })
export const scaling = (a: number, d: number): Affine => ({ ...IDENTITY, a, d })

/** Counter-clockwise in a frame with y up, degrees. Quarter turns are exact. */
export function rotation(degrees: number): Affine {
  const turned = wholeTurn(degrees)
  const exact = [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ][turned / 90]
  const [c, s] = exact ?? [Math.cos(toRadians(turned)), Math.sin(toRadians(turned))]
  return { a: c!, b: s!, c: -s!, d: c!, e: 0, f: 0 }
}

/** First `inner`, then `outer`. */
export function compose(outer: Affine, inner: Affine): Affine {
  return {
    a: outer.a * inner.a + outer.c * inner.b,
    b: outer.b * inner.a + outer.d * inner.b,
    c: outer.a * inner.c + outer.c * inner.d,
    d: outer.b * inner.c + outer.d * inner.d,
    e: outer.a * inner.e + outer.c * inner.f + outer.e,
    f: outer.b * inner.e + outer.d * inner.f + outer.f,
  }
}

export const applyTo = (m: Affine, p: Point): Point => ({
  x: m.a * p.x + m.c * p.y + m.e,
  y: m.b * p.x + m.d * p.y + m.f,
})

/** Without the shift: for directions. */
export const applyToVector = (m: Affine, v: Point): Point => ({
  x: m.a * v.x + m.c * v.y,
  y: m.b * v.x + m.d * v.y,
})

/** Area of the image of a unit square; negative where it mirrors. */
export const determinant = (m: Affine) => m.a * m.d - m.b * m.c

/** Whether circles stay circles, to a part in 10⁹. */
export function keepsCircles(m: Affine): boolean {
  const size = Math.abs(m.a) + Math.abs(m.b) + Math.abs(m.c) + Math.abs(m.d)
  const direct = Math.abs(m.a - m.d) + Math.abs(m.b + m.c)
  const mirrored = Math.abs(m.a + m.d) + Math.abs(m.b - m.c)
  return Math.min(direct, mirrored) <= ROUNDING.share * size
}
