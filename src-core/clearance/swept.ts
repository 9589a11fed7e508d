/** The circle that each turning thing sweeps about the spindle axis. */
import { called } from '../findings/finding.ts'
import { farthestFrom } from '../geometry/farthest.ts'
import { farthestReach } from '../geometry/space/reach.ts'
import type { SpaceSolid } from '../geometry/space/solid.ts'
import type { Point, Ring } from '../geometry/types.ts'
import { liesAcross, type Body } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { solidInSpace } from './inSpace.ts'
import { acrossBodies, acrossInSpace } from './partInSpace.ts'

const AXIS: Point = { x: 0, y: 0 }

export interface Swept {
  readonly item: string
  readonly label: string
  readonly body?: string
  readonly z0: number
  readonly z1: number
  readonly radius: number
  readonly corner: Point
  /** Of what does not stand upright: its radius differs from height to height. */
  readonly solid?: SpaceSolid
}

/** Farthest from the axis between two heights, mm; null where nothing of it is there. Of what stands upright all heights are alike. */
export function sweptBetween(
  { solid, radius, corner }: Swept,
  from: number,
  to: number,
): Pick<Swept, 'radius' | 'corner'> | null {
  if (!solid) return { radius, corner }
  const reach = farthestReach(solid.pieces, from, to)
  return reach && { radius: reach.radius, corner: { x: reach.at.x, y: reach.at.y } }
}

/** Everything that turns: plate, each adding body of the part, each piece of hardware. */
export function sweptThings(mounted: Mounted): Swept[] {
  const { plate, part } = mounted.job
  const farthest = (rings: readonly Ring[]) =>
    rings.map((r) => farthestFrom(r, AXIS)).reduce((a, b) => (b.distance > a.distance ? b : a))
  const things: Swept[] = [
    {
      item: 'plate',
      label: 'the plate',
      z0: -plate.thickness,
      z1: 0,
      radius: plate.diameter / 2,
      corner: { x: 0, y: -plate.diameter / 2 },
    },
  ]
  const labelOf = (body: Body) => (part.bodies.length > 1 ? `the part (${called(body)})` : 'the part')
  for (const { body, regions, z0, z1 } of mounted.bodies) {
    if (body.effect !== 'adds' || regions.length === 0 || liesAcross(body)) continue
    const { point, distance } = farthest(regions.map((r) => r.outline))
    const label = labelOf(body)
    things.push({ item: 'part', label, body: body.id, z0, z1, radius: distance, corner: point })
  }
  for (const body of acrossBodies(mounted))
    things.push(
      sweptSolid(acrossInSpace(mounted, body), { item: 'part', label: labelOf(body), body: body.id }),
    )
  for (const { item, solids } of mounted.pieces)
    for (const solid of solids) {
      const named = { item: item.id, label: called(item) }
      if (solid.lies) things.push(sweptSolid(solidInSpace(solid), named))
      else {
        const { point, distance } = farthestFrom(solid.ring, AXIS)
        things.push({ ...named, z0: solid.z0, z1: solid.z1, radius: distance, corner: point })
      }
    }
  return things
}

function sweptSolid(solid: SpaceSolid, named: Pick<Swept, 'item' | 'label' | 'body'>): Swept {
  const reach = farthestReach(solid.pieces, -Infinity, Infinity)
  const { low, high } = solid.box
  const { x, y } = reach?.at ?? AXIS
  return { ...named, z0: low.z, z1: high.z, radius: reach?.radius ?? 0, corner: { x, y }, solid }
}
