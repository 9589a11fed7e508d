/** That the search for the worst slip finds it: a missed one would make clamps look better than they are. */
import { describe, expect, test } from 'vitest'
import { SlipGroup, type FrictionPoint, type SlipLoads } from '../../helpers/slipGroup.ts'
import type { SlipStop } from '../../../src-core/holding/slipStops.ts'
import { expectNear } from '../../helpers/near.ts'

const at = (x: number, y: number, capacity: number): FrictionPoint => ({ at: { x, y }, capacity })

const NO_STOPS: readonly SlipStop[] = []

/** D/P of one slip, written out from its definition: v at each place, dot products, no short cuts. */
function ratio(
  points: readonly FrictionPoint[],
  loads: SlipLoads,
  omega: number,
  a: number,
  b: number,
  stops = NO_STOPS,
) {
  const v = { x: Math.sin(a) * Math.cos(b), y: Math.sin(a) * Math.sin(b) }
  const w = Math.cos(a) / 75
  const speedAt = (p: { x: number; y: number }) => ({ x: v.x - w * p.y, y: v.y + w * p.x })
  const size = (s: { x: number; y: number }) => Math.hypot(s.x, s.y)
  const grip = points.reduce((sum, p) => sum + p.capacity * size(speedAt(p.at)), 0)
  const resist = stops.reduce((sum, { at: c, into, capacity }) => {
    const s = speedAt(c)
    return sum + capacity * Math.max(0, s.x * into.x + s.y * into.y)
  }, grip)
  const part = speedAt(loads.centre)
  const drive =
    (loads.mass * omega ** 2 * (loads.centre.x * part.x + loads.centre.y * part.y)) / 1000 +
    loads.mass * 9.80665 * size(part) +
    loads.force * size(v) +
    loads.torque * Math.abs(w)
  return drive > 1e-12 ? resist / drive : Infinity
}

/** Every local minimum of a 2° grid over the whole sphere, each followed down by a compass search. */
function bruteForce(
  points: readonly FrictionPoint[],
  loads: SlipLoads,
  omega: number,
  stops = NO_STOPS,
): number {
  const rows = 90
  const columns = 180
  const step = Math.PI / rows
  const f = (a: number, b: number) => ratio(points, loads, omega, a, b, stops)
  const grid = Array.from({ length: rows + 1 }, (_, i) =>
    Array.from({ length: columns }, (_, k) => f(i * step, k * step)),
  )
  let least = Infinity
  for (let i = 0; i <= rows; i++)
    for (let k = 0; k < columns; k++) {
      let value = grid[i]![k]!
      const around = [grid[i - 1]?.[k], grid[i + 1]?.[k], grid[i]![(k + 1) % columns], grid[i]!.at(k - 1)]
      if (around.some((n) => n !== undefined && n < value)) continue
      let [a, b] = [i * step, k * step]
      for (let h = step; h > 1e-8;) {
        let moved = false
        for (let d = 0; d < 12 && !moved; d++) {
          const [ta, tb] = [a + h * Math.cos((d * Math.PI) / 6), b + h * Math.sin((d * Math.PI) / 6)]
          const tried = f(ta, tb)
          if (tried < value) {
            ;[a, b, value, moved] = [ta, tb, tried, true]
          }
        }
        if (!moved) h /= 2
      }
      least = Math.min(least, value)
    }
  return least
}

describe('against brute force', () => {
  /** At rest a slip and its opposite do the same, so two starts may be one. This group's second valley is the lower. */
  test('two valleys at rest: the lower is found', () => {
    const points = [
      at(-50.07, -101.457, 107.463),
      at(96.109, -0.173, 1347.883),
      at(75.222, -9.717, 393.273),
      at(116.548, -91.787, 646.338),
      at(-107.312, 80.181, 70.097),
      at(26.694, -99.887, 493.245),
    ]
    const loads = { mass: 16.373, centre: { x: -23.798, y: -43.737 }, force: 560.417, torque: 0 }
    const found = new SlipGroup(points, loads).factor(0)
    expectNear(found, 2.20106, { rel: 1e-4 })
    expectNear(found, bruteForce(points, loads, 0), { rel: 1e-9 })
  })

  /** The lattice's lowest point lies in the higher of two valleys here. */
  test('two valleys nearly as deep: the lower is found', () => {
    const points = [at(123, 28, 108), at(31, 87, 727), at(120, 6, 494)]
    const loads = { mass: 16, centre: { x: -67, y: -45 }, force: 894, torque: 20_346 }
    expectNear(new SlipGroup(points, loads).factor(0), bruteForce(points, loads, 0), { rel: 1e-7 })
  })

  test('ten groups, at rest and at speed, with clamps of very unlike strength', () => {
    let seed = 20
    const random = () => (seed = (seed * 1103515245 + 12345) % 2147483648) / 2147483648
    const within = (reach: number) => (2 * random() - 1) * reach
    for (let n = 0; n < 10; n++) {
      const points = Array.from({ length: 2 + (n % 5) }, () =>
        at(within(130), within(130), 40 + 1600 * random() ** 3),
      )
      const loads = {
        mass: 0.3 + 18 * random(),
        centre: { x: within(90), y: within(90) },
        force: n % 3 === 0 ? 0 : 900 * random(),
        torque: n % 4 === 0 ? 0 : 30_000 * random(),
      }
      for (const omega of [0, 31])
        expectNear(new SlipGroup(points, loads).factor(omega), bruteForce(points, loads, omega), {
          rel: 1e-7,
          abs: 1e-9,
        })
    }
  })
})

