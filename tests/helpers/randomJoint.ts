/** Joints drawn at random from a seed, bodies with large products of inertia among them, and loads drawn within their kinds. */
import { poseOf } from '../../src-core/geometry/space/pose.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import type { JointInput, JointStop } from '../../src-core/holding/jointData.ts'
import { seatLoad, type Load, type SeatWrench } from '../../src-core/holding/loads.ts'
import { cutLoads, drillLoads, loadingsOf } from '../../src-core/holding/machineLoads.ts'
import type { Press } from '../../src-core/holding/presses.ts'
import { plateSeat, type Seat } from '../../src-core/holding/seat.ts'
import { addMass, NO_MASS, pointMass, type MassMoments } from '../../src-core/mass/massMoments.ts'

export type Draw = () => number

export function draws(seed: number): Draw {
  let state = seed
  return () => (state = (state * 1103515245 + 12345) % 2147483648) / 2147483648
}

export const within = (draw: Draw, low: number, high: number): number => low + (high - low) * draw()

/** A few lumps far apart, so that the centre of mass alone tells little. */
export function lumpyBody(draw: Draw): MassMoments {
  const lumps = 2 + Math.floor(3 * draw())
  let body = NO_MASS
  for (let i = 0; i < lumps; i++) {
    const at = { x: within(draw, -90, 90), y: within(draw, -90, 90), z: within(draw, 5, 140) }
    body = addMass(body, pointMass(within(draw, 0.2, 4), at))
  }
  return body
}

const corner = (draw: Draw): Point => ({ x: within(draw, -80, 80), y: within(draw, -80, 80) })

export interface JointDraw {
  readonly input: JointInput
  readonly rpm: number
}

/** `over`: how far presses may stand beyond the hull, mm; none where 0. */
export function randomJoint(draw: Draw, over: number): JointDraw {
  const seat: Seat =
    draw() < 0.6
      ? plateSeat(within(draw, 0, 40))
      : poseOf(
          { x: within(draw, -60, 60), y: within(draw, -60, 60), z: within(draw, 0, 80) },
          { x: within(draw, -1, 1), y: within(draw, -1, 1), z: draw() < 0.5 ? 0 : within(draw, -0.5, 1) },
          { x: 0.3, y: 0.2, z: 1 },
        )
  const touching = Array.from({ length: 3 + Math.floor(4 * draw()) }, () => corner(draw))
  const presses = Array.from({ length: 1 + Math.floor(6 * draw()) }, (_, i) => press(draw, touching, over, i))
  const body = lumpyBody(draw)
  const cut = cutLoads({
    tangential: within(draw, 0, 600),
    torque: within(draw, 0, 20_000),
    radius: within(draw, 0, 40),
    height: within(draw, 20, 120),
    towardsPlate: draw() < 0.5,
  })
  const loadings = loadingsOf({
    body,
    startTime: within(draw, 0.3, 3),
    brakeTime: within(draw, 0.2, 2),
    cuts: [
      ...(draw() < 0.7 ? [{ name: 'bore', loads: cut }] : []),
      ...(draw() < 0.5
        ? [{ name: 'drilling', loads: drillLoads(within(draw, 0, 2000), within(draw, 0, 15_000)) }]
        : []),
    ],
  })
  const friction = within(draw, 0.06, 0.2)
  return {
    input: { seat, touching, face: 'pads', grip: { presses }, friction, loadings },
    rpm: within(draw, 20, 400),
  }
}

function press(draw: Draw, touching: readonly Point[], over: number, i: number): Press {
  const weights = touching.map(() => draw())
  const sum = weights.reduce((s, w) => s + w, 0)
  const mean = (c: 'x' | 'y') => touching.reduce((s, p, k) => s + (weights[k]! / sum) * p[c], 0)
  const force = within(draw, 500, 12_000)
  const aside = draw() < 0.5 ? over : 0
  return {
    id: `c${i}`,
    at: { x: mean('x') + within(draw, -aside, aside), y: mean('y') + within(draw, -aside, aside) },
    force,
    high: force * within(draw, 1, 1.8),
  }
}

/** Stops at random places that face any way, and pins. */
export const randomStops = (draw: Draw, most: number): JointStop[] =>
  Array.from({ length: 1 + Math.floor(most * draw()) }, () => {
    const way = within(draw, 0, 2 * Math.PI)
    const into = draw() < 0.3 ? null : { x: Math.cos(way), y: Math.sin(way) }
    return { at: corner(draw), into, capacity: within(draw, 50, 3000) }
  })

/** One draw of what a loading may do at Ω: fixed loads there or not, turning ones at any angle, signs as they fall. */
export function drawLoad(draw: Draw, seat: Seat, loads: readonly Load[], omega: number): SeatWrench {
  const sum = { fu: 0, fv: 0, fn: 0, mu: 0, mv: 0, mn: 0 }
  const add = (w: SeatWrench, k: number) => {
    for (const c of ['fu', 'fv', 'fn', 'mu', 'mv', 'mn'] as const) sum[c] += k * w[c]
  }
  for (const load of loads) {
    if (draw() < 0.15) continue
    const { steady, turning, eitherWay, growth } = seatLoad(seat, load)
    const size = omega ** growth * (eitherWay && draw() < 0.5 ? -1 : 1)
    const angle = within(draw, 0, 2 * Math.PI)
    add(steady, size)
    if (turning) {
      add(turning[0], size * Math.cos(angle))
      add(turning[1], size * Math.sin(angle))
    }
  }
  return sum
}
