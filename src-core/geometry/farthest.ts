import { arcFraction, ringEdges } from './edges.ts'
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
  for (const { a, arc } of ringEdges(ring)) {
    take({ x: a.x, y: a.y })
    if (!arc) continue
    // The farthest point of a full circle lies beyond its centre, seen from `from`.
    const dx = arc.centre.x - from.x
    const dy = arc.centre.y - from.y
    const angle = dx === 0 && dy === 0 ? arc.start + arc.sweep / 2 : Math.atan2(dy, dx)
    if (arcFraction(arc, angle) === null) continue
    take({ x: arc.centre.x + arc.radius * Math.cos(angle), y: arc.centre.y + arc.radius * Math.sin(angle) })
  }
  return { point, distance: Math.max(distance, 0) }
}
