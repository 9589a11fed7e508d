import { describe, expect, test } from 'vitest'
import { Joint } from '../../../src-core/holding/joint.ts'
import type { JointInput } from '../../../src-core/holding/jointData.ts'
import {
  eitherWayLoad,
  fixedLoad,
  turningForce,
  wrenchAt,
  type Load,
} from '../../../src-core/holding/loads.ts'
import { centrifugalLoad, inertiaLoad, weightLoad } from '../../../src-core/holding/machineLoads.ts'
import { seatOpens, standsAlone } from '../../../src-core/holding/opening.ts'
import type { Press } from '../../../src-core/holding/presses.ts'
import { plateSeat } from '../../../src-core/holding/seat.ts'
import { poseOf } from '../../../src-core/geometry/space/pose.ts'
import { addMass, pointMass } from '../../../src-core/mass/massMoments.ts'
import { expectNear } from '../../helpers/near.ts'

const rectangle = (x: number, y: number) => [
  { x: -x, y: -y },
  { x, y: -y },
  { x, y },
  { x: -x, y },
]
const press = (id: string, x: number, y: number, force: number): Press => ({ id, at: { x, y }, force })
const O = { x: 0, y: 0, z: 0 }
const pushed = (x: number, y: number, z: number, fx: number, fy: number, fz: number) =>
  fixedLoad(wrenchAt({ x, y, z }, { x: fx, y: fy, z: fz }))

function joint(over: Partial<JointInput>, ...loads: readonly Load[]): Joint {
  return new Joint({
    seat: plateSeat(0),
    touching: rectangle(100, 50),
    face: 'flat',
    grip: { presses: [press('c1', 0, 0, 20_000)] },
    friction: 0.1,
    loadings: [{ name: 'one', loads }],
    ...over,
  })
}

/**
 * Friction clamps that each slip at S in whatever direction (constructed values, recomputed by the balance of equal
 * forces about the instantaneous centre).
 */
describe('friction clamps under an eccentric force', () => {
  const S = 1000
  const four = [
    press('a', 60, 40, S),
    press('b', -60, 40, S),
    press('c', -60, -40, S),
    press('d', 60, -40, S),
  ]
  const friction = 1
  test.each([
    [0, 4],
    [50, 2.926768],
    [100, 2.079132],
    [200, 1.265515],
  ])('four at (±60, ±40), force %i from their middle: %f·S', (e, slips) => {
    const { factor, mode } = joint({ friction, grip: { presses: four } }, pushed(e, 0, 0, 0, 1, 0)).at(0)
    expectNear(factor / S, slips, { abs: 1e-6 })
    expect(mode).toBe('sliding')
  })

  test('the same four against pure torque: 288.4441·S', () => {
    const torque = eitherWayLoad(wrenchAt(O, O, { x: 0, y: 0, z: 1 }))
    expectNear(joint({ friction, grip: { presses: four } }, torque).at(0).factor / S, 288.4441, { abs: 1e-4 })
  })

  test.each([
    [50, 198 / 91],
    [100, 72 / 49],
  ])('three on Ø120, force square to the line to one, %i on its side', (e, slips) => {
    const presses = [0, 120, 240].map((d) =>
      press(`${d}`, 60 * Math.cos((d * Math.PI) / 180), 60 * Math.sin((d * Math.PI) / 180), S),
    )
    const held = joint({ friction, touching: rectangle(80, 80), grip: { presses } }, pushed(e, 0, 0, 0, 1, 0))
    expectNear(held.at(0).factor / S, slips, { rel: 1e-6 })
  })
})

