/** A strap's grip in closed form against the search over all slips, and the part's sliding against a group of clamps. */
import { expect, test } from 'vitest'
import { Joint } from '../../../src-core/holding/joint.ts'
import { turningForce } from '../../../src-core/holding/loads.ts'
import { centrifugalLoad, cutLoads, inertiaLoad, weightLoad } from '../../../src-core/holding/machineLoads.ts'
import { plateSeat } from '../../../src-core/holding/seat.ts'
import { pointMass } from '../../../src-core/mass/massMoments.ts'
import { angularSpeed } from '../../../src-core/unbalance/static.ts'
import { expectNear } from '../../helpers/near.ts'
import { draws, lumpyBody, within } from '../../helpers/randomJoint.ts'
import { SlipGroup } from '../../helpers/slipGroup.ts'

const square = [
  { x: -200, y: -200 },
  { x: 200, y: -200 },
  { x: 200, y: 200 },
  { x: -200, y: 200 },
]
const base = { seat: plateSeat(0), touching: square, face: 'pads' as const, friction: 0.1 }

test('never more than the search finds, all of it for a force through the bolt', () => {
  const draw = draws(11)
  for (let n = 0; n < 60; n++) {
    const [a, b] = [within(draw, 10, 60), within(draw, 20, 90)]
    const force = within(draw, 1000, 9000)
    const bolt = { x: within(draw, -90, 90), y: 0 }
    const toe = {
      id: 'c',
      at: { x: bolt.x + a, y: 0 },
      force: (force * b) / (a + b),
      friction: within(draw, 0.05, 0.2),
    }
    const heel = { id: 'c', at: { x: bolt.x - b, y: 0 }, force: (force * a) / (a + b) }
    const body = lumpyBody(draw)
    const loadings = [
      { name: 'one', loads: [centrifugalLoad(body), weightLoad(body), inertiaLoad(body, 0.5)] },
    ]
    const closed = new Joint({ ...base, loadings, grip: { strap: { toe, heel, bolt } } }).at(150)
    const searched = new Joint({ ...base, loadings, grip: { presses: [toe, heel] } }).at(150)
    expect(closed.sliding).toBeLessThanOrEqual(searched.sliding * (1 + 1e-6))
    expect(closed.sliding).toBeGreaterThan(0.2 * searched.sliding)
    const through = [{ name: 'one', loads: [turningForce(500, { ...bolt, z: 0 })] }]
    const even = { strap: { toe: { ...toe, friction: 0.1 }, heel, bolt } }
    expectNear(new Joint({ ...base, loadings: through, grip: even }).at(0).sliding, (0.1 * force) / 500, {
      rel: 1e-9,
    })
  }
})

test('sliding of the part is that of a group of friction clamps for the same points and loads', () => {
  const draw = draws(5)
  for (let n = 0; n < 12; n++) {
    const presses = Array.from({ length: 4 }, (_, i) => ({
      id: `c${i}`,
      at: { x: within(draw, -90, 90), y: within(draw, -90, 90) },
      force: within(draw, 2000, 9000),
    }))
    const centre = { x: within(draw, -40, 40), y: within(draw, -40, 40) }
    const body = pointMass(8, { ...centre, z: 30 })
    const cut = cutLoads({ tangential: 400, radial: 0, feed: 0, torque: 6000, radius: 15, height: 40 })
    const joint = new Joint({
      ...base,
      grip: { presses },
      loadings: [{ name: 'cut', loads: [centrifugalLoad(body), weightLoad(body), ...cut] }],
    })
    const points = presses.map((p) => ({ at: p.at, capacity: 0.1 * p.force }))
    const group = new SlipGroup(points, { mass: 8, centre, force: 400, torque: 6000 })
    expectNear(joint.at(220).sliding, group.factor(angularSpeed(220)), { rel: 1e-9 })
  }
})
