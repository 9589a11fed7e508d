import { describe, expect, test } from 'vitest'
import { circleRing, rectRing } from '../../src-core/geometry/edges.ts'
import { ringMoments } from '../../src-core/geometry/ringMoments.ts'
import { regionFaults } from '../../src-core/geometry/validate.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import { isPrism } from '../../src-core/job/schema.ts'
import { jobFaults } from '../../src-core/job/faults.ts'
import {
  bulgeOfRadius,
  edgeFigures,
  mirror,
  offsetEdge,
  rotate,
  translate,
} from '../../src-renderer/editor/draw/rings.ts'
import { chamfer, fillet } from '../../src-renderer/editor/draw/corners.ts'
import { drawTargets, snapDraw } from '../../src-renderer/editor/draw/snapping.ts'
import { readTyped } from '../../src-renderer/editor/draw/typedPoint.ts'
import { untangled } from '../../src-renderer/editor/draw/untangle.ts'
import { addHole, setRing } from '../../src-renderer/editor/edits/bodies.ts'
import { copyRings, moveRings } from '../../src-renderer/editor/edits/bodyCopies.ts'
import { faultPlace, placeWords } from '../../src-renderer/editor/faultPlace.ts'
import { freeStep } from '../../src-renderer/editor/snap.ts'
import { exampleJob } from './example.ts'

const area = (ring: Ring) => ringMoments(ring).area
const square: Ring = rectRing({ x: 0, y: 0 }, 40, 40, 0)

describe('edges', () => {
  test.each([square, [...square].reverse()])(
    'moved out by 5 mm a square grows by 200 mm², either way round',
    (...ring) => {
      const shape = ring as unknown as Ring
      expect(area(offsetEdge(shape, 1, 5))).toBeCloseTo(area(shape) + 200, 9)
      expect(area(offsetEdge(shape, 1, -5))).toBeCloseTo(area(shape) - 200, 9)
    },
  )
  test('an arc typed by its radius has that radius and turns the way its sign says', () => {
    const bulge = bulgeOfRadius({ x: 0, y: 0 }, { x: 20, y: 0 }, -15)!
    expect(bulge).toBeLessThan(0)
    expect(
      edgeFigures(
        [
          { x: 0, y: 0, bulge },
          { x: 20, y: 0 },
          { x: 20, y: 20 },
        ],
        0,
      ).radius,
    ).toBeCloseTo(15, 9)
    expect(bulgeOfRadius({ x: 0, y: 0 }, { x: 20, y: 0 }, 9)).toBeNull()
    const typed = readTyped('by 20, 0 radius 1 in', { x: 1, y: 2 }, 'mm', (v) => v)
    expect(typed).toEqual({ kind: 'point', relative: true, point: { x: 21, y: 2 }, radius: 25.4 })
    expect(readTyped('20 radius 5', { x: 0, y: 0 }, 'mm', (v) => v).kind).toBe('refused')
    expect(readTyped('20, 0 radius 5 kg', null, 'mm', (v) => v).kind).toBe('refused')
  })
})

