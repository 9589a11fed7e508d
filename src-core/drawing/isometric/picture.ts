/** The picture of a set-up with its hidden lines out. One unit a mm along each axis, before it is scaled. */
import { boxOf, type Box } from '../../geometry/polygonBox.ts'
import type { Point, Point3 } from '../../geometry/types.ts'
import { outOf } from '../../geometry/space/pose.ts'
import type { Mounted } from '../../mounting/types.ts'
import { DepthMap, type Corner } from './depthMap.ts'
import { meshEdges, slabEdges } from './edges.ts'
import { ISOMETRIC, towards, type Eye } from './projection.ts'
import { widestSpots } from './spots.ts'
import { setupSolids, type Facets, type Part, type Slab, type Solids } from './solids.ts'

/** A cell on paper, mm: finer than a narrow line. */
const CELL = 0.12
/** The same for spots, and the least that shows round one, mm on paper: a dot of 0.7 and a little. */
const SPOT_CELL = 0.25
const SPOT = 0.9
/** A face leans toward the eye by two units of nearness a unit of picture, seldom more; over the cells that are looked at. */
const SLACK = 5
/** Pieces of a line that are shorter on paper, mm, are what rounding leaves. */
const LEAST = 0.4

export interface PictureLine {
  readonly of: Part
  readonly points: readonly Point[]
}

export interface Picture {
  readonly box: Box
  /** What shows at a scale of paper mm a picture unit. */
  lines(scale: number): PictureLine[]
  /** Where each piece that shows does so best, by its id, at a scale: within its ground, off its edges. */
  spots(scale: number): ReadonlyMap<string, Point>
}

const corner = ({ project, nearness }: Eye, p: Point3): Corner => ({ ...project(p), near: nearness(p) })

export function setupPicture(mounted: Mounted, eye: Eye = ISOMETRIC): Picture {
  const solids = setupSolids(mounted)
  const box = boxOf(pointsOf(solids, eye))
  return {
    box,
    lines: (scale) => visibleLines(solids, box, scale, eye),
    spots: (scale) => spotsOf(solids, box, scale, eye),
  }
}

/** Every corner on the picture. */
const pointsOf = ({ slabs, meshes }: Solids, { project }: Eye): Point[][] => [
  ...slabs.flatMap(({ rings, z0, z1, pose }) =>
    rings.flatMap((ring) => [z0, z1].map((z) => ring.map((p) => project(outOf(pose, { ...p, z }))))),
  ),
  ...meshes.map(({ vertices }) => vertices.map(project)),
]

/** @param owner number of what a slab is of. */
function depthsOf(solids: Solids, map: DepthMap, eye: Eye, owner: (slab: Slab) => number): void {
  for (const slab of solids.slabs) fillSlab(map, slab, eye, owner(slab))
  for (const mesh of solids.meshes) fillMesh(map, mesh, eye)
}

function spotsOf(solids: Solids, box: Box, scale: number, eye: Eye): ReadonlyMap<string, Point> {
  const ids = [...new Set(solids.slabs.flatMap((s) => s.item ?? []))]
  const map = new DepthMap(box, SPOT_CELL / scale)
  depthsOf(solids, map, eye, ({ item }) => (item === undefined ? 0 : ids.indexOf(item) + 1))
  const spots = [...widestSpots(map)].filter(([, { clear }]) => clear * scale >= SPOT)
  return new Map(spots.map(([owner, { at }]) => [ids[owner - 1]!, at]))
}

function visibleLines(solids: Solids, box: Box, scale: number, eye: Eye): PictureLine[] {
  const map = new DepthMap(box, CELL / scale)
  depthsOf(solids, map, eye, () => 0)
  const edges = [...slabEdges(solids.slabs, eye), ...solids.meshes.map((m) => meshEdges(m, eye))]
  return edges.flatMap(({ of, runs }) =>
    runs.flatMap((run) => showing(map, run, LEAST / scale, eye).map((points) => ({ of, points }))),
  )
}

function fillSlab(map: DepthMap, { rings, z0, z1, pose }: Slab, eye: Eye, owner: number): void {
  const at = (p: Point, z: number): Corner => corner(eye, outOf(pose, { x: p.x, y: p.y, z }))
  const face = towards(eye, pose.n) > 0 ? z1 : z0
  map.fill(
    rings.map((ring) => ring.map((p) => at(p, face))),
    owner,
  )
  for (const ring of rings)
    ring.forEach((p, i) => {
      const q = ring[(i + 1) % ring.length]!
      map.fill([[at(p, z0), at(q, z0), at(q, z1), at(p, z1)]], owner)
    })
}

function fillMesh(map: DepthMap, { vertices, triangles }: Facets, eye: Eye): void {
  for (let t = 0; t + 2 < triangles.length; t += 3)
    map.fill([[0, 1, 2].map((k) => corner(eye, vertices[triangles[t + k]!]!))])
}

/** The pieces of a run that nothing stands before. */
function showing(
  map: DepthMap,
  run: readonly Point3[],
  least: number,
  { project, nearness }: Eye,
): Point[][] {
  const slack = SLACK * map.cell
  const out: Point[][] = []
  let piece: Point[] = []
  let whole = true
  const end = () => {
    if (piece.length > 1) out.push(piece)
    piece = []
  }
  for (let i = 0; i + 1 < run.length; i++) {
    const [a, b] = [run[i]!, run[i + 1]!]
    const [from, to] = [project(a), project(b)]
    const [nearA, nearB] = [nearness(a), nearness(b)]
    const steps = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / map.cell))
    const at = (t: number): Point => ({ x: from.x + (to.x - from.x) * t, y: from.y + (to.y - from.y) * t })
    let start: number | null = null
    for (let k = 0; k < steps; k++) {
      const t = (k + 0.5) / steps
      if (map.shows(at(t), nearA + (nearB - nearA) * t, slack)) {
        start ??= k
        continue
      }
      whole = false
      if (start !== null) piece.push(...(piece.length > 0 ? [] : [at(start / steps)]), at(k / steps))
      start = null
      end()
    }
    if (start !== null) piece.push(...(piece.length > 0 ? [] : [at(start / steps)]), to)
  }
  end()
  return whole ? out : out.filter((p) => lengthOf(p) >= least)
}

const lengthOf = (points: readonly Point[]): number =>
  points.slice(1).reduce((sum, p, i) => sum + Math.hypot(p.x - points[i]!.x, p.y - points[i]!.y), 0)
