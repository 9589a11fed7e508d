/** The part as solids in space: what stands upright, less what is taken away of it, and what lies across as it is. */
import { keptBy, keptLast } from '../geometry/kept.ts'
import { polygonDifference, polygonIntersection } from '../geometry/polygon.ts'
import { boxesMeet, boxOf, type Box, type Polygons } from '../geometry/polygonBox.ts'
import { separate } from '../geometry/separate.ts'
import { regionOutward } from '../geometry/space/outward.ts'
import { composed, type Pose } from '../geometry/space/pose.ts'
import { SpaceSolid } from '../geometry/space/solid.ts'
import { turning } from '../geometry/angles.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Region } from '../geometry/types.ts'
import { liesAcross, type Body, type Part } from '../job/schema.ts'
import { acrossPose, type AcrossBody } from '../mass/across.ts'
import { discPolygons, flatOutlines, heightOverlap } from '../mounting/material.ts'
import type { BodyShape, Mounted, MountedBore, Placement } from '../mounting/types.ts'

export interface PartSolid {
  readonly body: Body
  readonly solid: SpaceSolid
}

/** Regions between two heights over the part's seat, part frame or, of what lies across, its own. */
interface Layer {
  readonly body: Body
  readonly regions: readonly Region[]
  readonly z0: number
  readonly z1: number
  readonly pose: Pose | null
}

const kept = new WeakMap<Mounted['bodies'], readonly PartSolid[]>()

/**
 * All of the part's material that cuts before this setup have left, and no more beside it than its solids' arcs are drawn
 * around. Its outlines must be sound.
 */
export function partInSpace(mounted: Mounted): readonly PartSolid[] {
  let solids = kept.get(mounted.bodies)
  if (!solids) kept.set(mounted.bodies, (solids = standing(mounted)))
  return solids
}

function standing(mounted: Mounted): PartSolid[] {
  const pose = poseOfPart(mounted.placement, mounted.seat)
  return layersOf(mounted).map(({ body, regions, z0, z1, pose: own }) => ({
    body,
    solid: new SpaceSolid(regions, z0, z1, own ? composed(pose, own) : pose),
  }))
}

/** A body that lies across as it is where the part stands, nothing taken away of it. */
export function acrossInSpace(mounted: Mounted, body: AcrossBody): SpaceSolid {
  const { base, thickness } = body
  const { placement, seat } = mounted
  return inPlace(
    body,
    [placement.turn, placement.x, placement.y, seat],
    () => new SpaceSolid([body], base, base + thickness, acrossInPlace(mounted, body)),
  )
}

/** Kept for where the part stands last. */
const inPlace = keptLast<AcrossBody, SpaceSolid>()

/** The frame of its outline in the plate's. */
export const acrossInPlace = ({ placement, seat }: Mounted, body: AcrossBody): Pose =>
  composed(poseOfPart(placement, seat), acrossPose(body))

/** Those that add. */
export const acrossBodies = ({ job }: Pick<Mounted, 'job'>): AcrossBody[] =>
  job.part.bodies.filter(liesAcross).filter((b) => b.effect === 'adds')

/** The part's frame in the plate's. */
function poseOfPart({ turn, x, y }: Placement, seat: number): Pose {
  const { c, s } = turning(turn)
  return {
    origin: { x, y, z: seat },
    u: { x: c, y: s, z: 0 },
    v: { x: -s, y: c, z: 0 },
    n: { x: 0, y: 0, z: 1 },
  }
}

const layered = keptBy<Part, string, readonly Layer[]>()

/** Kept by the part and by what is gone of it: a drag only moves them. */
function layersOf(mounted: Mounted): readonly Layer[] {
  const { part } = mounted.job
  const open = mounted.bores.filter((b) => b.state === 'open')
  // Where a bore goes in the part hangs on the part alone.
  const key = JSON.stringify([open.map((b) => b.bore.id), mounted.turned.map((b) => b.shape)])
  return layered(part, key, () => makeLayers(mounted, open))
}

/** What takes material away, part frame, chords of round holes within them: no more than it does. */
interface Taken {
  readonly polygons: Polygons
  readonly box: Box
  readonly z0: number
  readonly z1: number
}

function makeLayers({ bodies, turned, seat }: Mounted, open: readonly MountedBore[]): Layer[] {
  const taking = (polygons: Taken['polygons'], z0: number, z1: number): Taken => ({
    polygons,
    box: boxOf(polygons),
    z0,
    z1,
  })
  const taken = [
    ...[...bodies, ...turned]
      .filter((b) => b.body.effect === 'removes')
      .map(({ shape }) => taking(flatOutlines(shape), shape.z0, shape.z1)),
    ...open.map(({ bore, z0, z1 }) => taking(discPolygons(bore, bore.diameter), z0 - seat, z1 - seat)),
  ]
  const adding = bodies
    .filter((b) => b.body.effect === 'adds')
    .map(({ body, shape }) => ({ body, shape, gone: taken.filter((t) => meets(shape, t)) }))
  const cut = new Set(adding.filter((b) => b.gone.length > 0).map((b) => b.body))
  const whole = new Set<Body>()
  return adding.flatMap(({ body, shape, gone }): Layer[] => {
    if (!liesAcross(body) || cut.has(body)) return cutLayers(body, shape, gone)
    // As it is, once for all of the blocks that it is looked at as.
    if (whole.has(body)) return []
    whole.add(body)
    const { base, thickness } = body
    return [{ body, regions: [body], z0: base, z1: base + thickness, pose: acrossPose(body) }]
  })
}

function meets(shape: BodyShape, taken: Taken): boolean {
  if (heightOverlap(shape, taken) <= TOLERANCE.height) return false
  const own = flatOutlines(shape)
  return boxesMeet(boxOf(own), taken.box) && polygonIntersection(own, taken.polygons).length > 0
}

/** A shape between the heights at which something begins or ends to be taken away of it. */
function cutLayers(body: Body, shape: BodyShape, taken: readonly Taken[]): Layer[] {
  if (taken.length === 0) return [{ body, ...shape, pose: null }]
  const levels = [shape.z0, shape.z1, ...taken.flatMap((t) => [t.z0, t.z1])]
    .filter((z) => z >= shape.z0 && z <= shape.z1)
    .sort((a, b) => a - b)
  return levels.slice(1).flatMap((z1, i): Layer[] => {
    const z0 = levels[i]!
    if (z1 - z0 <= TOLERANCE.height) return []
    const middle = (z0 + z1) / 2
    const left = taken
      .filter((t) => t.z0 < middle && t.z1 > middle)
      .reduce<Polygons>(
        (rings, t) => polygonDifference(rings, t.polygons),
        shape.regions.flatMap((r) => regionOutward(r, TOLERANCE.spaceChord)),
      )
    const regions = separate(left).map(({ outline, holes }) => ({ outline, holes }))
    return regions.length > 0 ? [{ body, regions, z0, z1, pose: null }] : []
  })
}
