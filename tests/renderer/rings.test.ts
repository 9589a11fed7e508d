import { describe, expect, test } from 'vitest'
import fc from 'fast-check'
import { pointOnEdge, ringEdges, makeEdge } from '../../src-core/geometry/edges.ts'
import { ringMoments } from '../../src-core/geometry/ringMoments.ts'
import { regionFaults } from '../../src-core/geometry/validate.ts'
import { chamfer, fillet } from '../../src-renderer/editor/draw/corners.ts'
import {
  aimEdge,
  boxCentre,
  bulgeForRadius,
  bulgeThrough,
  circle,
  deleteVertex,
  edgeFigures,
  headingAtEnd,
  mirror,
  moveEdge,
  obround,
  rectangle,
  ringBox,
  rotate,
  setBulge,
  splitEdge,
  tangentBulge,
  translate,
} from '../../src-renderer/editor/draw/rings.ts'
import { withoutDoubles } from '../../src-renderer/editor/draw/repair.ts'
import { drawTargets, snapDraw } from '../../src-renderer/editor/draw/snapping.ts'
import { readTyped } from '../../src-renderer/editor/draw/typedPoint.ts'
import { exampleJob } from './example.ts'

const area = (ring: Parameters<typeof ringMoments>[0]) => ringMoments(ring).area
const square = rectangle({ x: 0, y: 0 }, { x: 40, y: 40 })!
const coordinate = fc.integer({ min: -1000, max: 1000 }).map((v) => v / 10)
const point = fc.record({ x: coordinate, y: coordinate })

describe('shapes', () => {
  test('have the areas of their formulas', () => {
    expect(area(rectangle({ x: 10, y: 5 }, { x: -20, y: 45 })!)).toBeCloseTo(1200, 9)
    expect(area(circle({ x: 3, y: 4 }, 10)!)).toBeCloseTo(Math.PI * 100, 9)
    expect(area(obround({ x: 0, y: 0 }, { x: 30, y: 40 }, 12)!)).toBeCloseTo(50 * 12 + Math.PI * 36, 9)
  })
  test('are sound outlines', () => {
    for (const ring of [square, circle({ x: 0, y: 0 }, 5)!, obround({ x: 1, y: 2 }, { x: -9, y: 4 }, 3)!])
      expect(regionFaults({ outline: ring, holes: [] })).toEqual([])
  })
  test('without area are none', () => {
    expect(rectangle({ x: 0, y: 0 }, { x: 5, y: 0 })).toBeNull()
    expect(circle({ x: 0, y: 0 }, 0)).toBeNull()
    expect(obround({ x: 0, y: 0 }, { x: 5, y: 0 }, 0)).toBeNull()
  })
})

