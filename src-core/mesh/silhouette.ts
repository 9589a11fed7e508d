/**
 * The silhouette of a mesh in plan: the union of its triangles seen along z. Wound counter-clockwise in plan, the
 * triangles add up to a chain whose winding number at a point says how many cover it. Edges between triangles that
 * face the same way cancel, so only the few contour edges are left, and the silhouette is where their winding number
 * is above zero. Places are rounded to 0.1 µm (coarser beyond 1.6 m), so a silhouette strays by less than 0.01 mm;
 * only the tip of a needle may be lost, where it is narrower than a few grid units.
 */
import { keptOf } from '../geometry/kept.ts'
import { IMPORT_TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Region } from '../geometry/types.ts'
import { boundaryRings, doubleArea, nestRings } from './boundary.ts'
import { convexHull } from './convexHull.ts'
import { EdgeTable } from './edgeTable.ts'
import { PointTable } from './pointTable.ts'
import { meshBox } from './properties.ts'
import { snapRound, type Segments } from './snapRound.ts'
import { thinOut } from './thinOut.ts'
import type { TriangleMesh } from './types.ts'
import { windings } from './winding.ts'

export interface Silhouette {
  readonly regions: readonly Region[]
  /** True where the contour was too intricate to follow: the convex hull stands in for it, never too small. */
  readonly hull: boolean
}

/** mm: the grid's unit, as long as the mesh is no wider than GRID_SPAN units. */
const UNIT = 1e-4
const GRID_SPAN = 2 ** 24
/** Outlines and holes beyond which the convex hull stands in: no drawing or clearance is the better for them. */
const MOST_RINGS = 2000

/** Outlines with their holes, mm, in the mesh's own frame. Kept per mesh object, which must not be changed. */
export const silhouette = (mesh: TriangleMesh): readonly Region[] => silhouetteOf(mesh).regions

/** The silhouette and whether the convex hull had to stand in for it. */
export const silhouetteOf: (mesh: TriangleMesh) => Silhouette = keptOf(makeSilhouette)

/** Smallest and largest z of a mesh, mm. */
export function meshHeights(mesh: TriangleMesh): { z0: number; z1: number } {
  const { low, high } = meshBox(mesh)
  return { z0: low[2], z1: high[2] }
}

function makeSilhouette(mesh: TriangleMesh): Silhouette {
  const { low, high } = meshBox(mesh)
  const unit = Math.max(UNIT, (high[0] - low[0]) / GRID_SPAN, (high[1] - low[1]) / GRID_SPAN)
  const points = new PointTable()
  const contour = contourSegments(mesh, points, low, unit)
  const toMm = (p: Point): Point => ({ x: low[0] + p.x * unit, y: low[1] + p.y * unit })
  const rings = outlineRings(points, contour)
  const large = rings?.filter((ring) => !isSliver(ring, unit))
  if (large && large.length <= MOST_RINGS) {
    const regions = nestRings(large.map((ring) => ring.map(toMm)))
    return { regions: regions.map((region) => thinOut(region, IMPORT_TOLERANCE.thinning)), hull: false }
  }
  const hull = convexHull(points).map(toMm)
  return { regions: hull.length < 3 ? [] : [{ outline: hull, holes: [] }], hull: true }
}

function outlineRings(points: PointTable, contour: Segments): Point[][] | null {
  const edges = snapRound(points, contour)
  if (!edges) return null
  const found = windings(points, edges)
  return found && boundaryRings(points, edges, found)
}

/** A hole that is nowhere much wider than IMPORT_TOLERANCE.sliver, or an outline no larger than IMPORT_TOLERANCE.sliver. */
function isSliver(ring: readonly Point[], unit: number): boolean {
  const area = (doubleArea(ring) / 2) * unit * unit
  let length = 0
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length]!
    length += Math.hypot(q.x - p.x, q.y - p.y) * unit
  })
  return area < 0 ? -area < (IMPORT_TOLERANCE.sliver * length) / 2 : length < 2 * IMPORT_TOLERANCE.sliver
}

/** The edges at which the triangles, each wound counter-clockwise in plan, do not cancel. */
function contourSegments(
  mesh: TriangleMesh,
  points: PointTable,
  low: readonly number[],
  unit: number,
): Segments {
  const { vertices, triangles } = mesh
  const numbers = new Int32Array(vertices.length / 3)
  for (let v = 0; v < numbers.length; v++) {
    numbers[v] = points.add(
      Math.round((vertices[3 * v]! - low[0]!) / unit),
      Math.round((vertices[3 * v + 1]! - low[1]!) / unit),
    )
  }
  const { xs, ys } = points
  const edges = new EdgeTable(triangles.length)
  for (let i = 0; i < triangles.length; i += 3) {
    const a = numbers[triangles[i]!]!
    const b = numbers[triangles[i + 1]!]!
    const c = numbers[triangles[i + 2]!]!
    const area = (xs[b]! - xs[a]!) * (ys[c]! - ys[a]!) - (xs[c]! - xs[a]!) * (ys[b]! - ys[a]!)
    if (area === 0) continue
    const times = area > 0 ? 1 : -1
    edges.add(a, b, times)
    edges.add(b, c, times)
    edges.add(c, a, times)
  }
  const left: number[] = []
  for (let e = 0; e < edges.count; e++) if (edges.net[e] !== 0) left.push(e)
  return {
    from: Int32Array.from(left, (e) => edges.low[e]!),
    to: Int32Array.from(left, (e) => edges.high[e]!),
    times: Int32Array.from(left, (e) => edges.net[e]!),
  }
}
