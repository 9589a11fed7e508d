/** Plane projective maps as 3 × 3 matrices by rows, on points (x, y, 1). */
import type { Point } from '../geometry/types.ts'

export type Matrix3 = readonly [number, number, number, number, number, number, number, number, number]

export function multiply(a: Matrix3, b: Matrix3): Matrix3 {
  const at = (r: number, c: number) =>
    a[3 * r]! * b[c]! + a[3 * r + 1]! * b[3 + c]! + a[3 * r + 2]! * b[6 + c]!
  return [at(0, 0), at(0, 1), at(0, 2), at(1, 0), at(1, 1), at(1, 2), at(2, 0), at(2, 1), at(2, 2)]
}

/** The adjugate: the inverse but for a factor, which a projective map does not feel. */
export function adjugate([a, b, c, d, e, f, g, h, i]: Matrix3): Matrix3 {
  return [
    e * i - f * h, c * h - b * i, b * f - c * e,
    f * g - d * i, a * i - c * g, c * d - a * f,
    d * h - e * g, b * g - a * h, a * e - b * d,
  ] // prettier-ignore
}

/** The third coordinate of a mapped point: what its first two are divided by; 0 on the horizon. */
export const weight = (m: Matrix3, p: Point): number => m[6] * p.x + m[7] * p.y + m[8]

export function project(m: Matrix3, p: Point): Point {
  const w = weight(m, p)
  return { x: (m[0] * p.x + m[1] * p.y + m[2]) / w, y: (m[3] * p.x + m[4] * p.y + m[5]) / w }
}
