/** That a box lies within outlines, or clear of them, against the polygon library. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { polygonArea, polygonDifference, polygonIntersection } from '../../../src-core/geometry/polygon.ts'
import { covers, cutToBox, reaches, type Box } from '../../../src-core/geometry/polygonBox.ts'
import { flattenRing } from '../../../src-core/geometry/flatten.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const outline = fc.record({
  x: number(-20, 20),
  y: number(-20, 20),
  out: number(10, 60),
  hole: number(1, 30),
})
const box = fc.record({ x: number(-50, 50), y: number(-50, 50), w: number(0.5, 30), h: number(0.5, 30) })

const cornersOf = ({ x0, y0, x1, y1 }: Box) => [
  { x: x0, y: y0 },
  { x: x1, y: y0 },
  { x: x1, y: y1 },
  { x: x0, y: y1 },
]

test('what is said to cover a box leaves nothing of it, what does not reach it meets nothing', () => {
  let covered = 0
  let clear = 0
  fc.assert(
    fc.property(outline, box, (o, b) => {
      const ring = (diameter: number) => flattenRing(circleRing({ x: o.x, y: o.y }, diameter), 0.01)
      const polygons = [ring(2 * o.out), ring(Math.min(o.hole, o.out))]
      const where: Box = { x0: b.x, y0: b.y, x1: b.x + b.w, y1: b.y + b.h }
      const corners = [cornersOf(where)]
      const left = polygonArea(polygonDifference(corners, polygons))
      const both = polygonArea(polygonIntersection(corners, polygons))
      if (covers(polygons, where)) {
        covered++
        expect(left).toBe(0)
      }
      if (!reaches(polygons, where)) {
        clear++
        expect(both).toBe(0)
      }
      expect(covers(polygons, where) && !reaches(polygons, where)).toBe(false)
    }),
    { numRuns: 600 },
  )
  expect(covered).toBeGreaterThan(20)
  expect(clear).toBeGreaterThan(20)
})

/** Where the outline's edge passes, most of them. */
const atEdge = fc
  .record({ turn: number(0, 6.28), out: number(28, 50), w: number(8, 30), h: number(8, 30) })
  .map(({ turn, out, w, h }) => ({ x: out * Math.cos(turn) - w / 2, y: out * Math.sin(turn) - h / 2, w, h }))

test('what is left of a long outline within a box is what the polygon library leaves', () => {
  let left = 0
  fc.assert(
    fc.property(
      fc.integer({ min: 60, max: 400 }),
      number(0, 0.3),
      fc.oneof(box, atEdge),
      (count, wave, b) => {
        const ring = Array.from({ length: count }, (_, i) => {
          const t = (2 * Math.PI * i) / count
          const r = 40 * (1 + wave * Math.cos(7 * t))
          return { x: r * Math.cos(t), y: r * Math.sin(t) }
        })
        const where: Box = { x0: b.x, y0: b.y, x1: b.x + b.w, y1: b.y + b.h }
        const corners = cornersOf(where)
        // Area by the shoelace formula: the cut's way round along the box's sides encloses nothing.
        const area = cutToBox([ring], where).reduce(
          (sum, r) =>
            sum +
            r.reduce((s, p, i) => s + p.x * r[(i + 1) % r.length]!.y - r[(i + 1) % r.length]!.x * p.y, 0) / 2,
          0,
        )
        const wanted = polygonArea(polygonIntersection([corners], [ring]))
        expect(area).toBeCloseTo(wanted, 3)
        if (wanted > 1 && wanted < 0.99 * b.w * b.h) left++
      },
    ),
    { numRuns: 400 },
  )
  expect(left).toBeGreaterThan(30)
})
