/** Lip, tall stud and washer by hand; the surface of a mesh under a toe; checks kept while nothing moves. */
import { describe, expect, test } from 'vitest'
import { clampStates } from '../../../src-core/holding/clampState.ts'
import { lipStress } from '../../../src-core/holding/teeLip.ts'
import { preloadOf } from '../../../src-core/holding/preloadOf.ts'
import { studStress } from '../../../src-core/holding/studBend.ts'
import { gapBetween } from '../../../src-core/holding/support.ts'
import { middleOf } from '../../../src-core/holding/standing.ts'
import { UNCERTAINTY_DEFAULTS } from '../../../src-core/doubt/defaults.ts'
import { underside } from '../../../src-core/mesh/underside.ts'
import { polygonArea } from '../../../src-core/geometry/polygon.ts'
import { surfaceUnder } from '../../../src-core/mesh/surface.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { anchorAt, standOnPlate } from '../../../src-core/mounting/plateFace.ts'
import type { Body, Job } from '../../../src-core/job/schema.ts'
import { jobWith, partOf } from '../../helpers/jobs.ts'
import { clampedJob, look } from '../../helpers/clamped.ts'

test('a lip: bending where it is long for its thickness, shear where it is not', () => {
  // Two lips of 9, 4 out, under a head of 22: 10 kN · 2 mm · 6 / (40 mm · 81 mm²) against 10 kN / (40 · 9).
  expect(lipStress(20_000, 14, 22, 9)).toBeCloseTo((10_000 * 2 * 6) / (40 * 81), 9)
  expect(lipStress(20_000, 14, 16, 9)).toBeCloseTo(10_000 / (34 * 9), 9)
})

test('a stud of M12: d₃ = 12 − 1.226869·1.75, Z = π·d₃³/32', () => {
  const stud = { thread: 'M12', class: '8.8' }
  const { preload } = preloadOf({ stud, torque: 20 }, UNCERTAINTY_DEFAULTS)
  const z = (Math.PI / 32) * 9.852979 ** 3
  expect(studStress(preload!, 0, 100)).toBeCloseTo(10_416.667 / 84.3, 3)
  expect(studStress(preload!, 300, 50) - studStress(preload!, 0, 50)).toBeCloseTo(15_000 / z, 4)
})

test('a clamp that stands tall on a fast plate is cautioned of', () => {
  const tall = { part: partOf([{ ...clampedJob().part.bodies[0]!, thickness: 150 } as Body]) }
  expect(look({ ...tall, setup: { speed: 900 } }).found).toContain('caution stud-bends c1')
  expect(look({ ...tall, setup: { speed: 110 } }).found).toEqual([])
  expect(look({ setup: { speed: 900 } }).found).toEqual([])
})

describe('what a foot stands on', () => {
  const { plate } = jobWith()
  const square = (x: number, y: number, size: number) => [
    [
      { x: x - size / 2, y: y - size / 2 },
      { x: x + size / 2, y: y - size / 2 },
      { x: x + size / 2, y: y + size / 2 },
      { x: x - size / 2, y: y + size / 2 },
    ],
  ]
  test('share and what it hangs over', () => {
    expect(standOnPlate(plate, square(90, 60, 20))).toMatchObject({ share: 1, over: [] })
    const { share, over } = standOnPlate(plate, square(95, 0, 28))
    expect([share, over]).toEqual([expect.closeTo(0.5, 6), ['slot S1']])
    expect(standOnPlate(plate, square(0, 0, 20))).toMatchObject({ share: 0, over: ["the plate's bore"] })
    expect(standOnPlate(plate, square(150, 0, 20)).over).toContain("the plate's rim")
  })
  test('the opening behind a point', () => {
    expect(anchorAt(plate, { x: 55, y: 6.9 })).toMatchObject({ kind: 'slot', id: 'S1', off: 6.9 })
    expect(anchorAt(plate, { x: 55, y: 7.1 })).toBeNull()
    expect(anchorAt(plate, { x: 139, y: 0 })).toMatchObject({ off: 4 })
    const drilled = { ...plate, holes: [{ id: 'H1', x: 60, y: 60, diameter: 13 }] }
    expect(anchorAt(drilled, { x: 65, y: 60 })).toMatchObject({ kind: 'hole', id: 'H1', off: 5 })
  })
  test('middle and gap', () => {
    const hollow = [...square(10, 0, 20), square(5, 0, 4)[0]!.toReversed()]
    expect(middleOf(hollow)!.x).toBeCloseTo((400 * 10 - 16 * 5) / 384, 9)
    expect(middleOf([])).toBeNull()
    expect(gapBetween(square(0, 0, 10), square(23, 0, 10))).toBeCloseTo(13, 9)
    expect(gapBetween(square(0, 0, 10), square(13, 14, 10))).toBeCloseTo(5, 9)
  })
})