/** Gapping of a 200 × 100 face under 20 kN (constructed): first gap at 666 667 N·mm, tips over at F·b/2 = 2 kN·m. */
describe('a face under a moment', () => {
  const moment = (m: number) => fixedLoad(wrenchAt(O, O, { x: 0, y: m, z: 0 }))
  test('tips at F·b/2, over the middle of the far edge', () => {
    const { factor, mode, edge, at, tipping, sliding } = joint({}, moment(2e6)).at(0)
    expectNear(factor, 1, { rel: 1e-12 })
    expectNear(tipping, 1, { rel: 1e-12 })
    expect([mode, sliding]).toEqual(['tipping', Infinity])
    expect(edge!.from.x).toBe(100)
    expect(at).toEqual({ x: 100, y: 0, z: 0 })
  })

  test('begins to open at a third of that; pads do not, a round face at a quarter', () => {
    expect(joint({}, moment(666_600)).at(0).opens).toBe(false)
    expect(joint({}, moment(666_700)).at(0).opens).toBe(true)
    expect(joint({ face: 'pads' }, moment(1.9e6)).at(0).opens).toBe(false)
    expect(joint({ face: 'round' }, moment(490_000)).at(0).opens).toBe(false)
    expect(joint({ face: 'round' }, moment(510_000)).at(0).opens).toBe(true)
    expect(seatOpens(NaN, 'flat')).toBe(true)
  })
})

