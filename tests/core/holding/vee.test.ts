/** A round in a vee: what its flanks carry against statics worked out apart, and against a rigid body on friction cones. */
import { describe, expect, it, test } from 'vitest'
import { toRadians } from '../../../src-core/geometry/angles.ts'
import { restInVee, roundsFor } from '../../../src-core/geometry/vee.ts'
import { Joint, type JointResult } from '../../../src-core/holding/joint.ts'
import type { JointInput } from '../../../src-core/holding/jointData.ts'
import {
  fixedLoad,
  turningForce,
  wrenchAt,
  type Load,
  type SeatWrench,
} from '../../../src-core/holding/loads.ts'
import type { Press } from '../../../src-core/holding/presses.ts'
import { poseOf } from '../../../src-core/geometry/space/pose.ts'
import type { Seat } from '../../../src-core/holding/seat.ts'
import { axialGrip, flankForce, sideGrip, turningGrip } from '../../../src-core/holding/vee.ts'
import { angularSpeed } from '../../../src-core/unbalance/static.ts'
import type { Point3 } from '../../../src-core/geometry/types.ts'
import { expectNear } from '../../helpers/near.ts'
import { drawLoad, draws, randomJoint, within, type Draw } from '../../helpers/randomJoint.ts'
import { rigidVeeFactor } from '../../helpers/rigidJoint.ts'

const O = { x: 0, y: 0, z: 0 }
/** Along x, out of the vee along z, the round's axis through the origin. */
const FLAT: Seat = poseOf(O, { x: 0, y: 0, z: 1 }, { x: 1, y: 0, z: 0 })

interface Held {
  readonly angle?: number
  readonly diameter?: number
  readonly friction?: number
  readonly rubs?: boolean
  readonly ends?: readonly [number, number]
  readonly presses?: readonly Press[]
}

function veeInput(load: Load, held: Held = {}): JointInput {
  const { angle = 90, diameter = 40, friction = 0.15, rubs = true, ends = [-50, 50] } = held
  return {
    seat: FLAT,
    touching: ends.map((x) => ({ x, y: 0 })),
    face: 'flat',
    grip: { presses: held.presses ?? [{ id: 'c1', at: { x: 0, y: 0 }, force: 5000 }] },
    friction,
    vee: { half: toRadians(angle) / 2, diameter, rubs },
    loadings: [{ name: 'one', loads: [load] }],
  }
}

const under = (load: Load, held: Held = {}): JointResult => new Joint(veeInput(load, held)).at(0)
const force = (at: Point3, f: Point3, m: Point3 = O) => fixedLoad(wrenchAt(at, f, m))

describe('a strap over a vee', () => {
  // Statics of a rigid round, worked out and rounded to six digits; no published example with figures was found.
  const table = [
    { angle: 60, flank: 1, axial: 2, rubbing: 3, side: 1.732051 },
    { angle: 90, flank: 0.707107, axial: 1.414214, rubbing: 2.414214, side: 1 },
    { angle: 120, flank: 0.57735, axial: 1.154701, rubbing: 2.154701, side: 0.57735 },
  ]
  it.each(table)('of $angle degrees', ({ angle, flank, axial, rubbing, side }) => {
    const half = toRadians(angle) / 2
    const grip = { half, diameter: 40, friction: 0.12, rubs: true }
    expectNear(flankForce(grip, 1), flank, { abs: 1e-6 })
    expectNear(axialGrip({ ...grip, rubs: false }, 1) / 0.12, axial, { abs: 1e-6 })
    expectNear(axialGrip(grip, 1) / 0.12, rubbing, { abs: 1e-6 })
    expectNear(turningGrip(grip, 1) / (0.12 * 20), rubbing, { abs: 1e-6 })
    expectNear(turningGrip({ ...grip, rubs: false }, 1), (0.12 * 20) / (Math.sin(half) * (1 + 0.12 ** 2)), {
      rel: 1e-9,
    })
    expectNear(sideGrip(grip, 1), side, { abs: 1e-6 })
  })

  it('5 kN on a round of 40 in a right angle', () => {
    const grip = { half: Math.PI / 4, diameter: 40, friction: 0.15, rubs: true }
    expectNear(axialGrip(grip, 5000), 1810.66, { abs: 0.005 })
    expectNear(turningGrip(grip, 5000), 36_213, { abs: 0.5 })
  })

  it('flat flanks hold no more than a flank that is not bare', () => {
    const grip = { half: toRadians(88), diameter: 40, friction: 0.2, rubs: false }
    expectNear(turningGrip(grip, 1000), 1000 * 20 * Math.cos(toRadians(88)), { rel: 1e-9 })
  })
})

