/** Outermost points of outlines. Plate frame, mm. */
import { arcFraction, pointOnEdge, ringEdges } from '../../geometry/edges.ts'
import type { Point, Ring } from '../../geometry/types.ts'

/** The point of the rings that lies furthest in a direction (radians); null without rings. */
export function furthestAlong(rings: readonly Ring[], direction: number): Point | null {
  const c = Math.cos(direction)
  const s = Math.sin(direction)
  let best: Point | null = null
  let most = -Infinity
  const take = (p: Point) => {
    const along = p.x * c + p.y * s
    if (along <= most) return
    most = along
    best = { x: p.x, y: p.y }
  }
  for (const edge of rings.flatMap(ringEdges)) {
    take(edge.a)
    const t = edge.arc && arcFraction(edge.arc, direction)
    if (typeof t === 'number') take(pointOnEdge(edge, t))
  }
  return best
}
