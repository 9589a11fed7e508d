/**
 * Volume and moments of a closed triangle mesh by the divergence theorem. Each triangle (a, b, c) and a common point o
 * span a tetrahedron of signed volume d/6, d = a·(b × c) from o; over all triangles of a closed, outward-wound
 * surface the parts outside the solid cancel. Within one tetrahedron a point is λ₁a + λ₂b + λ₃c with
 * ∫λᵢ = V/4, ∫λᵢ² = V/10, ∫λᵢλⱼ = V/20, which gives, with s = a + b + c,
 *
 *   ∫1 = d/6,   ∫x = d/24 · sₓ,   ∫xy = d/120 · (sₓs_y + aₓa_y + bₓb_y + cₓc_y)
 *
 * and likewise for every pair of axes (S. Lien and J. T. Kajiya, "A symbolic method for calculating the integral
 * properties of arbitrary nonconvex polyhedra", IEEE Computer Graphics and Applications 4(10), 1984). The point o is
 * the middle of the mesh's box, so that a solid far from the origin keeps its digits; the sums are moved afterwards.
 */
import { keptOf } from '../geometry/kept.ts'
import type { TriangleMesh } from './types.ts'

/** ∫dV in mm³, ∫x dV … in mm⁴, ∫x² dV, ∫xy dV … in mm⁵, about the origin of the mesh's own frame. */
export interface MeshProperties {
  readonly volume: number
  readonly x: number
  readonly y: number
  readonly z: number
  readonly xx: number
  readonly yy: number
  readonly xy: number
  readonly zz: number
  readonly xz: number
  readonly yz: number
}

/** The result is kept per mesh object, which must not be changed. An inverted mesh gives negative values. */
export const meshProperties: (mesh: TriangleMesh) => MeshProperties = keptOf(integrate)

/** Smallest and largest x, y, z, in the unit of the vertices; ±Infinity without any. */
export function meshBox({ vertices }: Pick<TriangleMesh, 'vertices'>): {
  low: [number, number, number]
  high: [number, number, number]
} {
  const low: [number, number, number] = [Infinity, Infinity, Infinity]
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity]
  for (let i = 0; i < vertices.length; i++) {
    const k = i % 3
    const value = vertices[i]!
    if (value < low[k]!) low[k] = value
    if (value > high[k]!) high[k] = value
  }
  return { low, high }
}

function integrate(mesh: TriangleMesh): MeshProperties {
  const { vertices, triangles } = mesh
  const { low, high } = meshBox(mesh)
  const ox = (low[0] + high[0]) / 2
  const oy = (low[1] + high[1]) / 2
  const oz = (low[2] + high[2]) / 2
  let v = 0
  let x = 0
  let y = 0
  let z = 0
  let xx = 0
  let yy = 0
  let zz = 0
  let xy = 0
  let xz = 0
  let yz = 0
  for (let i = 0; i < triangles.length; i += 3) {
    const a = 3 * triangles[i]!
    const b = 3 * triangles[i + 1]!
    const c = 3 * triangles[i + 2]!
    const ax = vertices[a]! - ox
    const ay = vertices[a + 1]! - oy
    const az = vertices[a + 2]! - oz
    const bx = vertices[b]! - ox
    const by = vertices[b + 1]! - oy
    const bz = vertices[b + 2]! - oz
    const cx = vertices[c]! - ox
    const cy = vertices[c + 1]! - oy
    const cz = vertices[c + 2]! - oz
    const d = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
    const sx = ax + bx + cx
    const sy = ay + by + cy
    const sz = az + bz + cz
    v += d
    x += d * sx
    y += d * sy
    z += d * sz
    xx += d * (sx * sx + ax * ax + bx * bx + cx * cx)
    yy += d * (sy * sy + ay * ay + by * by + cy * cy)
    zz += d * (sz * sz + az * az + bz * bz + cz * cz)
    xy += d * (sx * sy + ax * ay + bx * by + cx * cy)
    xz += d * (sx * sz + ax * az + bx * bz + cx * cz)
    yz += d * (sy * sz + ay * az + by * bz + cy * cz)
  }
  v /= 6
  x /= 24
  y /= 24
  z /= 24
  return {
    volume: v,
    x: x + v * ox,
    y: y + v * oy,
    z: z + v * oz,
    xx: xx / 120 + 2 * ox * x + v * ox * ox,
    yy: yy / 120 + 2 * oy * y + v * oy * oy,
    zz: zz / 120 + 2 * oz * z + v * oz * oz,
    xy: xy / 120 + ox * y + oy * x + v * ox * oy,
    xz: xz / 120 + ox * z + oz * x + v * ox * oz,
    yz: yz / 120 + oy * z + oz * y + v * oy * oz,
  }
}
