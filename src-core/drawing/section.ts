/** Where the vertical plane through the spindle axis cuts a region, for the side view. Plate frame, mm. */
import { edgeBounds, makeEdge, ringEdges } from '../geometry/edges.ts'
import { edgeMeetings } from '../geometry/intersect.ts'
import type { Region } from '../geometry/types.ts'

/** Ranges of y at x = 0 that lie in the region, rising. */
export function sectionRanges(region: Region): [number, number][] {
  const far = 1e5
  // A hair beside the plane, so that a vertex or an edge on it does not count twice.
  const cutter = makeEdge({ x: 1e-7, y: -far }, { x: 1e-7, y: far }, 0)
  const ys = [region.outline, ...region.holes]
    .flatMap((ring) => ringEdges(ring))
    .flatMap((edge) => edgeMeetings(cutter, edge))
    .map((m) => m.at.y)
    .sort((a, b) => a - b)
  const ranges: [number, number][] = []
  for (let i = 0; i + 1 < ys.length; i += 2) if (ys[i + 1]! - ys[i]! > 1e-6) ranges.push([ys[i]!, ys[i + 1]!])
  return ranges
}

/** Least and greatest y of a region's outline. */
export function extentY(region: Region): [number, number] {
  const boxes = ringEdges(region.outline).map(edgeBounds)
  return [Math.min(...boxes.map((b) => b.y0)), Math.max(...boxes.map((b) => b.y1))]
}
