/** Outlines as points that leave nothing of the material out, so that what is found clear of them is clear. */
import { onCircle } from '../angles.ts'
import { reverseEdge, ringEdges, type Edge } from '../edges.ts'
import type { Point, Region, Ring } from '../types.ts'

/**
 * Outline counter-clockwise and holes clockwise as points, so that material lies to the left of each side. Arcs that
 * bulge out of the material become sides that touch them, arcs that bulge into it chords: what is added reaches no
 * further from the true outline than `tolerance`, mm, and nothing is left out.
 */
export const regionOutward = ({ outline, holes }: Region, tolerance: number): Point[][] => [
  ringOutward(outline, true, tolerance),
  ...holes.map((h) => ringOutward(h, false, tolerance)),
]

function ringOutward(ring: Ring, counterClockwise: boolean, tolerance: number): Point[] {
  const edges = ringEdges(ring)
  const runs = signedArea(edges) > 0 === counterClockwise ? edges : [...edges].reverse().map(reverseEdge)
  const points: Point[] = []
  for (const e of runs) {
    points.push({ x: e.a.x, y: e.a.y })
    if (e.arc) points.push(...arcOutward(e.arc, tolerance))
  }
  return points
}

/** Between an arc's ends. */
function arcOutward({ centre, radius, start, sweep }: NonNullable<Edge['arc']>, tolerance: number): Point[] {
  const bulgesOut = sweep > 0
  // Tangents meet at r/cos(half a step) from the centre; chords come to r·cos(half a step).
  const half = Math.acos(bulgesOut ? radius / (radius + tolerance) : Math.max(0, 1 - tolerance / radius))
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / (2 * half)))
  const step = sweep / count
  if (!bulgesOut)
    return Array.from({ length: count - 1 }, (_, k) => onCircle(centre, radius, start + (k + 1) * step))
  const reach = radius / Math.cos(step / 2)
  return Array.from({ length: count }, (_, k) => onCircle(centre, reach, start + (k + 0.5) * step))
}

/** Of the chords and the segments over them: only its sign is asked. */
function signedArea(edges: readonly Edge[]): number {
  const o = edges[0]?.a ?? { x: 0, y: 0 }
  let twice = 0
  for (const { a, b, arc } of edges) {
    twice += (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x)
    if (arc) twice += arc.radius * arc.radius * (arc.sweep - Math.sin(arc.sweep))
  }
  return twice
}