describe('one load at a time', () => {
  test('turning', () => {
    expectNear(under(force(O, O, { x: 10_000, y: 0, z: 0 })).factor, 3.6213, { rel: 1e-4 })
    expect(under(force(O, O, { x: 10_000, y: 0, z: 0 })).mode).toBe('sliding')
  })

  test('a pull off, till it is all of the force', () => {
    const { factor, mode } = under(force(O, { x: 0, y: 0, z: 2000 }))
    expectNear(factor, 2.5, { rel: 1e-9 })
    expect(mode).toBe('tipping')
  })

  test('a push to the side, either way, till a flank is bare', () => {
    for (const [angle, holds] of [
      [60, 8660.25],
      [90, 5000],
      [120, 2886.75],
    ] as const)
      for (const way of [1, -1])
        expectNear(under(force(O, { x: 0, y: way * 1000, z: 0 }), { angle }).factor, holds / 1000, {
          rel: 1e-5,
        })
  })

  test('a push to the side at its end, as it tips', () => {
    // About the far end: 5000 N at 50 mm against 1000 N at 100 mm.
    expectNear(under(force({ x: 50, y: 0, z: 0 }, { x: 0, y: 1000, z: 0 })).factor, 2.5, { rel: 1e-9 })
    expectNear(under(force({ x: 50, y: 0, z: 0 }, { x: 0, y: 0, z: 1000 })).factor, 2.5, { rel: 1e-9 })
  })

  test('along it, through where its grip acts: nothing tips', () => {
    const at = { x: 0, y: 0, z: -20 * Math.SQRT1_2 }
    const { factor, tipping, sliding } = under(force(at, { x: 600, y: 0, z: 0 }), { rubs: false })
    expectNear(sliding, (0.15 * 5000 * Math.SQRT2) / 600, { rel: 1e-9 })
    expect(tipping).toBe(Infinity)
    expect(factor).toBe(sliding)
    // Through the axis it lifts an end besides: 600 N at 14.14 mm against 5000 N at 50 mm.
    expectNear(under(force(O, { x: 600, y: 0, z: 0 }), { rubs: false }).tipping, 250_000 / (600 * 14.1421), {
      rel: 1e-5,
    })
  })

  test('along it through the axis, straps rubbing', () => {
    // Flanks 20·sin β behind the axis with 1/sin β of the force, the strap 20 before it with the whole.
    expect(under(force(O, { x: 600, y: 0, z: 0 }), { angle: 70 }).tipping).toBe(Infinity)
    const before = under(force({ x: 0, y: 0, z: 10 }, { x: 600, y: 0, z: 0 }), { angle: 70 })
    expectNear(before.tipping, 250_000 / 6000, { rel: 1e-9 })
  })

  test('a strap beyond the end tips it', () => {
    const presses = [{ id: 'c1', at: { x: 60, y: 0 }, force: 5000 }]
    expect(under(force(O, { x: 1, y: 0, z: 0 }), { presses }).factor).toBe(0)
  })

  test('numbers that are none are not judged', () => {
    expect(under(force(O, { x: 1, y: 0, z: 0 }), { angle: 180 }).judged).toBe(false)
    expect(under(force(O, { x: 1, y: 0, z: 0 }), { diameter: NaN }).judged).toBe(false)
  })
})

/** Presses over what touches or up to `over` mm beyond it, loads as a machine makes them, in any direction. */
function randomVee(draw: Draw, over: number) {
  const { input, rpm } = randomJoint(draw, 0)
  const ends = [within(draw, -90, -10), within(draw, 10, 90)] as const
  const presses = Array.from({ length: 1 + Math.floor(4 * draw()) }, (_, i) => {
    const force = within(draw, 1000, 15_000)
    const x = within(draw, ends[0] - over, ends[1] + over)
    return { id: `c${i}`, at: { x, y: 0 }, force, high: force * within(draw, 1, 1.8) }
  })
  const vee = { half: toRadians(within(draw, 30, 75)), diameter: within(draw, 20, 120), rubs: draw() < 0.5 }
  return {
    input: { ...input, touching: ends.map((x) => ({ x, y: 0 })), grip: { presses }, vee },
    rpm,
    ends,
    presses,
    vee,
  }
}

describe('the rigid body on friction cones carries at least as much', () => {
  test.each([
    { name: 'straps over what touches', over: 0, seed: 41, held: 100 },
    { name: 'straps beyond the ends', over: 25, seed: 42, held: 60 },
  ])('$name', ({ over, seed, held: wanted }) => {
    const draw = draws(seed)
    let held = 0
    let nearest = 0
    for (let n = 0; n < 150; n++) {
      const { input, rpm, ends, presses, vee } = randomVee(draw, over)
      const { factor } = new Joint(input).at(rpm)
      if (factor > 0) held++
      let least = Infinity
      for (let k = 0; k < 12; k++) {
        const { loads } = input.loadings[k % input.loadings.length]!
        const load = drawLoad(draw, input.seat, loads, angularSpeed(rpm))
        const drawn = presses.map((p) => ({
          at: p.at,
          force: k % 3 === 0 ? p.force : within(draw, p.force, p.high),
        }))
        least = Math.min(least, rigidVeeFactor(vee, ends, input.friction, drawn, load))
      }
      expect(factor, `vee ${n}`).toBeLessThanOrEqual(least * (1 + 1e-6) + 1e-9)
      if (least > 0 && least < Infinity) nearest = Math.max(nearest, factor / least)
    }
    expect(held).toBeGreaterThan(wanted)
    expect(nearest).toBeGreaterThan(0.4)
  })

  test('and no more where one load acts alone', () => {
    const draw = draws(43)
    const none: SeatWrench = { fu: 0, fv: 0, fn: 0, mu: 0, mv: 0, mn: 0 }
    for (let n = 0; n < 40; n++) {
      const diameter = within(draw, 20, 100)
      const angle = within(draw, 60, 120)
      const vee = { half: toRadians(angle) / 2, diameter, rubs: true }
      const rigid = (load: Partial<SeatWrench>) =>
        rigidVeeFactor(vee, [-50, 50], 0.15, [{ at: { x: 0, y: 0 }, force: 5000 }], { ...none, ...load })
      const held = { angle, diameter }
      // The pyramids around the cones are up to 0.5 % above them.
      expectNear(under(force(O, O, { x: 9000, y: 0, z: 0 }), held).factor, rigid({ mu: 9000 }), { rel: 6e-3 })
      expectNear(under(force(O, { x: 0, y: 0, z: 900 }), held).factor, rigid({ fn: 900 }), { rel: 1e-4 })
    }
  })
})

