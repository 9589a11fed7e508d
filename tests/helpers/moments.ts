/** Comparing and carrying area moments, for laws. */
import type { Moments } from '../../src-core/geometry/ringMoments.ts'
import { expectNear } from './near.ts'

const MOMENT_KEYS = ['area', 'x', 'y', 'xx', 'xy', 'yy'] as const

const order = { area: 0, x: 1, y: 1, xx: 2, xy: 2, yy: 2 } as const

/** Each integral to `rel` of what area times the size (mm) to its power would be. */
export function expectMoments(actual: Moments, expected: Moments, size: number, rel: number): void {
  for (const key of MOMENT_KEYS) {
    expectNear(actual[key], expected[key], { abs: rel * Math.abs(expected.area) * size ** order[key] })
  }
}

/** Moments of the same area after a linear map x' = a·x + b·y, y' = c·x + d·y of determinant ±k². */
export function mapMoments(m: Moments, a: number, b: number, c: number, d: number): Moments {
  const k = Math.abs(a * d - b * c)
  return {
    area: k * m.area,
    x: k * (a * m.x + b * m.y),
    y: k * (c * m.x + d * m.y),
    xx: k * (a * a * m.xx + 2 * a * b * m.xy + b * b * m.yy),
    xy: k * (a * c * m.xx + (a * d + b * c) * m.xy + b * d * m.yy),
    yy: k * (c * c * m.xx + 2 * c * d * m.xy + d * d * m.yy),
  }
}

export function moveMoments(m: Moments, dx: number, dy: number): Moments {
  return {
    area: m.area,
    x: m.x + m.area * dx,
    y: m.y + m.area * dy,
    xx: m.xx + 2 * dx * m.x + m.area * dx * dx,
    xy: m.xy + dx * m.y + dy * m.x + m.area * dx * dy,
    yy: m.yy + 2 * dy * m.y + m.area * dy * dy,
  }
}

/** Of a rectangle from (x0, y0) to (x1, y1): powers integrated along each axis and multiplied. */
export function boxMoments(x0: number, y0: number, x1: number, y1: number): Moments {
  const power = (low: number, high: number, n: number) => (high ** (n + 1) - low ** (n + 1)) / (n + 1)
  const m = (i: number, j: number) => power(x0, x1, i) * power(y0, y1, j)
  return { area: m(0, 0), x: m(1, 0), y: m(0, 1), xx: m(2, 0), xy: m(1, 1), yy: m(0, 2) }
}

/** Of a circle: area πr², ∫u² dA = πr⁴/4 about its own centre. */
export function circleMoments(cx: number, cy: number, r: number): Moments {
  const area = Math.PI * r * r
  const own = (area * r * r) / 4
  return moveMoments({ area, x: 0, y: 0, xx: own, xy: 0, yy: own }, cx, cy)
}
