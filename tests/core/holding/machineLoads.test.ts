import { describe, expect, test } from 'vitest'
import {
  eitherWayLoad,
  fixedLoad,
  orbitingLoad,
  seatLoad,
  worstEffect,
  wrenchAt,
  type Load,
} from '../../../src-core/holding/loads.ts'
import {
  centrifugalLoad,
  centrifugalLoadOf,
  cutHeights,
  cutLoads,
  inertiaLoad,
  loadingsOf,
} from '../../../src-core/holding/machineLoads.ts'
import { plateSeat } from '../../../src-core/holding/seat.ts'
import { poseOf } from '../../../src-core/geometry/space/pose.ts'
import { addMass, pointMass, turnMass } from '../../../src-core/mass/massMoments.ts'
import { angularSpeed } from '../../../src-core/unbalance/static.ts'
import { expectNear } from '../../helpers/near.ts'

/** 20 kg block 200 × 120 in plan, centre 80 mm from the axis (constructed), as four lumps of its own moment of inertia. */
const block = [
  [1, 1],
  [1, -1],
  [-1, 1],
  [-1, -1],
]
  .map(([i, k]) => pointMass(5, { x: 80 + (i! * 200) / Math.sqrt(12), y: (k! * 120) / Math.sqrt(12), z: 30 }))
  .reduce((a, b) => addMass(a, b))

describe('a 20 kg block from rest to 300 rpm in 0.5 s', () => {
  const omega = angularSpeed(300)
  test('has 0.0906667 + 20·0.08² = 0.2186667 kg·m² about the axis', () => {
    expectNear((block.xx + block.yy) * 1e-6, 0.2186667, { rel: 1e-6 })
  })

  test('100.531 N across the radius and 13.7392 N·m about the axis, against the speed it gains', () => {
    const { force, moment } = inertiaLoad(block, 0.5).steady
    expectNear(force.y * omega, -100.531, { rel: 1e-5 })
    expectNear(force.x * omega, 0, { abs: 1e-9 })
    expectNear(moment.z * omega, -13_739.2, { rel: 1e-5 })
    // The force acts at the height of the block: r × F about the plate's face.
    expectNear(moment.x * omega, 30 * 100.531, { rel: 1e-5 })
  })

  test('stopping is the other way round; where the spindle runs both ways either counts', () => {
    const gains = inertiaLoad(block, 0.5, 'gains')
    const loses = inertiaLoad(block, 0.5, 'loses')
    expect([gains.eitherWay, loses.eitherWay, inertiaLoad(block, 0.5).eitherWay]).toEqual([
      false,
      false,
      true,
    ])
    expect(loses.steady.force.y).toBe(-gains.steady.force.y)
    expect(loses.steady.moment.z).toBe(-gains.steady.moment.z)
  })

  test('centrifugal 1579.14 N, with its moment about the plate’s face', () => {
    const { steady, growth } = centrifugalLoad(block)
    expectNear(steady.force.x * omega ** growth, 1579.14, { rel: 1e-5 })
    expectNear(steady.moment.y * omega ** growth, 30 * 1579.14, { rel: 1e-5 })
  })

  test('∫r dm and ∫(z − z0)·r dm about any height are the same load', () => {
    const body = turnMass(block, 30)
    const at = (z0: number) =>
      centrifugalLoadOf(body, { x: body.xz - z0 * body.x, y: body.yz - z0 * body.y }, z0).steady
    const { force, moment } = centrifugalLoad(body).steady
    for (const z0 of [0, 25]) {
      expectNear(at(z0).force.y, force.y, { rel: 1e-12 })
      expectNear(at(z0).moment.y, moment.y, { rel: 1e-12 })
      expectNear(at(z0).moment.x, moment.x, { rel: 1e-12 })
    }
  })
})

