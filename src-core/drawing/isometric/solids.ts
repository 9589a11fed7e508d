/** A set-up as solids between two heights, from which its picture is made. mm. */
import { circleRing, oblongRing } from '../../geometry/edges.ts'
import { flattenRegion, flattenRing } from '../../geometry/flatten.ts'
import { polygonDifference } from '../../geometry/polygon.ts'
import type { Point, Point3 } from '../../geometry/types.ts'
import { isPrism, isShelf, liesAcross } from '../../job/schema.ts'
import { acrossInPlace } from '../../clearance/partInSpace.ts'
import { UPRIGHT, type Pose } from '../../geometry/space/pose.ts'
import { seenSolids } from '../views/stackedSolids.ts'
import { isSound } from '../../mounting/material.ts'
import { placeVertices } from '../../mounting/place.ts'
import { depthOf, holesInFrame, poseOfShelf, slotsOf } from '../../mounting/shelf.ts'
import { slotRing } from '../../mounting/plateFace.ts'
import type { Mounted } from '../../mounting/types.ts'

/** Fine enough that a bolt's circle has no corners. */
const CHORD = 0.02

export type Part = 'plate' | 'part' | 'piece'

export interface Slab {
  readonly of: Part
  /** Id of the piece that it is of, where it is of one. */
  readonly item?: string
  /** Where it stands; its outline lies in the pose's plane, its heights go along the normal. */
  readonly pose: Pose
  /** Even-odd. */
  readonly rings: readonly (readonly Point[])[]
  readonly z0: number
  readonly z1: number
  /** Lies right under or over another slab of its own body: no edge where both have one. */
  readonly below: Slab | null
}

export interface Facets {
  readonly of: Part
  readonly vertices: readonly Point3[]
  /** Three vertices a triangle. */
  readonly triangles: ArrayLike<number>
}

export interface Solids {
  readonly slabs: readonly Slab[]
  readonly meshes: readonly Facets[]
}

export function setupSolids(mounted: Mounted): Solids {
  return {
    slabs: [plateSlab(mounted), ...partSlabs(mounted), ...pieceSlabs(mounted), ...shelfOpenings(mounted)],
    meshes: mounted.bodies.flatMap(({ body }) => {
      if (isPrism(body) || body.effect !== 'adds') return []
      const vertices = placeVertices(mounted.placement, body.mesh, mounted.seat + body.base)
      return [{ of: 'part', vertices, triangles: body.mesh.triangles }]
    }),
  }
}

const flat = (ring: Parameters<typeof flattenRing>[0]): Point[] => flattenRing(ring, CHORD)

function plateSlab({ job: { plate } }: Mounted): Slab {
  const rings = [
    circleRing({ x: 0, y: 0 }, plate.diameter),
    ...(plate.bore > 0 ? [circleRing({ x: 0, y: 0 }, plate.bore)] : []),
    ...plate.slots.map(slotRing),
    ...plate.holes.map((h) => circleRing(h, h.diameter)),
  ]
  return { of: 'plate', pose: UPRIGHT, rings: rings.map(flat), z0: -plate.thickness, z1: 0, below: null }
}

const pieceSlabs = ({ pieces }: Mounted): Slab[] =>
  pieces
    .flatMap((piece) => seenSolids(piece).map((solid) => ({ ...solid, item: piece.item.id })))
    .filter((s) => s.z1 > 0)
    .map(({ ring, holes = [], z0, z1, lies, item }) => ({
      of: 'piece',
      item,
      pose: lies?.pose ?? UPRIGHT,
      ...(lies
        ? { rings: [lies.ring, ...(lies.holes ?? [])].map(flat), z0: lies.z0, z1: lies.z1 }
        : { rings: [ring, ...holes].map(flat), z0: Math.max(0, z0), z1 }),
      below: null,
    }))

/** Slots and holes of what a part stands on, as plugs that end in its face: their rims are all that shows. */
function shelfOpenings({ job, setup, pieces }: Mounted): Slab[] {
  return pieces.flatMap(({ item }): Slab[] => {
    if (!isShelf(item)) return []
    const rings = [
      ...slotsOf(item).map((s) => oblongRing(s, s.length, s.width, s.angle)),
      ...holesInFrame(item).map((h) => circleRing(h, h.diameter)),
    ]
    const deep = depthOf(item)
    const pose = poseOfShelf(job.plate, item, setup.hardware)
    return rings.map((ring) => ({ of: 'piece', pose, rings: [flat(ring)], z0: -deep, z1: 0, below: null }))
  })
}

/** Each body that adds, cut where a pocket or a bore begins or ends; one that lies across whole. Bores to be cut are drawn finished. */
function partSlabs(mounted: Mounted): Slab[] {
  const taken = [
    ...mounted.bodies
      .filter((b) => b.body.effect === 'removes')
      .flatMap((b) => b.regions.map((r) => ({ rings: flattenRegion(r, CHORD), z0: b.z0, z1: b.z1 }))),
    ...mounted.bores
      .filter((b) => b.state !== 'uncut')
      .map(({ bore, centre, z0, z1 }) => ({ rings: [flat(circleRing(centre, bore.diameter))], z0, z1 })),
  ]
  const across = mounted.job.part.bodies.flatMap((body): Slab[] => {
    if (body.effect !== 'adds' || !liesAcross(body)) return []
    const { base, thickness } = body
    const pose = acrossInPlace(mounted, body)
    return [
      { of: 'part', pose, rings: flattenRegion(body, CHORD), z0: base, z1: base + thickness, below: null },
    ]
  })
  const upright = mounted.bodies
    .filter(({ body }) => body.effect === 'adds' && isPrism(body) && !liesAcross(body))
    .flatMap(({ regions, z0, z1 }): Slab[] => {
      const whole = regions.flatMap((r) => flattenRegion(r, CHORD))
      // The polygon library may not return from a faulty outline.
      if (!isSound(mounted)) return [{ of: 'part', pose: UPRIGHT, rings: whole, z0, z1, below: null }]
      const cuts = [z0, z1, ...taken.flatMap((t) => [t.z0, t.z1])].filter((z) => z >= z0 && z <= z1)
      const levels = [...new Set(cuts)].sort((a, b) => a - b)
      const slabs: Slab[] = []
      for (let i = 0; i + 1 < levels.length; i++) {
        const [low, high] = [levels[i]!, levels[i + 1]!]
        if (high - low < 1e-6) continue
        const gone = taken.filter((t) => t.z0 <= low + 1e-6 && t.z1 >= high - 1e-6)
        const rings = gone.reduce((left, t) => polygonDifference(left, t.rings), whole)
        slabs.push({ of: 'part', pose: UPRIGHT, rings, z0: low, z1: high, below: slabs.at(-1) ?? null })
      }
      return slabs
    })
  return [...upright, ...across]
}