/** A step: 30 high where x < 0, 20 beyond; or a wedge that falls from 30 to 20. 120 × 80 in plan. */
const step = (wedge: boolean): Body => {
  const vertices: number[] = []
  const triangles: number[] = []
  const profile = wedge
    ? [
        [-60, 0],
        [60, 0],
        [60, 20],
        [-60, 30],
      ]
    : [
        [-60, 0],
        [60, 0],
        [60, 20],
        [0, 20],
        [0, 30],
        [-60, 30],
      ]
  const n = profile.length
  for (const y of [-40, 40]) for (const [x, z] of profile) vertices.push(x!, y, z!)
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n
    triangles.push(i, j, n + j, i, n + j, n + i)
  }
  // The ends as fans about the first corner of the lower part and, of the step, its upper part.
  const fan = wedge
    ? [
        [0, 1, 2],
        [0, 2, 3],
      ]
    : [
        [0, 1, 2],
        [0, 2, 3],
        [0, 3, 4],
        [0, 4, 5],
      ]
  for (const [a, b, c] of fan) triangles.push(a!, c!, b!, n + a!, n + b!, n + c!)
  return {
    id: 'm',
    effect: 'adds',
    base: 0,
    mesh: { vertices, triangles: triangles.map(flip(vertices, triangles)) },
  }
}
/** Triangles as given are wound so that the first facing up is counter-clockwise from in front; see `surfaceUnder`. */
const flip =
  (_v: readonly number[], t: readonly number[]) =>
  (_: number, i: number): number =>
    t[3 * Math.floor(i / 3) + [0, 2, 1][i % 3]!]!

describe('a mesh under a toe', () => {
  const pad = (x0: number, x1: number) => [
    { x: x0, y: -20 },
    { x: x1, y: -20 },
    { x: x1, y: 20 },
    { x: x0, y: 20 },
  ]
  const meshOf = (b: Body) => (b as Extract<Body, { mesh: unknown }>).mesh
  test('it stands on what is level at its lowest, not on its silhouette', () => {
    expect(polygonArea(underside(meshOf(step(false)), 0.05))).toBeCloseTo(120 * 80, 6)
    const { vertices, triangles } = meshOf(step(true))
    // The wedge on its back: the slope looks at the plate, and nothing is level there.
    const turned = {
      vertices: vertices.map((v, i) => (i % 3 === 0 ? v : -v)),
      triangles,
    }
    expect(underside(turned, 0.05)).toEqual([])
  })
  test('highest, lowest, and how much of the pad is level', () => {
    expect(surfaceUnder(meshOf(step(false)), pad(-20, -10), 0.2)).toEqual({
      z: 30,
      low: 30,
      flat: expect.closeTo(400, 9),
    })
    expect(surfaceUnder(meshOf(step(false)), pad(10, 20), 0.2)).toEqual({
      z: 20,
      low: 20,
      flat: expect.closeTo(400, 9),
    })
    expect(surfaceUnder(meshOf(step(false)), pad(-5, 5), 0.2)).toEqual({
      z: 30,
      low: 20,
      flat: expect.closeTo(200, 9),
    })
    const slope = surfaceUnder(meshOf(step(true)), pad(0, 12), 0.2)!
    expect([slope.z, slope.low, slope.flat]).toEqual([expect.closeTo(25, 9), expect.closeTo(24, 9), 0])
    expect(surfaceUnder(meshOf(step(false)), pad(70, 80), 0.2)).toBeNull()
  })
  test('on its foremost level face a clamp holds; on a lower or sloping one that is not known', () => {
    const on = (body: Body, turn: number) => look({ part: partOf([body]), setup: { turn } })
    // Turned by half a turn the high side comes under c1.
    expect(on(step(false), 180).c1.state).toBe('holds')
    expect(on(step(false), 0).c1.state).toBe('unknown')
    expect(on(step(false), 0).found).toContain('caution toe-on-mesh c1')
    expect(on(step(true), 0).c1.state).toBe('unknown')
    expect(on(step(false), 180).found).not.toContain('stop part-not-carried setup')
  })
})

test('nothing is looked at again while nothing moves, and what moves is', () => {
  const job = clampedJob()
  const [a1, a2] = clampStates(mountSetup(job, 'op10'))
  const [b1, b2] = clampStates(mountSetup(job, 'op10'))
  expect(b1!.findings).toBe(a1!.findings)
  const hardware = job.setups[0]!.hardware
  const moved = { ...hardware[0]!, at: { slot: 'S1', radius: 112 } }
  const next: Job = {
    ...job,
    setups: [{ ...job.setups[0]!, hardware: [moved as (typeof hardware)[0], hardware[1]!] }],
  }
  const [c1] = clampStates(mountSetup(next, 'op10'))
  expect(c1!.state).toBe('nothing')
  const thin: Job = { ...job, part: partOf([{ ...job.part.bodies[0]!, thickness: 10 } as Body]) }
  expect(clampStates(mountSetup(thin, 'op10'))[1]!.piece.z0).toBe(22)
  expect(a2!.state).toBe(b2!.state)
  const turned: Job = { ...job, setups: [{ ...job.setups[0]!, turn: 90 }] }
  expect(clampStates(mountSetup(turned, 'op10'))[0]!.state).toBe('nothing')
})