describe('arcs', () => {
  test('a tangent arc leaves in the heading it was given', () => {
    fc.assert(
      fc.property(point, point, fc.double({ min: -1.2, max: 1.2, noNaN: true }), (a, b, off) => {
        fc.pre(Math.hypot(b.x - a.x, b.y - a.y) > 1)
        const heading = Math.atan2(b.y - a.y, b.x - a.x) + off
        const bulge = tangentBulge(a, b, heading)
        const near = pointOnEdge(makeEdge(a, b, bulge), 1e-3)
        const left = Math.atan2(near.y - a.y, near.x - a.x)
        expect(Math.cos(left - heading)).toBeGreaterThan(1 - 1e-5)
      }),
    )
  })
  test('the heading at its end is that of the next tangent', () => {
    const a = { x: 0, y: 0 }
    const b = { x: 10, y: 0 }
    // A quarter turn counter-clockwise over a chord along x leaves at -45 and arrives at +45 degrees.
    expect(headingAtEnd(a, b, Math.tan(Math.PI / 8))).toBeCloseTo(Math.PI / 4, 12)
  })
  test('an arc through a point passes it', () => {
    fc.assert(
      fc.property(point, point, point, (a, b, p) => {
        const chord = Math.hypot(b.x - a.x, b.y - a.y)
        const across = Math.abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / (chord || 1)
        fc.pre(chord > 1 && across > 0.5)
        const { arc } = makeEdge(a, b, bulgeThrough(a, b, p))
        const off = Math.hypot(p.x - arc!.centre.x, p.y - arc!.centre.y) - arc!.radius
        expect(Math.abs(off)).toBeLessThan(1e-6 * Math.max(1, arc!.radius))
        const angle = Math.atan2(p.y - arc!.centre.y, p.x - arc!.centre.x)
        const along = arc!.sweep > 0 ? angle - arc!.start : arc!.start - angle
        const turn = ((along % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI)
        expect(turn).toBeLessThanOrEqual(Math.abs(arc!.sweep) + 1e-6)
      }),
    )
  })
  test('a radius typed is the radius got', () => {
    const bent = setBulge(square, 0, 0.2)
    expect(edgeFigures(setBulge(bent, 0, bulgeForRadius(bent, 0, 50)!), 0).radius).toBeCloseTo(50, 9)
    const far = setBulge(square, 0, -2)
    expect(edgeFigures(setBulge(far, 0, bulgeForRadius(far, 0, 30)!), 0).radius).toBeCloseTo(30, 9)
    expect(bulgeForRadius(far, 0, 30)!).toBeLessThan(-1)
    expect(bulgeForRadius(bent, 0, 19)).toBeNull()
  })
})

describe('changes', () => {
  test('a split edge is the same edge', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.double({ min: -1.5, max: 1.5, noNaN: true }),
        (t, bulge) => {
          const ring = setBulge(square, 1, bulge)
          const parts = splitEdge(ring, 1, t)
          expect(parts).toHaveLength(5)
          expect(area(parts)).toBeCloseTo(area(ring), 6)
        },
      ),
    )
  })
  test('a fillet takes off the corner of its square less the quarter disc', () => {
    const done = fillet(square, 1, 8)
    if (!done.ok) throw new Error(done.reason)
    expect(area(square) - area(done.ring)).toBeCloseTo(64 - (Math.PI / 4) * 64, 9)
    const arc = ringEdges(done.ring)[1]!.arc!
    expect(arc.radius).toBeCloseTo(8, 9)
    expect(regionFaults({ outline: done.ring, holes: [] })).toEqual([])
  })
  test('on a ring run the other way it is the same', () => {
    const done = fillet([...square].reverse(), 1, 8)
    if (!done.ok) throw new Error(done.reason)
    expect(area(square) - area(done.ring)).toBeCloseTo(64 - (Math.PI / 4) * 64, 9)
  })
  test('a chamfer takes off half a square', () => {
    const done = chamfer(square, 2, 6)
    if (!done.ok) throw new Error(done.reason)
    expect(area(square) - area(done.ring)).toBeCloseTo(18, 9)
  })
  test('what does not fit is refused with the room there is', () => {
    expect(fillet(square, 1, 50)).toEqual({
      ok: false,
      reason: expect.stringContaining('Type a smaller size') as string,
      fit: { room: 40, needed: expect.closeTo(50, 9) as number },
    })
    expect(
      chamfer(
        [
          { x: 0, y: 0 },
          { x: 10, y: 0 },
          { x: 20, y: 0 },
          { x: 10, y: 10 },
        ],
        1,
        1,
      ).ok,
    ).toBe(false)
  })
  test('move, turn and mirror keep the area; mirroring twice is nothing', () => {
    const ring = setBulge(square, 0, 0.4)
    const about = boxCentre(ring)
    for (const next of [
      translate(ring, { x: 7, y: -3 }),
      rotate(ring, about, 33),
      mirror(ring, about, 'x'),
      mirror(ring, about, 'y'),
    ])
      expect(area(next)).toBeCloseTo(area(ring), 9)
    expect(mirror(mirror(ring, about, 'x'), about, 'x')).toEqual(ring)
    expect(boxCentre(translate(ring, { x: 7, y: -3 })).x).toBeCloseTo(about.x + 7, 9)
  })
  test('the box holds arcs, not just their ends', () => {
    expect(ringBox(circle({ x: 5, y: 5 }, 10)!)).toEqual({ x0: -5, y0: -5, x1: 15, y1: 15 })
  })
  test('an edge aimed has the length and direction typed; moved as a whole it keeps them', () => {
    const aimed = edgeFigures(aimEdge(square, 0, 55, 30), 0)
    expect(aimed.length).toBeCloseTo(55, 9)
    expect(aimed.angle).toBeCloseTo(30, 9)
    expect(edgeFigures(moveEdge(square, 1, { x: 5, y: 2 }), 1)).toEqual(edgeFigures(square, 1))
  })
  test('a vertex deleted leaves a straight edge; two stay', () => {
    expect(deleteVertex(setBulge(square, 0, 0.5), 1)).toEqual([square[0], square[2], square[3]])
    expect(deleteVertex(circle({ x: 0, y: 0 }, 5)!, 0)).toHaveLength(2)
  })
  test('doubled points are joined', () => {
    expect(withoutDoubles([square[0]!, square[0]!, square[1]!, square[2]!, square[3]!])).toEqual(square)
  })
})

