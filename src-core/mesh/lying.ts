/** Which faces a solid can lie on, and how it is turned to lie on one. Any unit of length; triangles as nine numbers each. */
import { meshBox } from './properties.ts'

export type Direction = readonly [x: number, y: number, z: number]

export interface RestingFace {
  /** Out of the solid, of length 1, in the file's own frame. */
  readonly down: Direction
  /** Square units of the file. */
  readonly area: number
}

/** Cosine of half a degree: facets of one flat face, written in single precision, differ by far less. */
const ALIKE = Math.cos(Math.PI / 360)
/** Of the longest side: corners this near to the lowest lie on the table with it. */
const FLAT = 1e-4
/** Normals looked at, those with most area first. */
const CANDIDATES = 40
/** Of the largest face: less is hardly meant to be lain on. */
const LEAST_SHARE = 0.02

/**
 * Flat faces on which a solid stands without being cut by the table, largest first: all of it lies on one side of
 * the face's plane. At most `most`; none where the surface is curved all round.
 */
export function restingFaces(triangles: Float64Array, most: number): RestingFace[] {
  const facets = facetsOf(triangles)
  const play = FLAT * longestSide(triangles)
  const found: RestingFace[] = []
  for (const down of commonNormals(facets)) {
    if (found.some((f) => dot(f.down, down) > ALIKE)) continue
    const level = farthest(triangles, down) - play
    let area = 0
    for (let i = 0; i < facets.area.length; i++) {
      if (facets.area[i] === 0 || facets.along(i, down) < ALIKE) continue
      if (lowestCorner(triangles, 9 * i, down) >= level) area += facets.area[i]!
    }
    if (area > 0) found.push({ down, area })
  }
  found.sort((a, b) => b.area - a.area)
  const least = LEAST_SHARE * (found[0]?.area ?? 0)
  return found.filter((f) => f.area >= least).slice(0, most)
}

/** The solid turned by the shortest way so that `down` points at the seat, toward −z. */
export function lainOn(triangles: Float64Array, down: Direction): Float64Array {
  const turn = turnDown(down)
  const out = new Float64Array(triangles.length)
  for (let i = 0; i < triangles.length; i += 3) {
    const [x, y, z] = [triangles[i]!, triangles[i + 1]!, triangles[i + 2]!]
    for (let k = 0; k < 3; k++) out[i + k] = turn[3 * k]! * x + turn[3 * k + 1]! * y + turn[3 * k + 2]! * z
  }
  return out
}

/**
 * Rows of the rotation that takes the unit vector n to (0, 0, −1) about n × (0, 0, −1): with v that product and
 * c = −n_z, R = I + [v] + [v]²/(1 + c) (Rodrigues). Straight up, where no shortest way is, it turns about x.
 */
function turnDown([nx, ny, nz]: Direction): readonly number[] {
  const length = Math.hypot(nx, ny, nz)
  const [x, y, z] = [nx / length, ny / length, nz / length]
  const c = -z
  if (1 + c < 1e-12) return [1, 0, 0, 0, -1, 0, 0, 0, -1]
  // v = (−y, x, 0)
  const k = 1 / (1 + c)
  const rows = [1 - k * x * x, -k * x * y, x, -k * x * y, 1 - k * y * y, y, -x, -y, c]
  // What is a quarter turn stays one: no coordinate is smeared by the last digit.
  return rows.map((r) => (Math.abs(r - Math.round(r)) < 1e-12 ? Math.round(r) + 0 : r))
}

const dot = (a: Direction, b: Direction) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

interface Facets {
  readonly normals: Float64Array
  readonly area: Float64Array
  /** Cosine between a facet's normal and a direction. */
  along(i: number, direction: Direction): number
}

function facetsOf(t: Float64Array): Facets {
  const count = t.length / 9
  const normals = new Float64Array(3 * count)
  const area = new Float64Array(count)
  for (let i = 0; i < count; i++) {
    const a = 9 * i
    const [ux, uy, uz] = [t[a + 3]! - t[a]!, t[a + 4]! - t[a + 1]!, t[a + 5]! - t[a + 2]!]
    const [vx, vy, vz] = [t[a + 6]! - t[a]!, t[a + 7]! - t[a + 1]!, t[a + 8]! - t[a + 2]!]
    const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx]
    const double = Math.hypot(x, y, z)
    if (!(double > 0)) continue
    area[i] = double / 2
    normals.set([x / double, y / double, z / double], 3 * i)
  }
  return {
    normals,
    area,
    along: (i, d) => normals[3 * i]! * d[0] + normals[3 * i + 1]! * d[1] + normals[3 * i + 2]! * d[2],
  }
}

/** Mean normals of facets that point alike, those with most area first. */
function commonNormals({ normals, area }: Facets): Direction[] {
  const bins = new Map<string, [number, number, number]>()
  for (let i = 0; i < area.length; i++) {
    if (area[i] === 0) continue
    const n = [normals[3 * i]!, normals[3 * i + 1]!, normals[3 * i + 2]!] as const
    const key = n.map((c) => Math.round(c * 200)).join()
    const sum = bins.get(key) ?? [0, 0, 0]
    n.forEach((c, k) => (sum[k]! += c * area[i]!))
    bins.set(key, sum)
  }
  return [...bins.values()]
    .map((sum) => ({ sum, weight: Math.hypot(...sum) }))
    .sort((a, b) => b.weight - a.weight)
    .slice(0, CANDIDATES)
    .map(({ sum, weight }): Direction => [sum[0] / weight, sum[1] / weight, sum[2] / weight])
}

function farthest(t: Float64Array, d: Direction): number {
  let most = -Infinity
  for (let i = 0; i < t.length; i += 3) {
    const along = t[i]! * d[0] + t[i + 1]! * d[1] + t[i + 2]! * d[2]
    if (along > most) most = along
  }
  return most
}

function lowestCorner(t: Float64Array, at: number, d: Direction): number {
  let least = Infinity
  for (let i = at; i < at + 9; i += 3)
    least = Math.min(least, t[i]! * d[0] + t[i + 1]! * d[1] + t[i + 2]! * d[2])
  return least
}

function longestSide(t: Float64Array): number {
  const { low, high } = meshBox({ vertices: t })
  return Math.max(...high.map((h, k) => h - low[k]!))
}
