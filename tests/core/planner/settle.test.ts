import Flatten from '@flatten-js/core'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Point } from '../../../src-core/geometry/types.ts'
import { contactOf, inPlate } from '../../../src-core/planner/contact.ts'
import type { Entry } from '../../../src-core/planner/entries.ts'
import { settle, type Pairing } from '../../../src-core/planner/settle.ts'
import { convexHull } from '../../../src-core/geometry/convexHull.ts'
import type { Shape } from '../../../src-core/planner/shape.ts'
import { degrees, mm, point } from '../../helpers/arbitraries.ts'

const shape: fc.Arbitrary<Shape> = fc.oneof(
  mm(5, 40).map((radius): Shape => ({ kind: 'disc', radius })),
  fc
    .array(point(40), { minLength: 5, maxLength: 10 })
    .map((points): Shape => ({ kind: 'outline', points: convexHull(points) }))
    .filter((s) => s.kind === 'disc' || s.points.length > 2),
)

const polygonOf = (s: Shape, at: Point): Flatten.Polygon | Flatten.Circle =>
  s.kind === 'disc'
    ? new Flatten.Circle(new Flatten.Point(at.x, at.y), s.radius)
    : new Flatten.Polygon(s.points.map((p) => new Flatten.Point(p.x + at.x, p.y + at.y)))

test('the gap between two shapes is their distance, and negative where they meet', () => {
  let apart = 0
  fc.assert(
    fc.property(shape, shape, point(120), (a, b, by) => {
      const gap = contactOf(a, b).gap(by.x, by.y)
      const pa = polygonOf(a, { x: 0, y: 0 })
      const pb = polygonOf(b, by)
      const distance = pa.distanceTo(pb)[0]
      if (gap > 1e-6) {
        apart++
        expect(Math.abs(gap - distance)).toBeLessThan(1e-6)
      } else {
        // Moved by its depth in the best direction the second comes clear, and by no less in any.
        const clears = (step: number) =>
          Array.from({ length: 720 }, (_, k) => (k * Math.PI) / 360).some(
            (t) => contactOf(a, b).gap(by.x + step * Math.cos(t), by.y + step * Math.sin(t)) > -1e-9,
          )
        expect(clears(-gap * 1.0001 + 1e-3)).toBe(true)
        if (gap < -1e-2) expect(clears(-gap * 0.999)).toBe(false)
      }
    }),
    { numRuns: 600 },
  )
  expect(apart).toBeGreaterThan(100)
})

const entry = (line: number, mass: number, r0: number, r1: number): Entry => ({
  line,
  stack: null,
  mass,
  r0,
  r1,
  shift: 0,
  across: 0,
  solids: [],
  form: 0,
})

test('two or three things that would meet are set as well as any grid of radii sets them', () => {
  let moved = 0
  const thing = fc.record({ angle: degrees, mass: mm(200, 1500), r0: mm(30, 60), span: mm(0, 60), shape })
  fc.assert(
    fc.property(fc.array(thing, { minLength: 2, maxLength: 3 }), point(120), (things, pull) => {
      const base = { x: pull.x * 1000, y: pull.y * 1000 }
      const entries = things.map((t, i) => entry(i, t.mass, t.r0, t.r0 + t.span))
      const directions = things.map((t) => ({
        x: Math.cos((t.angle * Math.PI) / 180),
        y: Math.sin((t.angle * Math.PI) / 180),
      }))
      const shapes = things.map((t) => inPlate(t.shape, t.angle))
      const pairs: Pairing[] = []
      for (let i = 0; i < things.length; i++)
        for (let j = i + 1; j < things.length; j++)
          pairs.push({ i, j, contact: contactOf(shapes[i]!, shapes[j]!) })
      const gapOf = (radii: readonly number[]) =>
        Math.min(
          ...pairs.map(({ i, j, contact }) =>
            contact.gap(
              radii[j]! * directions[j]!.x - radii[i]! * directions[i]!.x,
              radii[j]! * directions[j]!.y - radii[i]! * directions[i]!.y,
            ),
          ),
        )
      const residualOf = (radii: readonly number[]) =>
        Math.hypot(
          radii.reduce((s, r, i) => s + r * entries[i]!.mass * directions[i]!.x, base.x),
          radii.reduce((s, r, i) => s + r * entries[i]!.mass * directions[i]!.y, base.y),
        )
      const { best, lower } = settle(base, entries, directions, pairs, 0.5, Infinity)
      const free = settle(base, entries, directions, [], 0.5, Infinity).best!
      const steps = things.length === 2 ? 60 : 16
      let grid = Infinity
      const walk = (k: number, radii: number[]) => {
        if (k === things.length) {
          if (gapOf(radii) >= 0.5) grid = Math.min(grid, residualOf(radii))
          return
        }
        for (let i = 0; i <= steps; i++)
          walk(k + 1, [...radii, things[k]!.r0 + (things[k]!.span * i) / steps])
      }
      walk(0, [])
      expect(lower).toBeLessThanOrEqual(grid + 1e-3)
      if (!best) return
      if (best.residual > free.residual + 1) moved++
      expect(gapOf(best.radii)).toBeGreaterThanOrEqual(0.5 - 0.0101)
      expect(Math.abs(residualOf(best.radii) - best.residual)).toBeLessThan(1e-3)
      expect(best.residual).toBeLessThanOrEqual(grid + 1e-3)
    }),
    { numRuns: 400 },
  )
  expect(moved).toBeGreaterThan(20)
})

test('things that meet wherever they stand have no answer', () => {
  const disc: Shape = { kind: 'disc', radius: 60 }
  const directions = [
    { x: 1, y: 0 },
    { x: 0, y: 1 },
  ]
  const pairs = [{ i: 0, j: 1, contact: contactOf(disc, disc) }]
  const result = settle(
    { x: -1e5, y: 0 },
    [entry(0, 1000, 40, 70), entry(1, 1000, 40, 70)],
    directions,
    pairs,
    0,
    1e9,
  )
  expect(result).toEqual({ best: null, lower: 1e9 })
})