describe('by hand', () => {
  test('a force across at a height: 1/factor = F/(μN) + F·h/(N·b)', () => {
    const result = joint({}, pushed(0, 0, 80, 500, 0, 0)).at(0)
    expectNear(result.sliding, 2000 / 500, { rel: 1e-9 })
    expectNear(result.tipping, (20_000 * 100) / (500 * 80), { rel: 1e-12 })
    expectNear(result.factor, 1 / (500 / 2000 + (500 * 80) / (20_000 * 100)), { rel: 1e-9 })
    expect([result.mode, result.press]).toEqual(['sliding', 'c1'])
  })

  test('a pull off the seat beside its middle counts over the edge far from it', () => {
    const { factor, edge } = joint({}, pushed(40, 0, 10, 0, 0, 3000)).at(0)
    expectNear(factor, (20_000 * 100) / (3000 * 140), { rel: 1e-12 })
    expect(edge!.from.x).toBe(-100)
  })

  test('a force on to the seat over what touches does nothing, beyond it tips', () => {
    expect(joint({}, pushed(90, 0, 0, 0, 0, -3000)).at(0)).toMatchObject({
      factor: Infinity,
      mode: null,
      loading: null,
    })
    const beyond = joint({}, pushed(130, 0, 0, 0, 0, -3000)).at(0)
    expectNear(beyond.factor, (20_000 * 100) / (3000 * 30), { rel: 1e-12 })
  })

  test('a turning force tips any way by its amplitude, one of either sign both ways', () => {
    const round = joint({}, turningForce(100, { x: 0, y: 0, z: 200 })).at(0)
    expectNear(round.tipping, (20_000 * 50) / (100 * 200), { rel: 1e-12 })
    const across = wrenchAt({ x: 0, y: 0, z: 200 }, { x: 0, y: -100, z: 0 })
    const one = joint(
      {
        touching: [
          { x: -100, y: -50 },
          { x: 100, y: -50 },
          { x: 100, y: 20 },
          { x: -100, y: 20 },
        ],
      },
      fixedLoad(across),
    )
    const both = joint(
      {
        touching: [
          { x: -100, y: -50 },
          { x: 100, y: -50 },
          { x: 100, y: 20 },
          { x: -100, y: 20 },
        ],
      },
      eitherWayLoad(across),
    )
    expectNear(one.at(0).tipping, (20_000 * 50) / (100 * 200), { rel: 1e-12 })
    expectNear(both.at(0).tipping, (20_000 * 20) / (100 * 200), { rel: 1e-12 })
  })

  test('loads fixed in the plate that undo each other still count each where it harms', () => {
    const two = joint({}, pushed(0, 0, 80, 500, 0, 0), pushed(0, 0, 80, -500, 0, 0)).at(0)
    const one = joint({}, pushed(0, 0, 80, 500, 0, 0)).at(0)
    expectNear(two.factor, one.factor, { rel: 1e-9 })
  })

  test('on a shelf that faces the axis the centrifugal force pulls off', () => {
    // 3 kg at 70 from the axis on a shelf whose normal points away from it: Ω²·m·r against 4 kN in the middle.
    const seat = poseOf({ x: 50, y: 0, z: 60 }, { x: 1, y: 0, z: 0 }, { x: 0, y: 0, z: 1 })
    const body = pointMass(3, { x: 70, y: 0, z: 60 })
    const shelf = joint({ seat, grip: { presses: [press('c1', 0, 0, 4000)] } }, centrifugalLoad(body))
    const pull = 3 * (2 * Math.PI * 5) ** 2 * 0.07
    expectNear(shelf.at(300).factor, 4000 / pull, { rel: 1e-12 })
    expectNear(shelf.rpmAtFactor(2), 300 * Math.sqrt(4000 / pull / 2), { rel: 1e-9 })
    expect(shelf.at(0).factor).toBe(Infinity)
  })

  test('a body whose centre is on the axis is tipped by its products of inertia', () => {
    const low = pointMass(2, { x: -40, y: 0, z: 0 })
    const high = pointMass(2, { x: 40, y: 0, z: 100 })
    const both = joint({}, centrifugalLoad(addMass(low, high)))
    const moment = (2 * 40 * 100 * (2 * Math.PI * 4) ** 2) / 1000
    expectNear(both.at(240).factor, (20_000 * 100) / moment, { rel: 1e-12 })
  })

  test('starting: m·r·α across the radius and J_cm·α, at the speed that is run', () => {
    const body = pointMass(4, { x: 0, y: 60, z: 0 })
    const one = joint(
      { touching: rectangle(80, 80), grip: { presses: [press('c1', 0, 60, 5000)] } },
      inertiaLoad(body, 0.5),
    )
    const alpha = (2 * Math.PI * 5) / 0.5
    expectNear(one.at(300).sliding, 500 / (4 * 0.06 * alpha), { rel: 1e-6 })
    expectNear(one.rpmAtFactor(2), (300 * 500) / (4 * 0.06 * alpha) / 2, { rel: 1e-6 })
  })

  test('the worst loading governs and is named; its speed is the least', () => {
    const body = pointMass(3, { x: 60, y: 0, z: 40 })
    const loads = [centrifugalLoad(body), weightLoad(body)]
    const cut = turningForce(700, { x: 0, y: 0, z: 60 })
    const loadings = [
      { name: 'turning', loads },
      { name: 'bore', loads: [...loads, cut] },
      { name: 'start', loads: [...loads, inertiaLoad(body, 2)] },
    ]
    const presses = [press('c1', 70, 0, 9000), press('c2', -70, 30, 9000), press('c3', -70, -30, 9000)]
    const all = joint({ loadings, grip: { presses } })
    const apart = loadings.map((l) => joint({ loadings: [l], grip: { presses } }))
    expect(all.at(200).loading).toBe('bore')
    expectNear(all.at(200).factor, Math.min(...apart.map((j) => j.at(200).factor)), { rel: 1e-9 })
    expectNear(all.rpmAtFactor(2), Math.min(...apart.map((j) => j.rpmAtFactor(2))), { rel: 1e-8 })
  })

  test.each([
    [1, 0],
    [0, 1],
    [0.6, -0.8],
  ])(
    'the press at fault in sliding is the one that the body would turn about, lying along (%f, %f)',
    (x, y) => {
      const along = (id: string, d: number, force: number) => press(id, d * x, 10 + d * y, force)
      const presses = [along('weak', 40, 500), along('middle', 0, 500), along('strong', -40, 9000)]
      const load = pushed(40 * x, 10 + 40 * y, 0, -100 * y, 100 * x, 0)
      const { mode, press: at, at: place } = joint({ grip: { presses } }, load).at(0)
      expect([mode, at]).toEqual(['sliding', 'strong'])
      expectNear(Math.hypot(place!.x + 40 * x, place!.y - 10 + 40 * y, place!.z), 0, { abs: 1e-9 })
    },
  )
})

