/** The circle that each turning thing sweeps about the spindle axis. */
import { called } from '../findings/finding.ts'
import { farthestFrom } from '../geometry/farthest.ts'
import type { Point, Ring } from '../geometry/types.ts'
import type { Mounted } from '../mounting/types.ts'

const AXIS: Point = { x: 0, y: 0 }

export interface Swept {
  readonly item: string
  readonly label: string
  readonly body?: string
  readonly z0: number
  readonly z1: number
  readonly radius: number
  readonly corner: Point
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
  for (const { body, regions, z0, z1 } of mounted.bodies) {
    if (body.effect !== 'adds' || regions.length === 0) continue
    const { point, distance } = farthest(regions.map((r) => r.outline))
    const label = part.bodies.length > 1 ? `the part (${called(body)})` : 'the part'
    things.push({ item: 'part', label, body: body.id, z0, z1, radius: distance, corner: point })
  }
  for (const { item, solids } of mounted.pieces)
    for (const { ring, z0, z1 } of solids) {
      const { point, distance } = farthestFrom(ring, AXIS)
      things.push({ item: item.id, label: called(item), z0, z1, radius: distance, corner: point })
    }
  return things
}