describe('laws', () => {
  const cases = () => {
    const draw = draws(44)
    return Array.from({ length: 60 }, () => ({ ...randomVee(draw, draw() < 0.5 ? 0 : 15), draw }))
  }

  test('more friction, less speed, more force and one more strap over what touches never lower the factor', () => {
    for (const { input, rpm, ends, presses, draw } of cases()) {
      const { factor } = new Joint(input).at(rpm)
      const atLeast = (other: JointInput, at = rpm) =>
        expect(new Joint(other).at(at).factor).toBeGreaterThanOrEqual(factor * (1 - 1e-9))
      atLeast({ ...input, friction: input.friction * 1.2 })
      atLeast(input, rpm * 0.8)
      const over = presses.every((p) => p.at.x >= ends[0] && p.at.x <= ends[1])
      if (!over) continue
      atLeast({
        ...input,
        grip: { presses: presses.map((p) => ({ ...p, force: 1.3 * p.force, high: 1.3 * p.high })) },
      })
      const more = { id: 'more', at: { x: within(draw, ends[0], ends[1]), y: 0 }, force: 3000 }
      atLeast({ ...input, grip: { presses: [...presses, more] } })
    }
  })

  test('weight that turns counts at its worst', () => {
    const held = { rubs: false }
    const steady = [
      { x: 0, y: 300, z: 0 },
      { x: 300, y: 0, z: 0 },
      { x: -300, y: 0, z: 0 },
    ].map((f) => under(force({ x: 20, y: 0, z: 5 }, f), held).factor)
    const turning = under(turningForce(300, { x: 20, y: 0, z: 5 }), held).factor
    expect(turning).toBeLessThanOrEqual(Math.min(...steady) * (1 + 1e-9))
  })

  test('the speed at which it falls to 2 is the one', () => {
    for (const { input } of cases()) {
      const joint = new Joint(input)
      const rpm = joint.rpmAtFactor(2)
      if (rpm === 0 || rpm === Infinity) continue
      expectNear(joint.at(rpm).factor, 2, { rel: 1e-4 })
    }
  })
})

describe('where a round lies', () => {
  it.each([
    { angle: 60, over: 1 },
    { angle: 90, over: 0.707107 },
    { angle: 120, over: 0.57735 },
  ])('in $angle degrees its middle is over the apex by a share of its diameter', ({ angle, over }) => {
    const rest = restInVee({ angle, opening: 100 }, 50)
    expect(rest.on).toBe('flanks')
    expectNear(rest.centre / 50, over, { abs: 1e-6 })
  })

  it('on the edges of the mouth where it is too large, on the root where it is too small', () => {
    // Opening 60 at 90 degrees: lands 30 over the apex, flanks reach a round of 60/cos 45°.
    const vee = { angle: 90, opening: 60, root: 8 }
    const large = restInVee(vee, 100)
    expect(large.on).toBe('edges')
    expectNear(large.centre, 30 + 40, { abs: 1e-9 })
    const small = restInVee(vee, 10)
    expect(small.on).toBe('root')
    expectNear(small.centre, 4 + 3, { abs: 1e-9 })
    expect(restInVee(vee, 84.8).on).toBe('flanks')
    expectNear(restInVee(vee, 60 * Math.SQRT2).centre, restInVee(vee, 60 * Math.SQRT2 + 1e-9).centre, {
      abs: 1e-6,
    })
  })

  it('rounds from just proud of the lands to those that the edges of the mouth carry', () => {
    const { from, to } = roundsFor({ angle: 90, opening: 60 })
    expectNear(restInVee({ angle: 90, opening: 60 }, from).centre + from / 2, 30, { abs: 1e-9 })
    expectNear(to, 60 * Math.SQRT2, { abs: 1e-9 })
    expectNear(roundsFor({ angle: 90, opening: 60, root: 40 }).from, 40 * Math.SQRT2, { abs: 1e-9 })
  })
})
