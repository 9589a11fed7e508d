/** Outlines told from holes by what lies in what, whichever way they wind. */
import { isInside } from './nearest.ts'
import { polygonArea } from './polygon.ts'
import type { Polygons } from './polygonBox.ts'
import type { Point } from './types.ts'

export interface Separate {
  readonly outline: readonly Point[]
  readonly holes: (readonly Point[])[]
}

/** Outlines with the holes in each, the largest first: a ring inside an odd number of others is a hole of the smallest of them. */
export function separate(rings: Polygons): Separate[] {
  const sorted = rings
    .map((ring) => ({ ring, area: polygonArea([ring]) }))
    .sort((a, b) => b.area - a.area)
    .map((r) => r.ring)
  const groups: Separate[] = []
  for (const [i, ring] of sorted.entries()) {
    const around = sorted.slice(0, i).filter((other) => isInside(other, ring[0]!))
    const owner = around.length % 2 === 1 ? groups.find((g) => g.outline === around.at(-1)) : undefined
    if (owner) owner.holes.push(ring)
    else groups.push({ outline: ring, holes: [] })
  }
  return groups
}