describe('a press beyond what touches', () => {
  const out = (x: number, high?: number): Press => ({ id: 'out', at: { x, y: 0 }, force: 5000, high })
  const inside = press('in', 0, 0, 20_000)

  test('takes off what its high side would tip, the rest bears at the edge', () => {
    const grip = { presses: [inside, out(140, 7000)] }
    const { factor, tipping, mode, press: at, edge } = joint({ grip }, pushed(0, 0, 200, 1000, 0, 0)).at(0)
    const righting = 20_000 * 100
    const takenOff = 7000 * 40
    expectNear(tipping, (righting - takenOff) / 200_000, { rel: 1e-12 })
    // Both grip in line with the force.
    const share = 1000 / 2500
    expectNear(factor, (1 - takenOff / righting) / (share + 200_000 / righting), { rel: 1e-6 })
    expect(mode).toBe('sliding')
    expect(joint({ grip }, pushed(0, 0, 900, 1000, 0, 0)).at(0)).toMatchObject({
      mode: 'tipping',
      press: 'out',
    })
    expect([at, edge]).toEqual(['in', null])
  })

  test('far enough out it tips the body without any load', () => {
    const grip = { presses: [inside, out(520)] }
    expect(joint({ grip }, pushed(0, 0, 0, 0, 1, 0)).at(0)).toMatchObject({
      factor: 0,
      mode: 'tipping',
      press: 'out',
    })
    expect(joint({ grip }, pushed(0, 0, 0, 0, 1, 0)).rpmAtFactor(2)).toBe(0)
  })

  test('two that overhang opposite sides do not cancel while their preloads scatter', () => {
    const grip = {
      presses: [
        { ...out(140, 9000), id: 'a' },
        { ...out(-140, 9000), id: 'b' },
      ],
    }
    const { tipping } = joint({ grip }, pushed(0, 0, 100, 100, 0, 0)).at(0)
    // Over x = 100: b at its low side 5000·240, a at its high side 9000·40.
    expectNear(tipping, (5000 * 240 - 9000 * 40) / 10_000, { rel: 1e-12 })
  })
})

describe('one stud', () => {
  const stud = { id: 's', at: { x: 20, y: 10 }, force: 12_000, meanRadius: 9 }
  test('1/λ_s = T/(μF) + M/(μFρ)', () => {
    const loads = [pushed(20, 10, 0, 300, 400, 0), eitherWayLoad(wrenchAt(O, O, { x: 0, y: 0, z: 2000 }))]
    const { sliding } = joint({ grip: { stud } }, ...loads).at(0)
    expectNear(1 / sliding, 500 / 1200 + 2000 / (1200 * 9), { rel: 1e-12 })
  })

  test('never above the search over its six presses, and the same under a force or a torque alone', () => {
    const body = pointMass(2, { x: 60, y: -20, z: 30 })
    const loads = [centrifugalLoad(body), weightLoad(body), inertiaLoad(body, 1)]
    const six = Array.from({ length: 6 }, (_, i) =>
      press(`${i}`, 20 + 9 * Math.cos((i * Math.PI) / 3), 10 + 9 * Math.sin((i * Math.PI) / 3), 2000),
    )
    for (const rpm of [0, 100, 250]) {
      const closed = joint({ grip: { stud } }, ...loads).at(rpm).sliding
      const searched = joint({ grip: { presses: six } }, ...loads).at(rpm).sliding
      expect(closed).toBeLessThanOrEqual(searched * (1 + 1e-9))
      expect(closed).toBeGreaterThan(searched * 0.6)
    }
    for (const load of [
      turningForce(80, { x: 20, y: 10, z: 0 }),
      eitherWayLoad(wrenchAt(O, O, { x: 0, y: 0, z: 900 })),
    ])
      expectNear(
        joint({ grip: { stud } }, load).at(0).sliding,
        joint({ grip: { presses: six } }, load).at(0).sliding,
        {
          rel: 1e-9,
        },
      )
  })

  test('whose washer reaches beyond what touches is searched, its presses moved to the edge', () => {
    const torque = eitherWayLoad(wrenchAt(O, O, { x: 0, y: 0, z: 900 }))
    const narrow = { touching: rectangle(100, 12) }
    const reaching = joint({ ...narrow, grip: { stud } }, torque).at(0)
    expect(reaching.sliding).toBeLessThan(joint({ grip: { stud } }, torque).at(0).sliding)
    expect(reaching.sliding).toBeGreaterThan(0)
  })
})

