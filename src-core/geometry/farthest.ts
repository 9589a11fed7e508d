import { onCircle } from './angles.ts'
import { arcFraction, makeEdge } from './edges.ts'
import { ROUNDING } from './tolerance.ts'
import type { Point, Ring } from './types.ts'

/** The point of a ring farthest from `from`, arcs exactly, and its distance in mm. */
export function farthestFrom(ring: Ring, from: Point): { point: Point; distance: number } {
  let point: Point = ring[0] ?? from
  let distance = -1
  const take = (p: Point) => {
    const d = Math.hypot(p.x - from.x, p.y - from.y)
    if (d > distance) {
      distance = d
      point = p
    }
  }
  let square = 0
  for (const v of ring) square = Math.max(square, (v.x - from.x) ** 2 + (v.y - from.y) ** 2)
  const reach = Math.sqrt(square)
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!
    take({ x: a.x, y: a.y })
    const b = ring[i + 1 === ring.length ? 0 : i + 1]!
    if (!a.bulge || staysWithin(a, b, a.bulge, from, reach)) continue
    const { arc } = makeEdge(a, b, a.bulge)
    if (!arc) continue
    // The farthest point of a full circle lies beyond its centre, seen from `from`.
    const dx = arc.centre.x - from.x
    const dy = arc.centre.y - from.y
    const angle = dx === 0 && dy === 0 ? arc.start + arc.sweep / 2 : Math.atan2(dy, dx)
    if (arcFraction(arc, angle) === null) continue
    take(onCircle(arc.centre, arc.radius, angle))
  }
  return { point, distance: Math.max(distance, 0) }
}

/**
 * Whether an arc plainly lies nearer than `reach`: of at most a half turn it strays from its chord by half the chord
 * times its bulge.
 */
function staysWithin(a: Point, b: Point, bulge: number, from: Point, reach: number): boolean {
  const size = Math.abs(bulge)
  const room = reach * (1 - ROUNDING.share) - ((Math.abs(b.x - a.x) + Math.abs(b.y - a.y)) * size) / 2
  if (size > 1 || !(room > 0)) return false
  const ax = a.x - from.x
  const ay = a.y - from.y
  const bx = b.x - from.x
  const by = b.y - from.y
  return Math.max(ax * ax + ay * ay, bx * bx + by * by) < room * room
}
