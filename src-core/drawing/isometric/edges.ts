/** The edges of solids that a picture may show: rims, corners and, on round walls, the line where they turn away. */
import type { Point, Point3 } from '../../geometry/types.ts'
import { outOf, turnedBy } from '../../geometry/space/pose.ts'
import { towards, type Eye } from './projection.ts'
import type { Facets, Part, Slab } from './solids.ts'

/** rad: walls that meet more sharply have an edge between them. Chords of a circle meet at far less. */
const CORNER = Math.PI / 7
/** Cosine of the angle between a mesh's faces from which there is an edge. */
const CREASE = Math.cos(Math.PI / 6)

export interface Edges {
  readonly of: Part
  /** Runs of points, each a line drawn on and on. */
  readonly runs: readonly (readonly Point3[])[]
}

const keyOf = (p: Point): string => `${Math.round(p.x * 1e4)},${Math.round(p.y * 1e4)}`
/** The same for both directions. */
const sideKey = (a: Point, b: Point): string => [keyOf(a), keyOf(b)].sort().join(' ')

const sideKeys = (rings: readonly (readonly Point[])[]): Set<string> =>
  new Set(rings.flatMap((ring) => ring.map((p, i) => sideKey(p, ring[(i + 1) % ring.length]!))))

/** Slabs that follow on one another have no edge where the same wall goes on. */
export function slabEdges(slabs: readonly Slab[], eye: Eye): Edges[] {
  const above = new Map(slabs.flatMap((s) => (s.below ? [[s.below, s] as const] : [])))
  return slabs.map((slab): Edges => {
    const over = above.get(slab)
    const goesUp = over ? sideKeys(over.rings) : new Set<string>()
    const goesDown = slab.below ? sideKeys(slab.below.rings) : new Set<string>()
    return {
      of: slab.of,
      runs: slab.rings
        .flatMap((ring) => [
          ...rims(ring, slab.z1, goesUp),
          ...rims(ring, slab.z0, goesDown),
          ...uprights(ring, slab, eye),
        ])
        .map((run) => run.map((p) => outOf(slab.pose, p))),
    }
  })
}

function rims(ring: readonly Point[], z: number, goesOn: ReadonlySet<string>): Point3[][] {
  const runs: Point3[][] = []
  let run: Point3[] = []
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length]!
    if (goesOn.has(sideKey(p, q))) {
      if (run.length > 0) runs.push(run)
      run = []
      return
    }
    if (run.length === 0) run.push({ ...p, z })
    run.push({ ...q, z })
  })
  if (run.length > 0) runs.push(run)
  return runs
}

/** Along the slab's normal, in its own frame. */
function uprights(ring: readonly Point[], { z0, z1, pose }: Slab, eye: Eye): Point3[][] {
  const facesEye = ({ x, y }: Point) => towards(eye, turnedBy(pose, { x, y, z: 0 })) > 0
  return ring.flatMap((p, i) => {
    const a = ring[(i + ring.length - 1) % ring.length]!
    const b = ring[(i + 1) % ring.length]!
    const into = { x: p.x - a.x, y: p.y - a.y }
    const out = { x: b.x - p.x, y: b.y - p.y }
    const turn = Math.atan2(into.x * out.y - into.y * out.x, into.x * out.x + into.y * out.y)
    // One way round or the other: only the change counts.
    const turnsAway = facesEye({ x: into.y, y: -into.x }) !== facesEye({ x: out.y, y: -out.x })
    return Math.abs(turn) > CORNER || turnsAway
      ? [
          [
            { ...p, z: z0 },
            { ...p, z: z1 },
          ],
        ]
      : []
  })
}

/** Creases of a mesh, and the lines where it turns away from the eye. */
export function meshEdges({ of, vertices, triangles }: Facets, eye: Eye): Edges {
  const sides = new Map<string, { a: Point3; b: Point3; normals: Point3[] }>()
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const index = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!]
    const corners = index.map((i) => vertices[i]!) as [Point3, Point3, Point3]
    const normal = normalOf(corners)
    if (!normal) continue
    for (let k = 0; k < 3; k++) {
      const i = index[k]!
      const j = index[(k + 1) % 3]!
      const key = i < j ? `${i} ${j}` : `${j} ${i}`
      const side = sides.get(key) ?? { a: vertices[i]!, b: vertices[j]!, normals: [] }
      side.normals.push(normal)
      sides.set(key, side)
    }
  }
  const toEye = (normal: Point3) => towards(eye, normal) > 0
  const runs = [...sides.values()].flatMap(({ a, b, normals: [n, m] }) => {
    if (n && m) {
      const bend = n.x * m.x + n.y * m.y + n.z * m.z
      if (bend > CREASE && toEye(n) === toEye(m)) return []
    }
    return [[a, b]]
  })
  return { of, runs }
}

function normalOf([a, b, c]: readonly [Point3, Point3, Point3]): Point3 | null {
  const u = { x: b.x - a.x, y: b.y - a.y, z: b.z - a.z }
  const v = { x: c.x - a.x, y: c.y - a.y, z: c.z - a.z }
  const n = { x: u.y * v.z - u.z * v.y, y: u.z * v.x - u.x * v.z, z: u.x * v.y - u.y * v.x }
  const size = Math.hypot(n.x, n.y, n.z)
  return size > 0 ? { x: n.x / size, y: n.y / size, z: n.z / size } : null
}
