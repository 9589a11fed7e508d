/**
 * Solids that do not stand upright against the upright plane through the axis, seen from the operator's side: as outlines
 * in the side view's own coordinates, x is z (out of the plate), y is y. Plate frame, mm.
 */
import { convexHull } from '../../geometry/convexHull.ts'
import { polygonUnion } from '../../geometry/polygon.ts'
import { eachEdge, type Convex } from '../../geometry/space/convex.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point } from '../../geometry/types.ts'

type Outlines = readonly (readonly Point[])[]

export interface LyingSlice {
  /** What of it stands before the plane; empty where nothing does. */
  readonly before: Outlines
  /** What of it lies on or beyond the plane, and how near it comes; null where nothing does. */
  readonly beyond: { readonly outlines: Outlines; readonly x: number } | null
  /** What the plane cuts. */
  readonly cut: Outlines
}

export function sliceLying(pieces: readonly Convex[]): LyingSlice {
  const far = pieces.filter((p) => p.box.high.x > TOLERANCE.height)
  const near = pieces.filter((p) => p.box.low.x < -TOLERANCE.height)
  const beyond = joined(far.map((p) => hullOf(p, (x) => x >= 0)))
  return {
    before: joined(near.map((p) => hullOf(p, (x) => x <= 0))),
    beyond:
      beyond.length > 0
        ? { outlines: beyond, x: Math.max(0, Math.min(...far.map((p) => p.box.low.x))) }
        : null,
    cut: joined(pieces.map((p) => hullOf(p, () => false))),
  }
}

/** Of a piece's corners where `keeps` says so and of where its edges pass the plane. */
function hullOf(piece: Convex, keeps: (x: number) => boolean): Point[] {
  const points: Point[] = []
  eachEdge(piece, (ax, ay, az, bx, by, bz) => {
    if (keeps(ax)) points.push({ x: az, y: ay })
    if (keeps(bx)) points.push({ x: bz, y: by })
    const [a, b] = [ax - TOLERANCE.besidePlane, bx - TOLERANCE.besidePlane]
    if (a <= 0 === b <= 0) return
    const t = a / (a - b)
    points.push({ x: az + t * (bz - az), y: ay + t * (by - ay) })
  })
  return convexHull(points)
}

const joined = (outlines: readonly Point[][]): Point[][] =>
  outlines.reduce<Point[][]>((all, ring) => (ring.length > 2 ? polygonUnion(all, [ring]) : all), [])