describe('snapping while drawing', () => {
  const targets = drawTargets(exampleJob().part)
  const wish = { pxPerMm: 4, step: 0.5, touch: false, free: false, from: null }
  test('bores, centres, vertices, edges, directions, grid, in that order of need', () => {
    expect(snapDraw({ x: 110.5, y: 0.4 }, targets, wish)).toEqual({ point: { x: 110, y: 0 }, text: 'bore B' })
    expect(snapDraw({ x: 114.5, y: -29.5 }, targets, wish).text).toBe('vertex')
    expect(snapDraw({ x: 80.2, y: 35.1 }, targets, wish).text).toBe('edge')
    const along = snapDraw({ x: 200.3, y: 100.4 }, targets, { ...wish, from: { x: 150, y: 100 } })
    expect(along).toEqual({ point: { x: 200.5, y: 100 }, text: '0°' })
    expect(snapDraw({ x: 200.31, y: 130.42 }, targets, wish)).toEqual({
      point: { x: 200.5, y: 130.5 },
      text: '',
    })
  })
  test('directions are caught every 15°, and no others where no edge of the part has one of its own', () => {
    const from = { x: 300, y: 300 }
    const bare = { ...targets, directions: [] }
    const toward = (degrees: number) => {
      const t = (degrees * Math.PI) / 180
      return snapDraw({ x: 300 + 40 * Math.cos(t), y: 300 + 40 * Math.sin(t) }, bare, { ...wish, from })
    }
    for (let degrees = 0; degrees < 360; degrees += 15) {
      expect(toward(degrees + 1.2).text).toBe(`${degrees}°`)
      const { point } = toward(degrees - 1.2)
      expect(Math.atan2(point.y - 300, point.x - 300)).toBeCloseTo(
        Math.atan2(Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)),
        4,
      )
      expect(toward(degrees + 5).text).toBe('')
      expect(toward(degrees + 7.5).text).toBe('')
      expect(toward(degrees + 10).text).toBe('')
    }
  })
  test('with nothing to catch on, only a hundredth is rounded', () => {
    expect(snapDraw({ x: 110.5049, y: 0.4 }, targets, { ...wish, free: true })).toEqual({
      point: { x: 110.5, y: 0.4 },
      text: '',
    })
  })
  test('a dragged vertex does not catch on itself or its own edges', () => {
    const own = drawTargets(exampleJob().part, { ref: { body: 'link', ring: 0 }, vertex: 0 })
    expect(snapDraw({ x: 114.0, y: -29.7 }, own, wish).text).not.toBe('vertex')
  })
})

describe('typed points', () => {
  const read = (
    text: string,
    last: { x: number; y: number } | null = { x: 10, y: 20 },
    unit: 'mm' | 'in' = 'mm',
  ) => readTyped(text, last, unit, (v) => (unit === 'in' ? v * 25.4 : v))
  test.each([
    ['40, 20', { kind: 'point', relative: false, point: { x: 40, y: 20 } }],
    ['40,20', { kind: 'point', relative: false, point: { x: 40, y: 20 } }],
    ['12,5; 7,25', { kind: 'point', relative: false, point: { x: 12.5, y: 7.25 } }],
    ['by 5, -3', { kind: 'point', relative: true, point: { x: 15, y: 17 } }],
    ['1 in, 2', { kind: 'point', relative: false, point: { x: 25.4, y: 2 } }],
    ['25', { kind: 'value', value: 25 }],
  ])('%s', (text, expected) => {
    expect(read(text)).toEqual(expected)
  })
  test('polar, from the last point', () => {
    const typed = read('by 50 at 90')
    if (typed.kind !== 'point') throw new Error('no point')
    expect(typed.point.x).toBeCloseTo(10, 9)
    expect(typed.point.y).toBeCloseTo(70, 9)
  })
  test('plain numbers are inches where inches are shown', () => {
    expect(read('1, 2', null, 'in')).toEqual({ kind: 'point', relative: false, point: { x: 25.4, y: 50.8 } })
  })
  test.each(['', 'by 1, 2 without a last point', '1, 2, 3', '5 kg', 'by 5 at 3 mm', 'abc', 'by 7'])(
    'refused: %s',
    (text) => {
      const last = text.includes('without') ? null : { x: 0, y: 0 }
      expect(read(text.replace(' without a last point', ''), last).kind).toBe('refused')
    },
  )
})
