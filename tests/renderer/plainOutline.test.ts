import { expect, test } from 'vitest'
import { makeEdge, pointOnEdge, ringEdges, type Edge } from '../../src-core/geometry/edges.ts'
import { nearestOnEdge } from '../../src-core/geometry/nearest.ts'
import type { Point, Ring } from '../../src-core/geometry/types.ts'
import { plainOutline } from '../../src-renderer/canvas/plainOutline.ts'

const SCALES = [0.2, 1.7, 30]
const ring: Ring = Array.from({ length: 1500 }, (_, i) => {
  const t = (2 * Math.PI * i) / 1500
  const r = 60 * (1 + 0.1 * Math.cos(3 * t) + 0.01 * Math.cos(40 * t))
  return { x: r * Math.cos(t), y: r * Math.sin(t), bulge: i === 700 ? 1.2 : i % 2 === 0 ? 0.06 : 0 }
})

/** The runs as edges; an arc's bulge follows from its sweep. */
function edgesOf(closed: boolean, scale: number): Edge[] {
  let from: Point = ring[0]!
  return plainOutline(ring, closed, scale).map(({ b, arc }) => {
    const edge = makeEdge(from, b, arc ? Math.tan(arc.sweep / 4) : 0)
    from = b
    return edge
  })
}

const apart = (p: Point, edges: readonly Edge[]) =>
  Math.min(...edges.map((e) => Math.hypot(nearestOnEdge(e, p).x - p.x, nearestOnEdge(e, p).y - p.y)))

test.each(SCALES)('at %d pixels a millimetre the plain outline strays by 0.4 pixels at most', (scale) => {
  const plain = edgesOf(true, scale)
  const whole = ringEdges(ring)
  const some = (edges: readonly Edge[]) =>
    edges.filter((_, i) => i % 7 === 0 || i > edges.length - 3).map((e) => pointOnEdge(e, 0.37))
  for (const p of [...some(whole), pointOnEdge(whole[700]!, 0.5)])
    expect(apart(p, plain) * scale).toBeLessThan(0.4)
  for (const p of some(plain)) expect(apart(p, whole) * scale).toBeLessThan(0.4)
})

test('it leaves out more the smaller the picture, closes, and ends an open path at its last vertex', () => {
  const counts = SCALES.map((scale) => plainOutline(ring, true, scale).length)
  expect(counts[0]).toBeLessThan(counts[1]! / 2)
  expect(counts[2]).toBe(1500)
  expect(plainOutline(ring, true, 1).at(-1)!.b).toBe(ring[0])
  expect(plainOutline(ring, false, 1).at(-1)!.b).toBe(ring.at(-1))
})