describe('corners beside arcs', () => {
  // A half disc of radius 30 on a base line, run counter-clockwise.
  const half: Ring = [
    { x: -30, y: 0, bulge: 0 },
    { x: 30, y: 0, bulge: 1 },
  ]
  test.each([half, [...half].reverse().map((v, i) => ({ ...v, bulge: i === 0 ? 0 : -1 }))])(
    'a rounding is tangent to the line and to the arc, whichever way the ring runs',
    (...given) => {
      const ring = given as unknown as Ring
      const i = ring.findIndex((v) => v.x === 30)
      const done = fillet(ring, i, 5)
      if (!done.ok) throw new Error(done.reason)
      expect(regionFaults({ outline: done.ring, holes: [] })).toEqual([])
      expect(area(done.ring)).toBeLessThan(area(ring))
      // Its middle is 5 above the base and 25 from the arc's own: at x = √(25² − 5²).
      const arcs = done.ring.map((_, k) => edgeFigures(done.ring, k).radius)
      expect(arcs.filter((r) => r !== null && Math.abs(r - 5) < 1e-6)).toHaveLength(1)
      expect(arcs.filter((r) => r !== null && Math.abs(r - 30) < 1e-6)).toHaveLength(1)
      const x = Math.sqrt(25 ** 2 - 5 ** 2)
      expect(done.ring.some((v) => Math.abs(v.x - x) < 1e-6 && Math.abs(v.y) < 1e-9)).toBe(true)
    },
  )
  test('a chamfer goes the same way along both', () => {
    const done = chamfer(half, 1, 6)
    if (!done.ok) throw new Error(done.reason)
    // 6 mm back along the base; 6 mm on along the arc is an angle of 6/30.
    expect(done.ring[1]!.x).toBeCloseTo(24, 9)
    expect(done.ring[2]!.x).toBeCloseTo(30 * Math.cos(0.2), 9)
    expect(done.ring[2]!.y).toBeCloseTo(30 * Math.sin(0.2), 9)
  })
  test('what does not fit and what is no corner is refused with a word', () => {
    expect(fillet(half, 1, 40)).toMatchObject({
      ok: false,
      reason: expect.stringContaining('smaller') as string,
    })
    const tangent: Ring = [
      { x: 0, y: 0 },
      { x: 40, y: 0, bulge: 1 },
      { x: 40, y: 20 },
      { x: 0, y: 20 },
    ]
    expect(fillet(tangent, 1, 3)).toMatchObject({
      ok: false,
      reason: expect.stringContaining('straight on') as string,
    })
  })
})

describe('a ring that crosses itself', () => {
  test('keeps its larger loop', () => {
    // A bow tie whose right wing is the larger.
    const bow: Ring = [
      { x: 0, y: 0 },
      { x: 60, y: 30 },
      { x: 60, y: 0 },
      { x: 0, y: 10 },
    ]
    expect(regionFaults({ outline: bow, holes: [] })).not.toEqual([])
    const mended = untangled(bow)!
    expect(regionFaults({ outline: mended, holes: [] })).toEqual([])
    // The lines y = x/2 and y = 10 − x/6 meet at x = 15, y = 7.5: a triangle of base 30 and height 45.
    expect(area(mended)).toBeCloseTo((30 * 45) / 2, 6)
  })
  test('an arc that is cut keeps its circle', () => {
    const ring: Ring = [
      { x: -30, y: 0, bulge: 1 },
      { x: 30, y: 0 },
      { x: 30, y: -10 },
      { x: -30, y: -10 },
    ]
    const mended = untangled(ring)!
    expect(regionFaults({ outline: mended, holes: [] })).toEqual([])
    for (const [i, v] of mended.entries())
      if (v.bulge) expect(edgeFigures(mended, i).radius).toBeCloseTo(30, 6)
    expect(mended.some((v) => v.bulge)).toBe(true)
  })
})

