/**
 * How far two convex pieces reach into each other: the shortest way by which one moved clears the other. Exact: of two
 * polytopes it lies square to a side of one of them, or to two edges whose normals cross on the sphere of directions
 * (Gregorius' test, which leaves few of the pairs).
 */
import type { Point3 } from '../types.ts'
import { farthestCorner, type Convex } from './convex.ts'
import { cross3, dot3, minus3, scale3 } from './vector.ts'

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
  for (const n of faceNormals(first)) take(reachBehind(first, second, n), n)
  for (const n of faceNormals(second)) take(reachBehind(second, first, n), scale3(n, -1))
  const others = edgesOf(second)
  for (const e of edgesOf(first)) for (const f of others) crossEdges(e, f, take)
  return best
}

/** mm by which a piece reaches behind the other's face of a normal. */
function reachBehind(piece: Convex, other: Convex, n: Point3): number {
  return farthestCorner(piece, n.x, n.y, n.z, scratch) + farthestCorner(other, -n.x, -n.y, -n.z, scratch)
}
const scratch = new Float64Array(3)

function faceNormals({ normals, front }: Convex): Point3[] {
  const list = [front, scale3(front, -1)]
  for (let i = 0; i < normals.length; i += 3) list.push(pointAt(normals, i))
  return list
}

interface SolidEdge {
  readonly from: Point3
  /** Of length 1. */
  readonly along: Point3
  /** Outward normals of the faces that meet in it, and their cross product. */
  readonly left: Point3
  readonly right: Point3
  readonly turn: Point3
}

const pointAt = (list: Float64Array, i: number): Point3 => ({ x: list[i]!, y: list[i + 1]!, z: list[i + 2]! })

function edgesOf({ corners, normals, through, front }: Convex): SolidEdge[] {
  const back = scale3(front, -1)
  const edge = (from: Point3, along: Point3, left: Point3, right: Point3): SolidEdge => ({
    from,
    along,
    left,
    right,
    turn: cross3(left, right),
  })
  const list: SolidEdge[] = []
  for (let i = 0; i < corners.length; i += 3) {
    const p = pointAt(corners, i)
    const n = pointAt(normals, i)
    const along = cross3(front, n)
    const top = { x: p.x + through.x, y: p.y + through.y, z: p.z + through.z }
    list.push(edge(p, along, n, back), edge(top, along, n, front))
    list.push(edge(p, front, pointAt(normals, i === 0 ? corners.length - 3 : i - 3), n))
  }
  return list
}

/** Of two edges whose arcs on the sphere of directions cross, one taken the other way round. */
function crossEdges(e: SolidEdge, f: SolidEdge, take: (depth: number, way: Point3) => void): void {
  const fe = -dot3(f.left, e.turn)
  const ge = -dot3(f.right, e.turn)
  if (fe * ge >= 0) return
  const ef = dot3(e.left, f.turn)
  const rf = dot3(e.right, f.turn)
  if (ef * rf >= 0 || fe * rf <= 0) return
  const across = cross3(e.along, f.along)
  const length = Math.hypot(across.x, across.y, across.z)
  if (length <= PARALLEL) return
  // Out of the first: it is a mean of the normals of the faces that meet in its edge.
  const out = dot3(across, e.left) + dot3(across, e.right) >= 0 ? 1 / length : -1 / length
  const way = scale3(across, out)
  take(dot3(way, minus3(e.from, f.from)), way)
}
