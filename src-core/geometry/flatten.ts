import { makeEdge, pointOnEdge } from './edges.ts'
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
  for (let i = 0; i < ring.length; i++) {
    const v = ring[i]!
    points.push({ x: v.x, y: v.y })
    if (!v.bulge) continue
    const e = makeEdge(v, ring[(i + 1) % ring.length]!, v.bulge)
    if (!e.arc || e.arc.radius <= chordError) continue
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