test('grains of a turning, speeding body sum to its loads (each by Newton, dm·Ω²·r and −dm·α ẑ × r)', () => {
  const grains = [
    { m: 2, x: 30, y: -20, z: 15 },
    { m: 1, x: -50, y: 40, z: 90 },
    { m: 0.5, x: 10, y: 70, z: 60 },
  ]
  const body = grains.map((g) => pointMass(g.m, g)).reduce((a, b) => addMass(a, b))
  const sum = (force: (g: (typeof grains)[number]) => [number, number]) => {
    const total = { fx: 0, fy: 0, mx: 0, my: 0, mz: 0 }
    for (const g of grains) {
      const [fx, fy] = force(g)
      total.fx += fx
      total.fy += fy
      total.mx += -g.z * fy
      total.my += g.z * fx
      total.mz += g.x * fy - g.y * fx
    }
    return total
  }
  const flat = ({ steady: { force, moment } }: Load) => [force.x, force.y, moment.x, moment.y, moment.z]
  const near = (load: Load, by: ReturnType<typeof sum>) =>
    Object.values(by).forEach((value, i) => expectNear(flat(load)[i]!, value, { rel: 1e-12, abs: 1e-12 }))
  near(
    centrifugalLoad(body),
    sum((g) => [(g.m * g.x) / 1000, (g.m * g.y) / 1000]),
  )
  near(
    inertiaLoad(body, 0.25),
    sum((g) => [(4 * g.m * g.y) / 1000, (-4 * g.m * g.x) / 1000]),
  )
})

describe('a cut', () => {
  const cut = { tangential: 400, torque: 8000, radius: 20, height: 70 }
  test('radial and feed force are half the tangential one where nothing better is known', () => {
    const [across, torque, feed] = cutLoads(cut)
    expectNear(across!.turning![0].force.x, Math.hypot(400, 200), { rel: 1e-12 })
    expectNear(across!.turning![0].moment.y, 70 * Math.hypot(400, 200), { rel: 1e-12 })
    expect([torque!.steady.moment.z, torque!.eitherWay]).toEqual([8000, true])
    expect([feed!.steady.force.z, feed!.eitherWay]).toEqual([-200, true])
    // At the tool's point: 200 N at 20 mm.
    expectNear(feed!.turning![0].moment.y, 4000, { rel: 1e-12 })
    expectNear(feed!.turning![1].moment.x, -4000, { rel: 1e-12 })
  })

  test('a better source counts, and a feed that only presses is fixed in the plate', () => {
    const [across, , feed] = cutLoads({ ...cut, radial: 0, feed: 100, towardsPlate: true })
    expect(across!.turning![0].force.x).toBe(400)
    expect([feed!.steady.force.z, feed!.eitherWay]).toEqual([-100, false])
  })

  test('is judged at the height that tilts most, on a seat across the plate at both ends', () => {
    expect(cutHeights(plateSeat(30), 35, 80)).toEqual([80])
    expect(cutHeights(plateSeat(60), 10, 80)).toEqual([10])
    const shelf = poseOf({ x: 0, y: -40, z: 60 }, { x: 0, y: 1, z: 0 }, { x: 0, y: 0, z: 1 })
    expect(cutHeights(shelf, 35, 80)).toEqual([35, 80])
    expect(cutHeights(shelf, 35, 35)).toEqual([35])
  })
})

test('loadings: turning alone, each cut, start, stop, an emergency stop in each', () => {
  const working = {
    body: block,
    startTime: 0.5,
    brakeTime: 0.4,
    cuts: [
      { name: 'bore', loads: [] },
      { name: 'drilling', loads: [] },
    ],
  }
  const loadings = loadingsOf(working)
  expect(loadings.map((l) => l.name)).toEqual([
    'turning',
    'bore',
    'drilling',
    'starting',
    'stopping',
    'emergency stop, bore',
    'emergency stop, drilling',
  ])
  expect(loadings.map((l) => l.loads.length)).toEqual([2, 2, 2, 3, 3, 3, 3])
})

test('worst effect: fixed where it harms, turning by its amplitude, of either sign by its magnitude, steady part and all', () => {
  const at = { x: 0, y: 0, z: 0 }
  const worst = (load: Load, along: 1 | -1) =>
    worstEffect(seatLoad(plateSeat(0), load), ({ fu, fn }) => along * (fu + fn))
  const push = wrenchAt(at, { x: 30, y: 40, z: 0 })
  expect([worst(fixedLoad(push), 1), worst(fixedLoad(push), -1)]).toEqual([30, 0])
  expect([worst(eitherWayLoad(push), 1), worst(eitherWayLoad(push), -1)]).toEqual([30, 30])
  const tool = wrenchAt(at, { x: 30, y: 40, z: -20 })
  expect([worst(orbitingLoad(tool, false), 1), worst(orbitingLoad(tool, false), -1)]).toEqual([30, 70])
  expect([worst(orbitingLoad(tool, true), 1), worst(orbitingLoad(tool, true), -1)]).toEqual([70, 70])
  const down = wrenchAt(at, { x: 3, y: 4, z: -20 })
  expect(worst(orbitingLoad(down, false), 1)).toBe(0)
})
