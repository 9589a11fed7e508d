/** What stands over what in a set-up, seen from the tailstock. Plate frame, mm. */
import { circleRing, ringEdges } from '../../geometry/edges.ts'
import { inRegion } from '../../geometry/nearest.ts'
import { boxAround, inBox, type Box } from '../../geometry/polygonBox.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point, Ring } from '../../geometry/types.ts'
import { isPrism } from '../../job/schema.ts'
import type { Mounted, MountedBody, MountedSolid } from '../../mounting/types.ts'
import { boxed, isOn, type Boxed } from '../model/edgePieces.ts'
import { meshTop } from './meshTop.ts'

/** A thing that hides what lies further back than its front. */
export interface Cover {
  readonly boundary: readonly Boxed[]
  readonly box: Box
  /** Height of its front over a point; -Infinity beside it and on its own outline. */
  top(p: Point): number
  /** Its height changes within its outline, and not at edges that the boundary has. */
  readonly isUneven: boolean
}

function coverOf(rings: readonly Ring[], top: (p: Point) => number, isUneven = false): Cover {
  const boundary = boxed(rings.flatMap(ringEdges))
  const box = boxAround(boundary.map((b) => b.box))
  return {
    boundary,
    box,
    isUneven,
    top: (p) => {
      if (!inBox(box, p)) return -Infinity
      const z = top(p)
      return z === -Infinity || isOn(boundary, p) ? -Infinity : z
    },
  }
}

export const solidCover = ({ ring, holes = [], z1 }: MountedSolid): Cover =>
  coverOf([ring, ...holes], (p) => (inRegion({ outline: ring, holes }, p) ? z1 : -Infinity))

/** One cover for each body that adds, with its pockets, and the bores already cut, let in. */
export function bodyCovers(mounted: Mounted): { body: MountedBody; cover: Cover }[] {
  const taken = [
    ...mounted.bodies
      .filter((b) => b.body.effect === 'removes')
      .flatMap((b) => b.regions.map((region) => ({ region, z0: b.z0, z1: b.z1 }))),
    ...mounted.bores
      .filter((b) => b.state === 'open')
      .map(({ bore, centre, z0, z1 }) => ({
        region: { outline: circleRing(centre, bore.diameter), holes: [] },
        z0,
        z1,
      })),
  ]
  return mounted.bodies
    .filter((b) => b.body.effect === 'adds')
    .map((body) => {
      const rings = body.regions.flatMap((r) => [r.outline, ...r.holes])
      const openings = taken.filter((t) => t.z1 > body.z0 && t.z0 < body.z1).map((t) => t.region.outline)
      const mesh = isPrism(body.body)
        ? null
        : meshTop(body.body.mesh, mounted.placement, mounted.seat + body.body.base)
      const front = (p: Point) =>
        mesh ? mesh(p) : body.regions.some((r) => inRegion(r, p)) ? body.z1 : -Infinity
      const top = (p: Point): number => {
        let z = front(p)
        for (let k = 0; k <= taken.length && z > body.z0; k++) {
          const below = taken.find(
            (t) => t.z0 < z - TOLERANCE.height && t.z1 >= z - TOLERANCE.height && inRegion(t.region, p),
          )
          if (!below) break
          z = below.z0
        }
        return z > body.z0 + TOLERANCE.height ? z : -Infinity
      }
      return { body, cover: coverOf([...rings, ...openings], top, mesh !== null) }
    })
}
