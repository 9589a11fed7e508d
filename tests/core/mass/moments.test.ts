import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  NO_MASS,
  addMass,
  centreOfMass,
  moveMass,
  pointMass,
  scaleMass,
  turnMass,
  type MassMoments,
} from '../../../src-core/mass/massMoments.ts'
import { degrees, mm, point } from '../../helpers/arbitraries.ts'
import { expectNear } from '../../helpers/near.ts'

const masses = fc.array(fc.record({ m: mm(0.001, 5), at: point(200), z: mm(-50, 150) }), {
  minLength: 1,
  maxLength: 8,
})
type Masses = { m: number; at: { x: number; y: number }; z: number }[]

const total = (list: Masses, place: (p: { x: number; y: number; z: number }) => typeof p = (p) => p) =>
  list.map(({ m, at, z }) => pointMass(m, place({ ...at, z }))).reduce((a, b) => addMass(a, b), NO_MASS)

const order = { m: 0, x: 1, y: 1, z: 1, xx: 2, xy: 2, yy: 2, zz: 2, xz: 2, yz: 2 } as const
function expectMass(actual: MassMoments, expected: MassMoments, size: number, rel = 1e-12) {
  for (const key of Object.keys(order) as (keyof MassMoments)[])
    expectNear(actual[key], expected[key], { abs: rel * expected.m * size ** order[key] })
}

describe('mass moments of a handful of point masses', () => {
  it('are the sums of m, m·x, m·x·y and so on', () => {
    const one = pointMass(2, { x: 3, y: -5, z: 7 })
    expect(one).toEqual({ m: 2, x: 6, y: -10, z: 14, xx: 18, xy: -30, yy: 50, zz: 98, xz: 42, yz: -70 })
    expect(centreOfMass(one)).toEqual({ x: 3, y: -5, z: 7 })
    expect(centreOfMass(NO_MASS)).toEqual({ x: 0, y: 0, z: 0 })
    expect(scaleMass(one, 3)).toEqual(addMass(one, addMass(one, one)))
  })

  it('move with the masses', () => {
    fc.assert(
      fc.property(masses, point(300), mm(-100, 100), (list, by, dz) => {
        const expected = total(list, (p) => ({ x: p.x + by.x, y: p.y + by.y, z: p.z + dz }))
        expectMass(moveMass(total(list), by.x, by.y, dz), expected, 700)
      }),
    )
  })

  it('turn with the masses, counter-clockwise', () => {
    fc.assert(
      fc.property(masses, degrees, (list, angle) => {
        const c = Math.cos((angle * Math.PI) / 180)
        const s = Math.sin((angle * Math.PI) / 180)
        const expected = total(list, (p) => ({ x: c * p.x - s * p.y, y: s * p.x + c * p.y, z: p.z }))
        expectMass(turnMass(total(list), angle), expected, 400)
      }),
    )
  })
})
