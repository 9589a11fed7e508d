import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  directionOf,
  opposite,
  polar,
  toDegrees,
  toRadians,
  turnBetween,
  turnBetweenRadians,
  turnPoint,
  wholeTurn,
  wholeTurnRadians,
} from '../../../src-core/geometry/angles.ts'
import { expectNear } from '../../helpers/near.ts'

const positive = fc.integer({ min: 1, max: 10_000_000 }).map((n) => n / 1000)

test('half a turn is 180° and π', () => {
  expect(toRadians(180)).toBe(Math.PI)
  expect(toDegrees(Math.PI / 2)).toBe(90)
})

describe('within a whole turn', () => {
  test.each([
    [0, 0],
    [359.9, 359.9],
    [360, 0],
    [-360, 0],
    [-90, 270],
    [765.25, 45.25],
  ])('%d° is %d°', (given, wanted) => expect(wholeTurn(given)).toBe(wanted))

  test('keeps the digits of an angle that is within already', () => expect(wholeTurn(0.1)).toBe(0.1))

  test('a hair below 0 is 0 and never 360', () => {
    expect(wholeTurn(-1e-20)).toBe(0)
    expect(wholeTurnRadians(-1e-20)).toBe(0)
  })

  test('is never minus 0', () => expect(Object.is(wholeTurn(-720), 0)).toBe(true))

  test('opposite 200° is 20°', () => expect(opposite(200)).toBe(20))
})

describe('the turn between two directions', () => {
  test.each([
    [350, 10, 20],
    [10, 350, -20],
    [0, 180, 180],
    [180, 0, 180],
    [90, 271, -179],
  ])('from %d° to %d° is %d°', (from, to, wanted) => {
    expect(turnBetween(from, to)).toBe(wanted)
    expectNear(turnBetweenRadians(toRadians(from), toRadians(to)), toRadians(wanted), { abs: 1e-12 })
  })
})

test('a vector by length and direction, and turned', () => {
  const v = polar(10, 30)
  expectNear(v.x, 5 * Math.sqrt(3), { rel: 1e-15 })
  expectNear(v.y, 5, { rel: 1e-15 })
  const turned = turnPoint(v, 60)
  expectNear(turned.x, 0, { abs: 1e-14 })
  expectNear(turned.y, 10, { rel: 1e-15 })
})

describe('directionOf', () => {
  test('runs counter-clockwise from +x, from 0 to below 360', () => {
    expect(directionOf({ x: 1, y: 0 })).toBe(0)
    expect(directionOf({ x: 0, y: 2 })).toBe(90)
    expect(directionOf({ x: -1, y: 0 })).toBe(180)
    expect(directionOf({ x: -1, y: -0 })).toBeLessThanOrEqual(180)
    expect(directionOf({ x: 0, y: -3 })).toBe(270)
    expect(directionOf({ x: 0, y: 0 })).toBe(0)
    expect(directionOf({ x: 1, y: -1e-17 })).toBe(0)
    expect(directionOf({ x: 1, y: -1e-3 })).toBeGreaterThan(359)
  })

  test('is the angle that a vector was made from', () => {
    fc.assert(
      fc.property(positive, fc.integer({ min: 0, max: 35_999 }), (r, n) => {
        const a = (n / 100) * (Math.PI / 180)
        expectNear(directionOf({ x: r * Math.cos(a), y: r * Math.sin(a) }), n / 100, { abs: 1e-9 })
      }),
    )
  })
})
