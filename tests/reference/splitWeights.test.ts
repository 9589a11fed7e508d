/** The planner's closed forms against worked examples in print. Full figures are recomputed from the same inputs. */
import { describe, expect, test } from 'vitest'
import { polar } from '../../src-core/geometry/angles.ts'
import {
  balanceInOnePlane,
  changeRadius,
  massForRadius,
  radiusForMass,
  splitOverTwoAngles,
  splitOverTwoPlanes,
  sumOfMoments,
  type PlacedMass,
} from '../../src-core/planner/closedForms.ts'
import { expectNear } from '../helpers/near.ts'

const placed = (mass: number, radius: number, angle: number): PlacedMass => ({ mass, radius, angle })

describe('one weight', () => {
  // reliabilityweb.com, "Balancing Weights: Radius Changes & Splitting".
  test('2.2 oz at 14 in does what 1.925 oz does at 16 in', () => {
    expectNear(changeRadius(2.2, 14, 16), 1.925, { rel: 1e-12 })
  })

  test('split over bolts at 240° and 280°', () => {
    const split = splitOverTwoAngles(1.925, 250, 240, 280)
    expect(split.kind).toBe('split')
    if (split.kind !== 'split') return
    expectNear(split.first, 1.4973842, { rel: 1e-7 })
    expectNear(split.second, 0.52003607, { rel: 1e-7 })
    const back = sumOfMoments([placed(split.first, 16, 240), placed(split.second, 16, 280)])
    expectNear(back.amount, 2.2 * 14, { rel: 1e-12 })
    expectNear(back.angle, 250, { rel: 1e-12 })
  })

  test('an equal pair at ±β gives 2·m·r·cos β', () => {
    for (const beta of [0, 10, 45, 80]) {
      const sum = sumOfMoments([placed(0.5, 100, 30 - beta), placed(0.5, 100, 30 + beta)])
      expectNear(sum.amount, 2 * 0.5 * 100 * Math.cos((beta * Math.PI) / 180), { rel: 1e-12 })
      expectNear(sum.angle, 30, { rel: 1e-9 })
    }
  })

  test('mass for a radius and radius for a mass undo one another', () => {
    expect(massForRadius(60_000, 120)).toBe(0.5)
    expect(radiusForMass(60_000, 0.5)).toBe(120)
    for (const nothing of [0, -1, Number.NaN]) {
      expect(() => massForRadius(1, nothing)).toThrow(RangeError)
      expect(() => radiusForMass(1, nothing)).toThrow(RangeError)
      expect(() => changeRadius(1, 1, nothing)).toThrow(RangeError)
    }
  })
})

// W. C. Foiles, "Weight Splitting into More than Two Locations": not to be had of two opposite places, and of two
// on one side only with a negative weight.
describe('splits that cannot be', () => {
  test('two angles in line', () => {
    expect(splitOverTwoAngles(1, 90, 0, 180)).toEqual({ kind: 'in line' })
    expect(splitOverTwoAngles(1, 20, 20, 20)).toEqual({ kind: 'in line' })
    expect(splitOverTwoAngles(1, 20, 10, 370)).toEqual({ kind: 'in line' })
  })

  test('both on one side: the shares are given, one of them negative', () => {
    const split = splitOverTwoAngles(1, 0, 20, 60)
    expect(split.kind).toBe('negative')
    if (split.kind !== 'negative') return
    expect(split.first).toBeGreaterThan(0)
    expect(split.second).toBeLessThan(0)
    const back = sumOfMoments([placed(split.first, 1, 20), placed(split.second, 1, 60)])
    expectNear(back.amount, 1, { rel: 1e-12 })
  })

  test('on one of the two angles the other gets nothing', () => {
    const split = splitOverTwoAngles(3, 45, 45, 100)
    expect(split).toMatchObject({ kind: 'split', second: 0 })
    if (split.kind === 'split') expectNear(split.first, 3, { rel: 1e-12 })
  })
})

describe('one plane', () => {
  test.each([
    {
      // Khurmi & Gupta, Theory of Machines, ch. 21, ex. 21.1 (116 kg at 201.48° by drawing).
      masses: [placed(200, 0.2, 0), placed(300, 0.15, 45), placed(240, 0.25, 120), placed(260, 0.3, 255)],
      radius: 0.2,
      mass: 116.09895,
      angle: 201.31191,
    },
    {
      // Textbook companion, "Balancing of Rotating Masses", p. 221, illustration 1 (8.1 kg at 267.5°).
      masses: [placed(12, 40, 0), placed(10, 50, 60), placed(18, 60, 130), placed(15, 30, 270)],
      radius: 100,
      mass: 8.1113065,
      angle: 267.47113,
    },
    {
      // mechdiploma.com, three masses (315 N; it prints the resultant's 60° for the balance's angle).
      masses: [placed(100, 0.3, 0), placed(200, 0.15, 45), placed(150, 0.25, 120)],
      radius: 0.2,
      mass: 313.70309,
      angle: 238.8407,
    },
    {
      masses: [placed(30, 45, 0), placed(60, 50, 90), placed(50, 70, 120), placed(25, 40, 270)],
      radius: 60,
      mass: 84.116083,
      angle: 274.54578,
    },
  ])('balance mass $mass at $angle°', ({ masses, radius, mass, angle }) => {
    const balance = balanceInOnePlane(masses, radius)
    expectNear(balance.mass, mass, { rel: 1e-7 })
    expectNear(balance.angle, angle, { rel: 1e-7 })
    const first = masses[0]!
    expectNear(sumOfMoments([...masses, balance]).amount, 0, { abs: 1e-10 * first.mass * first.radius })
  })
})

describe('two planes', () => {
  const at = (mass: number, radius: number, angle: number, z: number) => ({
    ...polar(mass * radius, angle),
    z,
  })
  test.each([
    {
      // Khurmi & Gupta, ex. 21.2 (355 kg and 182.5 kg by drawing).
      unbalances: [at(200, 80, 0, 0), at(300, 70, 45, 300), at(400, 60, 115, 400), at(200, 80, 235, 700)],
      planes: [100, 500] as const,
      radius: 100,
      p: [352.97212, 213.37132],
      q: [184.05902, 347.19773],
    },
    {
      unbalances: [at(18, 50, 0, 0), at(14, 60, 60, 80), at(16, 70, 135, 160), at(12, 60, 270, 280)],
      planes: [40, 220] as const,
      radius: 50,
      p: [31.599211, 222.61737],
      q: [13.796621, 23.074947],
    },
    {
      unbalances: [at(100, 0.45, 0, 1.2), at(200, 0.6, 60, 2.4)],
      planes: [0.3, 2.7] as const,
      radius: 0.3,
      p: [126.39843, 200.03399],
      q: [381.25, 232.65901],
    },
  ])('planes $planes', ({ unbalances, planes, radius, p, q }) => {
    const split = splitOverTwoPlanes(unbalances, planes[0], planes[1])
    expectNear(split.p.amount / radius, p[0]!, { rel: 1e-7 })
    expectNear(split.p.angle, p[1]!, { rel: 1e-7 })
    expectNear(split.q.amount / radius, q[0]!, { rel: 1e-7 })
    expectNear(split.q.angle, q[1]!, { rel: 1e-7 })
  })

  test('one plane twice is refused', () => {
    expect(() => splitOverTwoPlanes([], 5, 5)).toThrow(RangeError)
  })
})
