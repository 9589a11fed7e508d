import { describe, expect, it } from 'vitest'
import { uncovered } from '../../../src-core/drawing/writers/dxf/uncovered.ts'
import type { PathPrimitive, PlainPrimitive, Primitive } from '../../../src-core/drawing/model/model.ts'
import { box, circle, line } from '../../../src-core/drawing/model/primitives.ts'
import { circleRing, makeEdge, ringEdges } from '../../../src-core/geometry/edges.ts'
import { subPaths } from '../../../src-core/drawing/model/subPaths.ts'
import { bracketSheets } from '../../helpers/goldenSheet.ts'

const O = { x: 0, y: 0 }
const across = line('outline', { x: -10, y: 0 }, { x: 10, y: 0 })
/** Length of all that is drawn in lines, mm. */
function inkLength(primitives: readonly Primitive[]): number {
  const edgeLength = (e: ReturnType<typeof makeEdge>) =>
    e.arc ? Math.abs(e.arc.sweep) * e.arc.radius : Math.hypot(e.b.x - e.a.x, e.b.y - e.a.y)
  const edges = (p: Primitive) =>
    p.kind === 'circle'
      ? ringEdges(circleRing(p.centre, 2 * p.radius))
      : p.kind === 'path'
        ? subPaths(p.steps).flatMap(({ vertices, closed }) =>
            closed
              ? ringEdges(vertices)
              : vertices.slice(1).map((v, i) => makeEdge(vertices[i]!, v, vertices[i]!.bulge ?? 0)),
          )
        : []
  return primitives.flatMap(edges).reduce((sum, e) => sum + edgeLength(e), 0)
}
const first = (...primitives: PlainPrimitive[]): Primitive[] => uncovered(primitives).slice(0, -1)

describe('uncovered', () => {
  it('leaves out what lies under a filled disc, and no more', () => {
    const cover = circle('outline-thin', O, 4, 'paper')
    expect(inkLength(first(across, cover))).toBeCloseTo(12, 9)
    expect(inkLength(first(line('outline', { x: -1, y: 1 }, { x: 2, y: 0 }), cover))).toBe(0)
    const beside = line('outline', { x: -10, y: 5 }, { x: 10, y: 5 })
    expect(first(beside, cover)).toEqual([beside])
  })

  it('hides only what was drawn before, and only under a fill', () => {
    const cover = circle('outline-thin', O, 4, 'tint')
    expect(uncovered([cover, across])).toEqual([cover, across])
    expect(uncovered([across, circle('outline-thin', O, 4)])[0]).toEqual(across)
  })

  it('shows what lies in the hole of a filled shape', () => {
    const ring: PathPrimitive = {
      kind: 'path',
      layer: 'outline',
      fill: 'paper',
      steps: [box('outline', -6, -6, 12, 12), box('outline', -2, -2, 4, 4)].flatMap((b) => b.steps),
    }
    expect(inkLength(first(across, ring))).toBeCloseTo(8 + 4, 9)
  })

  it('keeps the arc of a circle that shows as an arc of that circle', () => {
    const [arc] = first(circle('outline', O, 5), box('outline', 0, -10, 10, 20, 'paper'))
    if (arc?.kind !== 'path') return expect.fail('half a circle is a path')
    expect(inkLength([arc])).toBeCloseTo(5 * Math.PI, 9)
    expect(arc.steps.some((s) => s.to === 'arc')).toBe(true)
    for (const s of arc.steps) if (s.to !== 'close') expect(Math.hypot(s.x, s.y)).toBeCloseTo(5, 9)
  })

  it('keeps a line that runs along the edge of what covers', () => {
    const edge = line('outline', { x: -5, y: 4 }, { x: 5, y: 4 })
    expect(inkLength(first(edge, box('outline-thin', -4, 0, 8, 4, 'paper')))).toBeCloseTo(10, 9)
  })

  it('cuts slots and part under the clamps of a sheet, and leaves texts and dimensions alone', () => {
    const before = bracketSheets()[0]!.primitives
    const after = uncovered(before)
    const words = (ps: readonly Primitive[]) => ps.filter((p) => p.kind !== 'path' && p.kind !== 'circle')
    expect(words(after)).toEqual(words(before))
    expect(inkLength(after)).toBeLessThan(inkLength(before) - 100)
    expect(inkLength(after)).toBeGreaterThan(inkLength(before) / 2)
  })
})
