import { pointOnEdge, ringEdges } from './edges.ts'
import { TOLERANCE } from './tolerance.ts'
import type { Point, Region, Ring } from './types.ts'

/** Keeps hostile files cheap; at 1 µm it is reached by a half turn of 212 mm radius, beyond which chords stray more. */
const MOST_CHORDS = 512

/**
 * A ring as points, vertices kept, each arc as chords that stray from it by at most `chordError` mm, but no more
 * than 512 of them.
 */
export function flattenRing(ring: Ring, chordError: number = TOLERANCE.flatten): Point[] {
  const points: Point[] = []
  for (const e of ringEdges(ring)) {
    points.push({ x: e.a.x, y: e.a.y })
    if (!e.arc || e.arc.radius <= chordError) continue
    // Plainly no further from its chord than that: its rise is half the chord times its bulge.
    const across = Math.abs(e.b.x - e.a.x) + Math.abs(e.b.y - e.a.y)
    if (Math.abs(e.bulge) < 1 && (Math.abs(e.bulge) * across) / 2 < chordError) continue
    const { radius, sweep } = e.arc
    const step = 2 * Math.acos(1 - chordError / radius)
    const chords = Math.min(MOST_CHORDS, Math.max(1, Math.ceil(Math.abs(sweep) / step)))
    for (let k = 1; k < chords; k++) points.push(pointOnEdge(e, k / chords))
  }
  return points
}

/** Outline and holes of a region as points. */
export function flattenRegion(region: Region, chordError: number = TOLERANCE.flatten): Point[][] {
  return [region.outline, ...region.holes].map((r) => flattenRing(r, chordError))
}