test('eight groups with one to three stops, against brute force', () => {
  let seed = 77
  const random = () => (seed = (seed * 1103515245 + 12345) % 2147483648) / 2147483648
  const within = (reach: number) => (2 * random() - 1) * reach
  for (let n = 0; n < 8; n++) {
    const points = Array.from({ length: 2 + (n % 4) }, () =>
      at(within(130), within(130), 40 + 1600 * random() ** 3),
    )
    const stops = Array.from({ length: 1 + (n % 3) }, () => {
      const way = within(Math.PI)
      return {
        at: { x: within(130), y: within(130) },
        into: { x: Math.cos(way), y: Math.sin(way) },
        capacity: 2000 * random(),
      }
    })
    const loads = {
      mass: 0.3 + 18 * random(),
      centre: { x: within(90), y: within(90) },
      force: n % 3 === 0 ? 0 : 900 * random(),
      torque: n % 4 === 0 ? 0 : 30_000 * random(),
    }
    const found = new SlipGroup(points, loads, stops).factor(31)
    const brute = bruteForce(points, loads, 31, stops)
    // The compass search stops short on a crease; that no less is found than there is, the linear program sees to.
    expect(found).toBeLessThanOrEqual(brute * (1 + 1e-7))
  }
})

describe('by hand', () => {
  test('a push into a stop: friction and what the stop bears; away from it friction alone', () => {
    const ring = Array.from({ length: 6 }, (_, i) =>
      at(60 * Math.cos((i * Math.PI) / 3), 60 * Math.sin((i * Math.PI) / 3), 250),
    )
    // Pull of 500 N along x: 4 kg, 0.125 m out, at 31.6 rad/s.
    const loads = { mass: 4, centre: { x: 125, y: 0 }, force: 0, torque: 0 }
    const omega = Math.sqrt(1000)
    const towards = (x: number) => [{ at: { x, y: 0 }, into: { x: Math.sign(x), y: 0 }, capacity: 700 }]
    const factor = (x: number) => new SlipGroup(ring, loads, towards(x)).factor(omega)
    expect(factor(80)).toBeGreaterThan(1.1 * factor(-80))
    const weight = 4 * 9.80665
    // Straight into it, weight worst.
    expect(factor(80)).toBeLessThanOrEqual(((1500 + 700) / (500 + weight)) * (1 + 1e-9))
    expectNear(factor(-80), new SlipGroup(ring, loads).factor(omega), { rel: 1e-9 })
  })

  test('a symmetric pair against pure torque: Σ c·r / M', () => {
    const pair = [at(70, 0, 600), at(-70, 0, 600)]
    const loads = { mass: 0, centre: { x: 0, y: 0 }, force: 0, torque: 30_000 }
    expectNear(new SlipGroup(pair, loads).factor(0), (600 * 70 * 2) / 30_000, { rel: 1e-12 })
  })

  test('a close ring against a force through its middle: Σ c / F', () => {
    const ring = Array.from({ length: 6 }, (_, i) =>
      at(60 * Math.cos((i * Math.PI) / 3), 60 * Math.sin((i * Math.PI) / 3), 250),
    )
    const loads = { mass: 0, centre: { x: 0, y: 0 }, force: 500, torque: 0 }
    expectNear(new SlipGroup(ring, loads).factor(0), 1500 / 500, { rel: 1e-9 })
  })

  test('one clamp cannot stop the part from turning about it', () => {
    const loads = { mass: 2, centre: { x: 10, y: 0 }, force: 100, torque: 2000 }
    const group = new SlipGroup([at(50, 0, 5000)], loads)
    expectNear(group.factor(0), 0, { abs: 1e-9 })
    expect(group.speedAtFactor(2)).toBe(0)
  })

  test('a part centred on the axis is not pulled: speed cannot lower its factor, nor mend one below 2 at rest', () => {
    const ring = [at(60, 0, 100), at(-30, 52, 100), at(-30, -52, 100)]
    const loads = { mass: 3, centre: { x: 0, y: 0 }, force: 0, torque: 0 }
    const light = new SlipGroup(ring, loads)
    expect(light.factor(0)).toBeGreaterThan(2)
    expect(light.factor(100)).toBe(light.factor(0))
    expect(light.speedAtFactor(2)).toBe(Infinity)
    expect(new SlipGroup(ring, { ...loads, mass: 30 }).speedAtFactor(2)).toBe(0)
  })
})
