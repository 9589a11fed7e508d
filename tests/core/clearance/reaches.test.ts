/** The quick answers before the polygon library is asked agree with what it says. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { boxOf, reaches } from '../../../src-core/geometry/polygonBox.ts'
import { flattenRing } from '../../../src-core/geometry/flatten.ts'
import { polygonArea, polygonIntersection } from '../../../src-core/geometry/polygon.ts'
import { mm, moved, point, starRing } from '../../helpers/arbitraries.ts'

const rectangle = (x: number, y: number, w: number, h: number) => [
  [
    { x: x - w, y: y - h },
    { x: x + w, y: y - h },
    { x: x + w, y: y + h },
    { x: x - w, y: y + h },
  ],
]

test('what does not reach a box has nothing in it, and what has something in it reaches it', () => {
  let away = 0
  let in_ = 0
  fc.assert(
    fc.property(
      starRing({ from: 40 }),
      starRing({ from: 5, to: 12 }),
      point(20),
      point(130),
      mm(0.5, 12),
      mm(0.5, 12),
      (outline, hole, shift, at, w, h) => {
        const region = [flattenRing(outline, 0.01), flattenRing(moved(hole, shift.x, shift.y), 0.01)]
        const box = rectangle(at.x, at.y, w, h)
        const area = polygonArea(polygonIntersection(box, region))
        const near = reaches(region, boxOf(box))
        if (!near) {
          away++
          expect(area).toBe(0)
        } else if (area > 0) in_++
      },
    ),
    { numRuns: 400 },
  )
  expect(Math.min(away, in_)).toBeGreaterThan(50)
})

test('a box in a hole is not reached, a box in the midst of the material is', () => {
  const rings = [...rectangle(0, 0, 50, 50), ...rectangle(0, 0, 20, 20)]
  expect(reaches(rings, boxOf(rectangle(0, 0, 5, 5)))).toBe(false)
  expect(reaches(rings, boxOf(rectangle(35, 0, 5, 5)))).toBe(true)
  expect(reaches(rings, boxOf(rectangle(80, 0, 5, 5)))).toBe(false)
  // A line that goes through the box between two points far away from it.
  expect(
    reaches(
      [
        [
          { x: -100, y: -100 },
          { x: 100, y: 100 },
          { x: 100, y: 99 },
        ],
      ],
      boxOf(rectangle(0, 0, 1, 1)),
    ),
  ).toBe(true)
})
