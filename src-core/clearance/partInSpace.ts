/** The part as solids in space: what stands upright, less what is taken away of it, and what lies across as it is. */
import { flattenRegion } from '../geometry/flatten.ts'
import { polygonDifference, polygonIntersection } from '../geometry/polygon.ts'
import { boxesMeet, boxOf, type Polygons } from '../geometry/polygonBox.ts'
import { separate } from '../geometry/separate.ts'
import { facingPose } from '../geometry/space/facing.ts'
import { regionOutward } from '../geometry/space/outward.ts'
import { composed, type Pose } from '../geometry/space/pose.ts'
import { SpaceSolid } from '../geometry/space/solid.ts'
import { turning } from '../geometry/angles.ts'
import { circleRing } from '../geometry/edges.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Region } from '../geometry/types.ts'
import { liesAcross, type Body, type Part, type Prism } from '../job/schema.ts'
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
export function acrossInSpace(mounted: Mounted, body: Across): SpaceSolid {
  const { base, thickness } = body
  return new SpaceSolid([body], base, base + thickness, acrossInPlace(mounted, body))
}

/** The frame of its outline in the plate's. */
export const acrossInPlace = ({ placement, seat }: Mounted, { across }: Across): Pose =>
  composed(poseOfPart(placement, seat), facingPose({ x: 0, y: 0 }, across))

type Across = Prism & { readonly across: number }

/** Those that add. */
export const acrossBodies = ({ job }: Pick<Mounted, 'job'>): Across[] =>
  job.part.bodies.filter((b): b is Across => b.effect === 'adds' && liesAcross(b))

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

const layered = new WeakMap<Part, Map<string, readonly Layer[]>>()

/** Kept by the part and by what is gone of it: a drag only moves them. */
function layersOf(mounted: Mounted): readonly Layer[] {
  const { part } = mounted.job
  const open = mounted.bores.filter((b) => b.state === 'open')
  const holes = open.map((b) => [b.bore.id, b.z0 - mounted.seat, b.z1 - mounted.seat])
  const key = JSON.stringify([holes, mounted.turned.map((b) => b.shape)])
  let known = layered.get(part)
  if (!known) layered.set(part, (known = new Map<string, readonly Layer[]>()))
  let layers = known.get(key)
  if (!layers) known.set(key, (layers = makeLayers(mounted, open)))
  return layers
}

/** What takes material away, part frame, chords of round holes within them: no more than it does. */
interface Taken {
  readonly polygons: Polygons
  readonly z0: number
  readonly z1: number
}

function makeLayers({ bodies, turned, seat }: Mounted, open: readonly MountedBore[]): Layer[] {
  const taken: Taken[] = [
    ...[...bodies, ...turned]
      .filter((b) => b.body.effect === 'removes')
      .map(({ shape }) => ({
        polygons: shape.regions.flatMap((r) => flattenRegion(r, TOLERANCE.clashChord)),
        z0: shape.z0,
        z1: shape.z1,
      })),
    ...open.map(({ bore, z0, z1 }) => ({
      polygons: flattenRegion({ outline: circleRing(bore, bore.diameter), holes: [] }, TOLERANCE.clashChord),
      z0: z0 - seat,
      z1: z1 - seat,
    })),
  ]
  const adding = bodies.filter((b) => b.body.effect === 'adds')
  const whole = new Set<Body>()
  return adding.flatMap(({ body, shape }): Layer[] => {
    if (!liesAcross(body)) return cutLayers(body, shape, taken)
    const own = adding.filter((b) => b.body === body).map((b) => b.shape)
    if (own.some((s) => taken.some((t) => meets(s, t)))) return cutLayers(body, shape, taken)
    // As it is, once for all of the blocks that it is looked at as.
    if (whole.has(body)) return []
    whole.add(body)
    const { base, thickness } = body
    return [
      {
        body,
        regions: [body],
        z0: base,
        z1: base + thickness,
        pose: facingPose({ x: 0, y: 0 }, body.across),
      },
    ]
  })
}

const meets = (shape: BodyShape, t: Taken): boolean =>
  shape.z0 < t.z1 - TOLERANCE.height &&
  t.z0 < shape.z1 - TOLERANCE.height &&
  boxesMeet(boxOf(shape.regions.flatMap((r) => flattenRegion(r, TOLERANCE.clashChord))), boxOf(t.polygons)) &&
  polygonIntersection(
    shape.regions.flatMap((r) => flattenRegion(r, TOLERANCE.clashChord)),
    t.polygons,
  ).length > 0

/** A shape between the heights at which something begins or ends to be taken away of it. */
function cutLayers(body: Body, shape: BodyShape, all: readonly Taken[]): Layer[] {
  const taken = all.filter((t) => meets(shape, t))
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
