/** What keeps a triangle mesh from being a solid, and what is merely odd about it. */
import { ROUNDING } from '../geometry/tolerance.ts'
import { EdgeTable } from './edgeTable.ts'
import { meshProperties } from './properties.ts'
import type { TriangleMesh } from './types.ts'

export interface MeshFaults {
  /** Edges at which an odd number of triangles meet: the surface has a hole or a loose flap there. */
  readonly openEdges: number
  /** Edges whose triangles run the same way along them: a triangle there is turned inside out. */
  readonly wronglyPairedEdges: number
  /** Whether the whole surface is wound inwards: its volume is negative. */
  readonly inverted: boolean
  /** Closed shells wound inwards that lie in no other shell's box, so that they are not cavities. */
  readonly invertedShells: number
  /** Whether it encloses nothing. */
  readonly empty: boolean
  /** Triangles without area. They add nothing and are kept, for their edges may close the surface. */
  readonly degenerateTriangles: number
  /** Middle of the first bad edge, mm, or null. */
  readonly at: readonly [number, number, number] | null
}

/** Whether the mesh may be integrated: closed, consistently wound outwards, enclosing something. */
export const isSolid = (f: MeshFaults) =>
  f.openEdges === 0 && f.wronglyPairedEdges === 0 && f.invertedShells === 0 && !f.inverted && !f.empty

/**
 * An edge is sound when it is run as often one way as the other; four triangles on one edge, as where two solids
 * touch, are sound too. Shells that pass through one another are not noticed: what they share counts twice.
 */
export function meshFaults(mesh: TriangleMesh): MeshFaults {
  const { vertices, triangles } = mesh
  const edges = new EdgeTable(triangles.length)
  let degenerateTriangles = 0
  for (let i = 0; i < triangles.length; i += 3) {
    const a = triangles[i]!
    const b = triangles[i + 1]!
    const c = triangles[i + 2]!
    if (a === b || b === c || c === a) {
      degenerateTriangles++
      continue
    }
    edges.add(a, b)
    edges.add(b, c)
    edges.add(c, a)
    if (isFlat(vertices, 3 * a, 3 * b, 3 * c)) degenerateTriangles++
  }
  let openEdges = 0
  let wronglyPairedEdges = 0
  let at: MeshFaults['at'] = null
  for (let e = 0; e < edges.count; e++) {
    if (edges.net[e] === 0) continue
    if (edges.uses[e]! % 2 === 1) openEdges++
    else wronglyPairedEdges++
    at ??= middle(vertices, 3 * edges.low[e]!, 3 * edges.high[e]!)
  }
  const { volume } = meshProperties(mesh)
  return {
    openEdges,
    wronglyPairedEdges,
    inverted: volume < 0,
    invertedShells: openEdges + wronglyPairedEdges > 0 ? 0 : invertedShells(mesh),
    empty: volume === 0,
    degenerateTriangles,
    at,
  }
}

function isFlat(v: ArrayLike<number>, a: number, b: number, c: number): boolean {
  const ux = v[b]! - v[a]!
  const uy = v[b + 1]! - v[a + 1]!
  const uz = v[b + 2]! - v[a + 2]!
  const wx = v[c]! - v[a]!
  const wy = v[c + 1]! - v[a + 1]!
  const wz = v[c + 2]! - v[a + 2]!
  const area = Math.hypot(uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx)
  return area <= ROUNDING.fraction * (ux * ux + uy * uy + uz * uz + wx * wx + wy * wy + wz * wz)
}

function middle(v: ArrayLike<number>, a: number, b: number): [number, number, number] {
  return [(v[a]! + v[b]!) / 2, (v[a + 1]! + v[b + 1]!) / 2, (v[a + 2]! + v[b + 2]!) / 2]
}

interface Shell {
  volume: number
  readonly box: number[]
}

/** Shells that may hold cavities: so many of the largest are looked at. */
const MOST_HOLDERS = 1000

/** Shells (triangles joined through vertices) of negative volume that no larger shell's box could hold. */
function invertedShells(mesh: TriangleMesh): number {
  const shells = shellsOf(mesh)
  const outward = shells.filter((s) => s.volume > 0).sort((p, q) => q.volume - p.volume)
  const holders = outward.slice(0, MOST_HOLDERS)
  const within = (inner: number[], outer: number[]) =>
    inner[0]! >= outer[0]! &&
    inner[1]! >= outer[1]! &&
    inner[2]! >= outer[2]! &&
    inner[3]! <= outer[3]! &&
    inner[4]! <= outer[4]! &&
    inner[5]! <= outer[5]!
  return shells.filter(
    (s) => s.volume < 0 && !holders.some((o) => o.volume >= -s.volume && within(s.box, o.box)),
  ).length
}

function shellsOf({ vertices, triangles }: TriangleMesh): Shell[] {
  const parent = Int32Array.from({ length: vertices.length / 3 }, (_, i) => i)
  const root = (v: number) => {
    while (parent[v] !== v) {
      parent[v] = parent[parent[v]!]!
      v = parent[v]!
    }
    return v
  }
  for (let i = 0; i < triangles.length; i += 3) {
    const a = root(triangles[i]!)
    parent[root(triangles[i + 1]!)] = a
    parent[root(triangles[i + 2]!)] = a
  }
  const shells = new Map<number, Shell & { origin: number }>()
  for (let i = 0; i < triangles.length; i += 3) {
    const r = root(triangles[i]!)
    let shell = shells.get(r)
    if (!shell) {
      const far = Infinity
      shells.set(
        r,
        (shell = { volume: 0, box: [far, far, far, -far, -far, -far], origin: 3 * triangles[i]! }),
      )
    }
    const p: number[] = []
    for (let k = 0; k < 9; k++) {
      const axis = k % 3
      const value = vertices[3 * triangles[i + Math.floor(k / 3)]! + axis]!
      if (value < shell.box[axis]!) shell.box[axis] = value
      if (value > shell.box[axis + 3]!) shell.box[axis + 3] = value
      p.push(value - vertices[shell.origin + axis]!)
    }
    const [ax, ay, az, bx, by, bz, cx, cy, cz] = p as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ]
    shell.volume += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
  }
  return [...shells.values()]
}
