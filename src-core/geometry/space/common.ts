/** The middle of what two convex pieces have in common. */
import type { Point3 } from '../types.ts'
import { eachEdge, type Convex } from './convex.ts'

/**
 * Mean of the points in which edges of either piece enter, end in and leave the other, and the heights between which
 * those lie: it turns and moves with the pieces. Null where they have none.
 */
export function middleOf(
  a: Convex,
  b: Convex,
): { readonly at: Point3; readonly z0: number; readonly z1: number } | null {
  let count = 0
  const sum = { x: 0, y: 0, z: 0 }
  let [z0, z1] = [Infinity, -Infinity]
  const take = (x: number, y: number, z: number) => {
    count++
    sum.x += x
    sum.y += y
    sum.z += z
    z0 = Math.min(z0, z)
    z1 = Math.max(z1, z)
  }
  for (const [piece, other] of [
    [a, b],
    [b, a],
  ] as const)
    eachEdge(piece, (ax, ay, az, bx, by, bz) => {
      const within = clipTo(other, ax, ay, az, bx - ax, by - ay, bz - az)
      if (!within) return
      for (const t of within) take(ax + t * (bx - ax), ay + t * (by - ay), az + t * (bz - az))
    })
  return count > 0 ? { at: { x: sum.x / count, y: sum.y / count, z: sum.z / count }, z0, z1 } : null
}

/** Where along an edge, 0 to 1, it is in a piece. */
function clipTo(
  { corners, normals, through, front }: Convex,
  ax: number,
  ay: number,
  az: number,
  dx: number,
  dy: number,
  dz: number,
): [number, number] | null {
  let [from, to] = [0, 1]
  const cut = (nx: number, ny: number, nz: number, px: number, py: number, pz: number): boolean => {
    const over = (ax - px) * nx + (ay - py) * ny + (az - pz) * nz
    const rise = dx * nx + dy * ny + dz * nz
    if (rise === 0) return over <= 0
    if (rise > 0) to = Math.min(to, -over / rise)
    else from = Math.max(from, -over / rise)
    return from <= to
  }
  const [x, y, z] = [corners[0]!, corners[1]!, corners[2]!]
  if (!cut(-front.x, -front.y, -front.z, x, y, z)) return null
  if (!cut(front.x, front.y, front.z, x + through.x, y + through.y, z + through.z)) return null
  for (let i = 0; i < corners.length; i += 3)
    if (!cut(normals[i]!, normals[i + 1]!, normals[i + 2]!, corners[i]!, corners[i + 1]!, corners[i + 2]!))
      return null
  return [from, to]
}