describe('whole rings', () => {
  const job = addHole(exampleJob(), 'link', { x: 60, y: 0 }, 12)
  const link = job.part.bodies.find((b) => b.id === 'link')!
  if (!isPrism(link)) throw new Error('prism')
  test('an outline takes its holes along', () => {
    const moved = moveRings(job, [{ body: 'link', ring: 0 }], (r) => translate(r, { x: 3, y: 4 }))
    const body = moved.part.bodies.find((b) => b.id === 'link')!
    if (!isPrism(body)) throw new Error('prism')
    expect(body.holes.at(-1)![0]!.x).toBeCloseTo(link.holes.at(-1)![0]!.x + 3, 9)
    expect(jobFaults(moved)).toEqual([])
  })
  test('a bolt circle: five copies of a hole, each a sixth further round the bore', () => {
    const ref = { body: 'link', ring: link.holes.length }
    const about = { x: 0, y: 0 }
    const shrunk = setRing(job, 'link', ref.ring, circleRing({ x: 38, y: 0 }, 4))
    const made = copyRings(
      shrunk,
      [ref],
      [1, 2, 3, 4, 5].map((k) => (r: Ring) => rotate(r, about, 60 * k)),
    )!
    const body = made.job.part.bodies.find((b) => b.id === 'link')!
    if (!isPrism(body)) throw new Error('prism')
    expect(body.holes).toHaveLength(link.holes.length + 5)
    expect(made.refs[0]!.ring).toBe(body.holes.length)
    const angles = body.holes.slice(-6).map((h) => {
      const p = { x: (h[0]!.x + h[1]!.x) / 2, y: (h[0]!.y + h[1]!.y) / 2 }
      expect(Math.hypot(p.x, p.y)).toBeCloseTo(38, 6)
      return Math.round((Math.atan2(p.y, p.x) * 180) / Math.PI + 360) % 360
    })
    expect(angles).toEqual([0, 60, 120, 180, 240, 300])
  })
  test('a mirrored copy of an outline is a body as thick, its arcs bent the other way', () => {
    const made = copyRings(job, [{ body: 'link', ring: 0 }], [(r) => mirror(r, { x: 200, y: 0 }, 'x')])!
    const copy = made.job.part.bodies.find((b) => b.id === made.refs[0]!.body)!
    if (!isPrism(copy)) throw new Error('prism')
    expect([copy.thickness, copy.base, copy.effect]).toEqual([link.thickness, link.base, link.effect])
    expect(area(copy.outline)).toBeCloseTo(area(link.outline), 6)
    expect(copy.holes).toHaveLength(link.holes.length)
    expect(jobFaults(made.job)).toEqual([])
  })
})

describe('catching', () => {
  const targets = drawTargets({ ...exampleJob().part, bodies: [], bores: [] })
  const edges = rectRing({ x: 50, y: 0 }, 20, 200, 0)
  test('the crossing of an edge with a direction from the last point', () => {
    const part = exampleJob().part
    const body = part.bodies.find(isPrism)!
    const list = drawTargets({ ...part, bores: [], bodies: [{ ...body, outline: edges, holes: [] }] })
    // From (0, 20) at 0° the edge x = 40 is met at (40, 20).
    const caught = snapDraw({ x: 40.6, y: 20.4 }, list, {
      pxPerMm: 4,
      step: 1,
      touch: false,
      free: false,
      from: { x: 0, y: 20 },
    })
    expect(caught.point.x).toBeCloseTo(40, 9)
    expect(caught.point.y).toBeCloseTo(20, 9)
    expect(caught.text).toBe('edge, 0°')
  })
  test('the grid is that of the units shown', () => {
    expect(freeStep(4, 'in')).toBeCloseTo(0.254, 9)
    expect(freeStep(4, 'mm')).toBe(0.5)
    expect(freeStep(0.01, 'mm')).toBe(10)
    const wish = { pxPerMm: 4, step: 6.35, touch: false, free: false, from: null }
    expect(snapDraw({ x: 70, y: 33 }, targets, wish).point).toEqual({ x: 69.85, y: 31.75 })
  })
})

test('a fault says where it is in plain words', () => {
  const broken = setRing(exampleJob(), 'link', 0, [
    { x: 0, y: 0 },
    { x: 60, y: 30 },
    { x: 60, y: 0 },
    { x: 0, y: 10 },
  ])
  const fault = jobFaults(broken).find((f) => f.path.includes('outline['))!
  expect(faultPlace(broken, fault)).toMatchObject({ kind: 'ring', body: 'link', ring: 0 })
  expect(placeWords(broken, fault)).toMatch(/^Body link, outline, point \d$/)
  expect(faultPlace(broken, { path: 'setups[1].hardware[0].at.slot', message: '' })).toEqual({
    kind: 'piece',
    setup: broken.setups[1]!.id,
    id: broken.setups[1]!.hardware[0]!.id,
  })
  expect(faultPlace(broken, { path: 'plate.bore', message: '' })).toEqual({ kind: 'plate' })
})
