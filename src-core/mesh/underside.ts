/** What a mesh stands on when it lies on its back. */
import { polygonUnion } from '../geometry/polygon.ts'
import type { Polygons } from '../geometry/polygonBox.ts'
import { meshBox } from './properties.ts'
import type { Point } from '../geometry/types.ts'
import type { TriangleMesh } from './types.ts'

const kept = new WeakMap<TriangleMesh, Polygons>()

/**
 * Triangles that face backward with all corners within `play` mm of the lowest point, joined; mm in the mesh's own
 * frame. Kept per mesh object, which must not be changed, for the first `play` that is asked for.
 */
export function underside(mesh: TriangleMesh, play: number): Polygons {
  let face = kept.get(mesh)
  if (!face) kept.set(mesh, (face = makeUnderside(mesh, play)))
  return face
}

function makeUnderside(mesh: TriangleMesh, play: number): Polygons {
  const { vertices: v, triangles: t } = mesh
  const level = meshBox(mesh).low[2] + play
  const face: Point[][] = []
  for (let i = 0; i < t.length; i += 3) {
    const corners = [t[i]!, t[i + 1]!, t[i + 2]!].map((n) => ({
      x: v[3 * n]!,
      y: v[3 * n + 1]!,
      z: v[3 * n + 2]!,
    }))
    if (corners.some((c) => c.z > level)) continue
    const [a, b, c] = corners as [Corner, Corner, Corner]
    const turn = (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y)
    if (turn < 0) face.push([c, b, a].map(({ x, y }) => ({ x, y })))
  }
  return face.length === 0 ? [] : polygonUnion(face, [])
}

interface Corner {
  readonly x: number
  readonly y: number
  readonly z: number
}