describe('what cannot hold does not pass', () => {
  const across = pushed(0, 0, 50, 100, 0, 0)
  test.each([
    ['no presses', { grip: { presses: [] } }],
    ['no force', { grip: { presses: [press('c1', 0, 0, 0)] } }],
    ['no friction', { friction: 0 }],
    ['nothing touches', { touching: [] }],
    ['a point touches', { touching: [{ x: 0, y: 0 }] }],
    [
      'a point touches, thrice',
      {
        touching: [
          { x: 9, y: 9 },
          { x: 9, y: 9 },
          { x: 9, y: 9 },
        ],
      },
    ],
    [
      'a line touches',
      {
        touching: [
          { x: -50, y: -50 },
          { x: 10, y: 10 },
          { x: 70, y: 70 },
        ],
      },
    ],
    [
      'a washer without radius under torque',
      {
        grip: { stud: { ...press('s', 0, 0, 9000), meanRadius: 0 } },
        loadings: [{ name: 'turn', loads: [eitherWayLoad(wrenchAt(O, O, { x: 0, y: 0, z: 5 }))] }],
      },
    ],
  ] satisfies [string, Partial<JointInput>][])('%s: factor 0', (_, over) => {
    const held = joint(over, across)
    expect(held.at(100)).toMatchObject({ judged: true, factor: 0 })
    expect(held.rpmAtFactor(2)).toBe(0)
  })

  test('a line or a point that touches is lifted by any pull, but slides as it may', () => {
    for (const touching of [
      [{ x: 0, y: 0 }],
      [
        { x: -50, y: 0 },
        { x: 50, y: 0 },
      ],
    ]) {
      expect(joint({ touching }, pushed(0, 0, 0, 0, 0, 1)).at(0)).toMatchObject({
        factor: 0,
        mode: 'tipping',
      })
      expectNear(joint({ touching }, pushed(0, 0, 0, 100, 0, 0)).at(0).factor, 20, { rel: 1e-6 })
    }
  })

  test.each([
    ['force', { grip: { presses: [press('c1', 0, 0, NaN)] } }],
    ['endless force', { grip: { presses: [press('c1', 0, 0, Infinity)] } }],
    ['force that pulls', { grip: { presses: [press('c1', 0, 0, -1)] } }],
    ['high side', { grip: { presses: [{ ...press('c1', 0, 0, 5), high: NaN }] } }],
    ['place', { grip: { presses: [press('c1', NaN, 0, 10)] } }],
    ['friction', { friction: NaN }],
    ['washer', { grip: { stud: { ...press('s', 0, 0, 9), meanRadius: NaN } } }],
    ['corner', { touching: [...rectangle(9, 9), { x: NaN, y: 0 }] }],
    ['seat', { seat: plateSeat(NaN) }],
    ['load', { loadings: [{ name: 'one', loads: [pushed(0, NaN, 0, 1, 0, 0)] }] }],
    [
      'start time',
      { loadings: [{ name: 'one', loads: [inertiaLoad(pointMass(1, { x: 9, y: 0, z: 0 }), 0)] }] },
    ],
    ['loading at all', { loadings: [] }],
  ] satisfies [string, Partial<JointInput>][])('no %s: not judged, factor 0', (_, over) => {
    const held = joint(over, across)
    expect(held.at(100)).toMatchObject({ judged: false, factor: 0, mode: null })
    expect(held.rpmAtFactor(2)).toBe(0)
  })

  test('no speed: not judged', () => {
    expect(joint({}, across).at(NaN)).toMatchObject({ judged: false, factor: 0 })
  })
})

test('a pad stands alone above 1/(2μ) times its width', () => {
  expect(standsAlone(100, 20, 0.1)).toBe(false)
  expect(standsAlone(100.1, 20, 0.1)).toBe(true)
  expect(standsAlone(NaN, 20, 0.1)).toBe(true)
})
