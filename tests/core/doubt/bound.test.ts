import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { probabilityWithin, upperBound } from '../../../src-core/doubt/bound.ts'
import type { Covariance } from '../../../src-core/doubt/covariance.ts'
import { expectNear } from '../../helpers/near.ts'
import { normals, quantile } from '../../helpers/normal.ts'

const round = (s: number): Covariance => ({ xx: s * s, xy: 0, yy: s * s })
const O = { x: 0, y: 0 }

/** A covariance from its two standard deviations and the direction of the first, degrees. */
function turnedCovariance(s1: number, s2: number, degrees: number): Covariance {
  const c = Math.cos((degrees * Math.PI) / 180)
  const s = Math.sin((degrees * Math.PI) / 180)
  const [a, b] = [s1 * s1, s2 * s2]
  return { xx: a * c * c + b * s * s, xy: (a - b) * c * s, yy: a * s * s + b * c * c }
}

describe('upperBound in closed form', () => {
  it('is Rayleigh’s σ·√(−2 ln 0.05) where the estimate is nought', () => {
    for (const s of [1e-3, 1, 4567])
      expectNear(upperBound(O, round(s)), s * Math.sqrt(-2 * Math.log(0.05)), { rel: 1e-8 })
    expectNear(upperBound(O, round(3), 0.5), 3 * Math.sqrt(2 * Math.log(2)), { rel: 1e-8 })
  })

  it('is the one-sided 1.644854 σ beyond an estimate that is long against its doubt', () => {
    const z = 1.6448536269514722
    for (const k of [1e3, 1e5]) {
      // Doubt across the vector lengthens it by σ²/2U to first order.
      const expected = k + z + 1 / (2 * k)
      expectNear(upperBound({ x: k, y: 0 }, round(1)) - k, expected - k, { abs: 4 / k })
      expectNear(upperBound({ x: 0, y: -k }, round(1)) - k, expected - k, { abs: 4 / k })
    }
  })

  it('is the two-sided 1.959964 σ where the doubt lies along one line through nought', () => {
    for (const angle of [0, 30, 90, 135])
      expectNear(upperBound(O, turnedCovariance(10, 0, angle)), 19.59963984540054, { rel: 1e-6 })
    // … and one-sided along the estimate itself.
    const c = turnedCovariance(10, 0, 0)
    expectNear(upperBound({ x: 1000, y: 0 }, c), 1016.44853627, { rel: 1e-9 })
  })

  it('grows with doubt across the estimate only by the arc: √(U² + 1.959964² σ²)', () => {
    const across = turnedCovariance(10, 0, 90)
    expectNear(upperBound({ x: 100, y: 0 }, across), Math.hypot(100, 19.59963984540054), { rel: 1e-8 })
  })

  it('is the estimate where there is no doubt', () => {
    expect(upperBound({ x: 3, y: -4 }, { xx: 0, xy: 0, yy: 0 })).toBe(5)
    expect(upperBound(O, { xx: 0, xy: 0, yy: 0 })).toBe(0)
  })
})

describe('laws of the bound', () => {
  const size = fc.integer({ min: 0, max: 4000 }).map((n) => n / 100)
  const cases = fc
    .tuple(size, size, fc.integer({ min: 0, max: 359 }), size, fc.integer({ min: 0, max: 359 }))
    .filter(([s1, s2]) => s1 + s2 > 0)
    .map(([s1, s2, turn, length, angle]) => ({ s1, s2, turn, length, angle }))
  const at = (length: number, degrees: number) => ({
    x: length * Math.cos((degrees * Math.PI) / 180),
    y: length * Math.sin((degrees * Math.PI) / 180),
  })

  it('it holds 95 % and lies beyond the estimate’s own distance but for 4 σ', () => {
    fc.assert(
      fc.property(cases, ({ s1, s2, turn, length, angle }) => {
        const mean = at(length, angle)
        const cov = turnedCovariance(s1, s2, turn)
        const bound = upperBound(mean, cov)
        if (Math.min(s1, s2) > 1e-6 * Math.max(s1, s2))
          expectNear(probabilityWithin(mean, cov, bound), 0.95, { abs: 1e-6 })
        expect(bound).toBeGreaterThanOrEqual(length * (1 - 1e-9))
        expect(bound).toBeLessThanOrEqual(length + 4 * Math.max(s1, s2))
      }),
      { numRuns: 300 },
    )
  })

  it('it turns with everything and scales with everything', () => {
    fc.assert(
      fc.property(cases, fc.integer({ min: 0, max: 359 }), ({ s1, s2, turn, length, angle }, by) => {
        const bound = upperBound(at(length, angle), turnedCovariance(s1, s2, turn))
        const turned = upperBound(at(length, angle + by), turnedCovariance(s1, s2, turn + by))
        // The fixed number of nodes shows where the estimate is hundreds of sigma long.
        expectNear(turned, bound, { rel: 3e-4 })
        const scaled = upperBound(at(1000 * length, angle), turnedCovariance(1000 * s1, 1000 * s2, turn))
        expectNear(scaled, 1000 * bound, { rel: 3e-4 })
      }),
      { numRuns: 300 },
    )
  })

  it('more doubt never lowers it', () => {
    fc.assert(
      fc.property(cases, size, ({ s1, s2, turn, length, angle }, more) => {
        const less = upperBound(at(length, angle), turnedCovariance(s1, s2, turn))
        const wider = turnedCovariance(Math.hypot(s1, more), Math.hypot(s2, more), turn)
        expect(upperBound(at(length, angle), wider)).toBeGreaterThanOrEqual(less * (1 - 1e-6))
      }),
      { numRuns: 300 },
    )
  })
})

