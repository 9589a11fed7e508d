/** A joint looked at from its own seat: the same joint, and the same words for it however it is turned about the axis. */
import { expect, test } from 'vitest'
import { outOf, poseOf } from '../../../src-core/geometry/space/pose.ts'
import { placePoint } from '../../../src-core/mounting/place.ts'
import { Joint } from '../../../src-core/holding/joint.ts'
import type { JointInput } from '../../../src-core/holding/jointData.ts'
import { cutLoads, loadingsOf } from '../../../src-core/holding/machineLoads.ts'
import { fromOwnSeat } from '../../../src-core/holding/ownSeat.ts'
import { turnMass } from '../../../src-core/mass/massMoments.ts'
import { draws, lumpyBody, randomJoint, within } from '../../helpers/randomJoint.ts'
import { expectNear } from '../../helpers/near.ts'

test('holds as it does in the plate, at the same place', () => {
  const draw = draws(7)
  for (let i = 0; i < 300; i++) {
    const { input, rpm } = randomJoint(draw, 20)
    const [there, here] = [new Joint(input), new Joint(fromOwnSeat(input))]
    const [a, b] = [there.at(rpm), here.at(rpm)]
    expect(b.judged).toBe(a.judged)
    for (const [x, y] of [
      [a.factor, b.factor],
      [a.sliding, b.sliding],
      [a.tipping, b.tipping],
      [there.rpmAtFactor(2), here.rpmAtFactor(2)],
    ] as const)
      if (Number.isFinite(x)) expectNear(y, x, { rel: 1e-6, abs: 1e-6 })
      else expect(y).toBe(x)
    if (a.at && b.at && a.press === b.press) {
      const at = outOf(input.seat, b.at)
      for (const c of ['x', 'y', 'z'] as const) expectNear(at[c], a.at[c], { abs: 1e-6 })
    }
  }
})

test('is told by the same figures wherever it is turned', () => {
  const draw = draws(11)
  let other = 0
  for (let i = 0; i < 100; i++) {
    const [body, facing] = [lumpyBody(draw), within(draw, 0, 360)]
    const off = { x: within(draw, -60, 60), y: within(draw, -60, 60) }
    const cut = cutLoads({ tangential: 400, torque: 9000, radius: 25, height: 40 })
    const turned = (by: number): JointInput => {
      const way = placePoint({ turn: facing + by, x: 0, y: 0 }, { x: 1, y: 0 })
      const at = placePoint({ turn: by, x: 0, y: 0 }, off)
      return {
        seat: poseOf({ ...at, z: 0 }, { ...way, z: 0 }, { x: -way.y, y: way.x, z: 0 }),
        touching: [],
        face: 'pads',
        grip: { presses: [] },
        friction: 0.1,
        loadings: loadingsOf({
          body: turnMass(body, by),
          startTime: 1,
          brakeTime: 1,
          cuts: [{ name: 'bore', loads: cut }],
        }),
      }
    }
    const words = (by: number) => JSON.stringify(fromOwnSeat(turned(by)))
    if (words(0) !== words(within(draw, 1, 359))) other++
  }
  // A figure may lie just where it is rounded.
  expect(other).toBeLessThan(5)
})
