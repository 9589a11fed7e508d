/** What of a setup does not stand upright, and the solids of its hardware in space. */
import { keptOf } from '../geometry/kept.ts'
import { UPRIGHT } from '../geometry/space/pose.ts'
import { SpaceSolid } from '../geometry/space/solid.ts'
import { farthestReach } from '../geometry/space/reach.ts'
import { planBetween } from '../geometry/space/shadow.ts'
import { polygonIntersection } from '../geometry/polygon.ts'
import { boxesMeet, boxOf, type Polygons } from '../geometry/polygonBox.ts'
import { ringPolygons } from '../mounting/material.ts'
import { farthestFrom } from '../geometry/farthest.ts'
import type { Point } from '../geometry/types.ts'
import { liesAcross } from '../job/schema.ts'
import type { Mounted, MountedPiece, MountedSolid } from '../mounting/types.ts'

/** Whether all stands upright, so that plan and heights tell everything. */
export const isFlat = ({ bodies, pieces }: Pick<Mounted, 'bodies' | 'pieces'>): boolean =>
  !bodies.some((b) => liesAcross(b.body)) && !pieces.some((p) => p.solids.some((s) => s.lies))

/** Whether it is a stud through the shelf that its piece stands on, which is drawn without the holes for bolts. */
export const goesThrough = (
  by: MountedPiece,
  stud: Pick<MountedSolid, 'role'>,
  through: MountedPiece,
  other: Pick<MountedSolid, 'role' | 'lies'>,
): boolean => stud.role === 'stud' && other.role === 'fixture' && !other.lies && by.shelf === through.item.id

export const solidInSpace: (solid: MountedSolid) => SpaceSolid = keptOf(makeSolid)

function makeSolid({ lies, ...upright }: MountedSolid): SpaceSolid {
  const { ring, holes = [], z0, z1 } = lies ?? upright
  return new SpaceSolid([{ outline: ring, holes }], z0, z1, lies?.pose ?? UPRIGHT)
}

/** The point of a solid of hardware farthest from the spindle axis, and its distance in mm. */
export function reachOf(solid: MountedSolid): { readonly point: Point; readonly distance: number } {
  if (!solid.lies) return farthestFrom(solid.ring, { x: 0, y: 0 })
  const reach = farthestReach(solidInSpace(solid).pieces, -Infinity, Infinity)
  return reach ? { point: reach.at, distance: reach.radius } : { point: solid.massCentre, distance: 0 }
}

/** What of a solid of hardware that lies is between two heights, in plan, ends included: rings that may overlap. */
export const planOf = (solid: MountedSolid, from: number, to: number): Polygons =>
  solid.z0 > to || solid.z1 < from ? [] : planBetween(solidInSpace(solid).pieces, from, to)

/** What of a solid of hardware a path meets between two heights, in plan: of what stands upright all but its holes. */
export function metInPlan(solid: MountedSolid, from: number, to: number, path: Polygons): Point[][] {
  if (solid.z0 > to || solid.z1 < from) return []
  const box = boxOf(path)
  const near = (polygons: Polygons) => polygons.length > 0 && boxesMeet(boxOf(polygons), box)
  if (solid.lies) {
    const rings = planOf(solid, from, to)
    return near(rings) ? rings.flatMap((ring) => polygonIntersection([ring], path)) : []
  }
  const footprint = [solid.ring, ...(solid.holes ?? [])].flatMap(ringPolygons)
  return near(footprint) ? polygonIntersection(footprint, path) : []
}
