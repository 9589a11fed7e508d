/** That a joint's factor never exceeds what a rigid body on friction cones could carry, by a general linear program. */
import { describe, expect, test } from 'vitest'
import { Joint } from '../../../src-core/holding/joint.ts'
import type { JointInput } from '../../../src-core/holding/jointData.ts'
import { fixedLoad, seatLoad, wrenchAt, type Load } from '../../../src-core/holding/loads.ts'
import type { Press } from '../../../src-core/holding/presses.ts'
import { plateSeat } from '../../../src-core/holding/seat.ts'
import { angularSpeed } from '../../../src-core/unbalance/static.ts'
import { expectNear } from '../../helpers/near.ts'
import { drawLoad, draws, randomJoint, randomStops, within } from '../../helpers/randomJoint.ts'
import { rigidFactor } from '../../helpers/rigidJoint.ts'

function closest(
  seed: number,
  joints: number,
  over: number,
  drawsEach: number,
  mostStops = 0,
): { closest: number; held: number } {
  const draw = draws(seed)
  let nearest = 0
  let held = 0
  for (let n = 0; n < joints; n++) {
    const { input: alone, rpm } = randomJoint(draw, over)
    const stops = mostStops > 0 ? randomStops(draw, mostStops) : []
    const input = { ...alone, stops }
    const joint = new Joint(input)
    const { factor } = joint.at(rpm)
    if (factor > 0) held++
    const presses = 'presses' in input.grip ? input.grip.presses : []
    let least = Infinity
    for (let k = 0; k < drawsEach; k++) {
      const loading = input.loadings[k % input.loadings.length]!
      const load = drawLoad(draw, input.seat, loading.loads, angularSpeed(rpm))
      const force = ({ force, high }: Press) => (k % 3 === 0 ? force : within(draw, force, high!))
      const drawn = presses.map((p) => ({ at: p.at, force: force(p) }))
      least = Math.min(least, rigidFactor(joint.hull.points, input.friction, drawn, load, stops))
    }
    expect(factor, `joint ${n}`).toBeLessThanOrEqual(least * (1 + 1e-6) + 1e-9)
    if (least > 0 && least < Infinity) nearest = Math.max(nearest, factor / least)
  }
  return { closest: nearest, held }
}

describe('the rigid body on friction cones carries at least as much', () => {
  test('presses over what touches', () => {
    const { closest: near, held } = closest(3, 200, 0, 12)
    expect(held).toBeGreaterThan(120)
    expect(near).toBeGreaterThan(0.5)
  })

  test('presses beyond what touches', () => {
    const { closest: near, held } = closest(11, 200, 30, 12)
    expect(held).toBeGreaterThan(60)
    expect(near).toBeGreaterThan(0.5)
  })

  test('stops and pins in the way', () => {
    const { closest: near, held } = closest(23, 150, 0, 12, 3)
    expect(held).toBeGreaterThan(100)
    expect(near).toBeGreaterThan(0.5)
  })
})

describe('where the contact forces are given by statics, it carries as much', () => {
  /** Three presses at the corners of what touches. The pyramids around the cones are up to 0.5 % above them. */
  const three = (draw: ReturnType<typeof draws>, load: Load): JointInput => {
    const corners = [
      { x: within(draw, 30, 80), y: within(draw, -20, 20) },
      { x: within(draw, -60, 0), y: within(draw, 30, 80) },
      { x: within(draw, -60, 0), y: within(draw, -80, -30) },
    ]
    const presses = corners.map((at, i) => ({ id: `c${i}`, at, force: within(draw, 500, 8000) }))
    const loadings = [{ name: 'one', loads: [load] }]
    return {
      seat: plateSeat(0),
      touching: corners,
      face: 'pads',
      grip: { presses },
      friction: 0.12,
      loadings,
    }
  }
  const bound = (input: JointInput): number => {
    const presses = 'presses' in input.grip ? input.grip.presses : []
    const load = seatLoad(input.seat, input.loadings[0]!.loads[0]!).steady
    return rigidFactor(input.touching, input.friction, presses, load)
  }

  test('a force and a moment in the plane', () => {
    const draw = draws(5)
    for (let n = 0; n < 60; n++) {
      const at = { x: within(draw, -90, 90), y: within(draw, -90, 90), z: 0 }
      const force = { x: within(draw, -500, 500), y: within(draw, -500, 500), z: 0 }
      const moment = { x: 0, y: 0, z: within(draw, -30_000, 30_000) }
      const input = three(draw, fixedLoad(wrenchAt(at, force, moment)))
      const joint = new Joint(input).at(0)
      expect(joint.mode).toBe('sliding')
      expectNear(joint.factor, bound(input), { rel: 6e-3 })
    }
  })

  test('a force and a moment in the plane against stops', () => {
    const draw = draws(8)
    for (let n = 0; n < 60; n++) {
      const at = { x: within(draw, -90, 90), y: within(draw, -90, 90), z: 0 }
      const force = { x: within(draw, -500, 500), y: within(draw, -500, 500), z: 0 }
      const moment = { x: 0, y: 0, z: within(draw, -30_000, 30_000) }
      const stops = randomStops(draw, 3)
      const input = { ...three(draw, fixedLoad(wrenchAt(at, force, moment))), stops }
      const load = seatLoad(input.seat, input.loadings[0]!.loads[0]!).steady
      const presses = 'presses' in input.grip ? input.grip.presses : []
      const most = rigidFactor(input.touching, input.friction, presses, load, stops)
      const { factor } = new Joint(input).at(0)
      expectNear(factor, most, { rel: 6e-3 })
    }
  })

  test('a pull off the seat and a moment that tilts', () => {
    const draw = draws(6)
    for (let n = 0; n < 60; n++) {
      const at = { x: within(draw, -90, 90), y: within(draw, -90, 90), z: 0 }
      const moment = { x: within(draw, -30_000, 30_000), y: within(draw, -30_000, 30_000), z: 0 }
      const input = three(draw, fixedLoad(wrenchAt(at, { x: 0, y: 0, z: within(draw, 0, 900) }, moment)))
      const joint = new Joint(input).at(0)
      expect(joint.mode).toBe('tipping')
      expectNear(joint.factor, bound(input), { rel: 1e-4 })
    }
  })
})