describe('the bound against plain midpoint sums', () => {
  /** P(|U| ≤ R) by midpoint sums over both axes, no special nodes or substitution. */
  function plainSum(a: number, b: number, s1: number, s2: number, radius: number): number {
    const bell = (x: number, mean: number, s: number) =>
      Math.exp(-(((x - mean) / s) ** 2) / 2) / (s * Math.sqrt(2 * Math.PI))
    const low = Math.max(-radius, b - 8 * s2)
    const high = Math.min(radius, b + 8 * s2)
    const steps = 1500
    const dv = (high - low) / steps
    // The inner integral's running sum is read off a table.
    const table = new Float64Array(20_001)
    for (let i = 1; i < table.length; i++)
      table[i] = table[i - 1]! + bell((i - 0.5) * 0.001 - 10, 0, 1) * 0.001
    const below = (x: number) => {
      const at = (Math.max(-10, Math.min(9.999, x)) + 10) / 0.001
      const i = Math.floor(at)
      return table[i]! + (at - i) * (table[i + 1]! - table[i]!)
    }
    let sum = 0
    for (let i = 0; i < steps; i++) {
      const v = low + (i + 0.5) * dv
      const h = Math.sqrt(radius * radius - v * v)
      sum += bell(v, b, s2) * (below((h - a) / s1) - below((-h - a) / s1)) * dv
    }
    return sum
  }

  it.each([1, 0.5, 0.1, 0.01])('minor over major sigma %f', (ratio) => {
    for (const k of [0, 0.5, 1, 3, 10, 30, 100]) {
      for (const angle of [0, 20, 45, 70, 90]) {
        const a = k * Math.cos((angle * Math.PI) / 180)
        const b = k * Math.sin((angle * Math.PI) / 180)
        const bound = upperBound({ x: a, y: b }, { xx: 1, xy: 0, yy: ratio * ratio })
        expectNear(plainSum(a, b, 1, ratio, bound), 0.95, { abs: 1e-3 })
      }
    }
  })
})

describe('a Monte Carlo run of 200,000 draws', () => {
  const DRAWS = 200_000
  const cases: [string, { x: number; y: number }, Covariance][] = [
    ['round, nothing estimated', O, round(1000)],
    ['round, as long as its doubt', { x: 1000, y: 0 }, round(1000)],
    ['long and narrow along', { x: 3000, y: 1500 }, turnedCovariance(1200, 150, 26.6)],
    ['long and narrow across', { x: 3000, y: 1500 }, turnedCovariance(1200, 150, 116.6)],
    ['askew', { x: -800, y: 2000 }, turnedCovariance(900, 300, 40)],
    ['askew about nought', O, turnedCovariance(900, 300, -70)],
    ['nearly on a line', { x: 500, y: 500 }, turnedCovariance(700, 1, 10)],
  ]

  it.each(cases)('agrees to one per cent: %s', (_, mean, cov) => {
    const random = normals(20_240)
    // Cholesky: any square root of the covariance will do.
    const l11 = Math.sqrt(cov.xx)
    const l21 = cov.xy / l11
    const l22 = Math.sqrt(Math.max(0, cov.yy - l21 * l21))
    const lengths = new Float64Array(DRAWS)
    for (let i = 0; i < DRAWS; i++) {
      const [a, b] = [random(), random()]
      lengths[i] = Math.hypot(mean.x + l11 * a, mean.y + l21 * a + l22 * b)
    }
    for (const share of [0.5, 0.95, 0.99])
      expectNear(upperBound(mean, cov, share), quantile(lengths, share), { rel: 0.01 })
    const bound = upperBound(mean, cov)
    const within = lengths.filter((l) => l <= bound).length / DRAWS
    expectNear(within, 0.95, { abs: 0.002 })
  })
})
