/**
 * How far two convex pieces reach into each other: the shortest way by which one moved clears the other. Exact: of two
 * polytopes it lies square to a side of one of them, or to two edges whose normals cross on the sphere of directions
 * (Gregorius' test, which leaves few of the pairs).
 */
import type { Point3 } from '../types.ts'
import { farthestCorner, type Convex } from './convex.ts'
import { cross3, dot3, minus3, plus3, scale3 } from './vector.ts'

export interface Overlap {
  /** mm; below 0 where the pieces are plainly apart along `way`. */
  readonly depth: number
  /** Of length 1: the second moved that way by `depth` clears the first. */
  readonly way: Point3
}

/** Sine of the angle between edges below which they run one way and span no direction. */
const PARALLEL = 1e-9

/** How far pieces reach into each other that touch or have material in common. */
export function overlapOf(first: Convex, second: Convex): Overlap {
  let best: Overlap = { depth: Infinity, way: first.front }
  const take = (depth: number, way: Point3) => {
    if (depth < best.depth) best = { depth, way }
  }
  const [faces, others] = [faceNormals(first), faceNormals(second)]
  for (const n of faces) take(reachBehind(first, second, n), n)
  for (const n of others) take(reachBehind(second, first, n), scale3(n, -1))
  const across = edgesOf(second, others)
  const sides = new Float64Array(others.length)
  for (const e of edgesOf(first, faces)) {
    // On which side of the arc between an edge's normals the other's normals lie, turned about.
    others.forEach((n, i) => (sides[i] = -dot3(n, e.turn)))
    for (const f of across) {
      const from = sides[f.left]!
      if (from * sides[f.right]! < 0) crossEdges(e, f, from, faces, take)
    }
  }
  return best
}

/** mm by which a piece reaches behind the other's face of a normal. */
function reachBehind(piece: Convex, other: Convex, n: Point3): number {
  return farthestCorner(piece, n.x, n.y, n.z, scratch) + farthestCorner(other, -n.x, -n.y, -n.z, scratch)
}
const scratch = new Float64Array(3)

/** Front, back, then the sides. */
function faceNormals({ normals, front }: Convex): Point3[] {
  const list = [front, scale3(front, -1)]
  for (let i = 0; i < normals.length; i += 3) list.push(pointAt(normals, i))
  return list
}

interface SolidEdge {
  readonly from: Point3
  /** Of length 1. */
  readonly along: Point3
  /** Of the normals, those of the faces that meet in it, and their cross product. */
  readonly left: number
  readonly right: number
  readonly turn: Point3
}

const pointAt = (list: Float64Array, i: number): Point3 => ({ x: list[i]!, y: list[i + 1]!, z: list[i + 2]! })

function edgesOf({ corners, through, front }: Convex, normals: readonly Point3[]): SolidEdge[] {
  const edge = (from: Point3, along: Point3, left: number, right: number): SolidEdge => ({
    from,
    along,
    left,
    right,
    turn: cross3(normals[left]!, normals[right]!),
  })
  const list: SolidEdge[] = []
  const count = corners.length / 3
  for (let i = 0; i < count; i++) {
    const p = pointAt(corners, 3 * i)
    const along = cross3(front, normals[2 + i]!)
    list.push(edge(p, along, 2 + i, 1), edge(plus3(p, through), along, 2 + i, 0))
    list.push(edge(p, front, 2 + ((i + count - 1) % count), 2 + i))
  }
  return list
}

/** Of two edges whose arcs on the sphere of directions cross, one taken the other way round. @param side of f's first normal to e's arc. */
function crossEdges(
  e: SolidEdge,
  f: SolidEdge,
  side: number,
  faces: readonly Point3[],
  take: (depth: number, way: Point3) => void,
): void {
  const [left, right] = [faces[e.left]!, faces[e.right]!]
  const to = dot3(right, f.turn)
  if (dot3(left, f.turn) * to >= 0 || side * to <= 0) return
  const across = cross3(e.along, f.along)
  const length = Math.hypot(across.x, across.y, across.z)
  if (length <= PARALLEL) return
  // Out of the first: it is a mean of the normals of the faces that meet in its edge.
  const out = dot3(across, left) + dot3(across, right) >= 0 ? 1 / length : -1 / length
  const way = scale3(across, out)
  take(dot3(way, minus3(e.from, f.from)), way)
}
