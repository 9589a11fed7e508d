/** Whether a fixture's bore, holes and slots lie within its outline and apart, and its walls leave it a shape. */
import { circleRing, oblongRing, rectRing } from '../geometry/edges.ts'
import { toRadians } from '../geometry/angles.ts'
import type { Ring } from '../geometry/types.ts'
import { regionFaults } from '../geometry/validate.ts'
import type { JobFault } from './fault.ts'
import type { AnglePlate, Fixture, Footprint, Shelf, Vee } from './schema.ts'

const MIDDLE = { x: 0, y: 0 }

const ringOf = (footprint: Footprint): Ring =>
  'circle' in footprint
    ? circleRing(MIDDLE, footprint.circle)
    : 'rect' in footprint
      ? rectRing(MIDDLE, footprint.rect[0], footprint.rect[1], 0)
      : footprint.outline

/** @param path of the fixture in the job. Faults of the outline itself are found with other footprints. */
export function fixtureFaults({ footprint, bore, holes }: Fixture, path: string): JobFault[] {
  const outline = ringOf(footprint)
  if (regionFaults({ outline, holes: [] }).length > 0) return []
  const openings = [
    ...(bore > 0 ? [{ path: `${path}.bore`, ring: circleRing(MIDDLE, bore) }] : []),
    ...holes.map((h, i) => ({ path: `${path}.holes[${i}]`, ring: circleRing(h, h.diameter) })),
  ]
  return openingFaults(outline, openings)
}

interface Opening {
  readonly path: string
  readonly ring: Ring
}

function openingFaults(outline: Ring, openings: readonly Opening[]): JobFault[] {
  const out = openings.flatMap((o) =>
    regionFaults({ outline, holes: [o.ring] }).length > 0
      ? [{ path: o.path, message: 'does not lie within its outline' }]
      : [],
  )
  if (out.length > 0) return out
  return openings.flatMap((o, i) =>
    openings.slice(0, i).some((before) => regionFaults({ outline, holes: [before.ring, o.ring] }).length > 0)
      ? [{ path: o.path, message: 'meets another of its holes' }]
      : [],
  )
}

/** @param path of the angle plate or vee in the job. */
export const shelfFaults = (item: Shelf, path: string): JobFault[] =>
  item.kind === 'anglePlate' ? angleFaults(item, path) : veeFaults(item, path)

const holesOf = ({ holes }: Shelf, path: string): Opening[] =>
  holes.map((h, i) => ({ path: `${path}.holes[${i}]`, ring: circleRing(h, h.diameter) }))

/** A face `along` wide and `out` high, standing on the plate. */
const faceRing = (along: number, out: number): Ring => rectRing({ x: 0, y: out / 2 }, along, out, 0)

function angleFaults(item: AnglePlate, path: string): JobFault[] {
  const { size, thickness, webs, slots } = item
  const [along, foot, out] = size
  if (thickness >= Math.min(foot, out))
    return [{ path: `${path}.thickness`, message: 'is not less than its foot and its shelf' }]
  if (webs.count * webs.thickness > along)
    return [{ path: `${path}.webs`, message: 'are wider together than it is long' }]
  const short = slots.findIndex((s) => s.length < s.width)
  if (short >= 0) return [{ path: `${path}.slots[${short}].length`, message: 'is less than its width' }]
  return openingFaults(faceRing(along, out), [
    ...holesOf(item, path),
    ...slots.map((s, i) => ({
      path: `${path}.slots[${i}]`,
      ring: oblongRing(s, s.length, s.width, s.angle),
    })),
  ])
}

/** mm from its lands to the bottom of a vee. */
export const veeDepth = ({ opening, angle }: Pick<Vee, 'opening' | 'angle'>): number =>
  opening / 2 / Math.tan(toRadians(angle / 2))

function veeFaults(item: Vee, path: string): JobFault[] {
  const [across, deep, out] = item.size
  if (item.opening >= across) return [{ path: `${path}.opening`, message: 'is not narrower than its block' }]
  if (veeDepth(item) >= deep)
    return [{ path: `${path}.angle`, message: 'is so sharp that the vee cuts through its block' }]
  if (item.foot.length > 0 && item.foot.thickness > out)
    return [{ path: `${path}.foot.thickness`, message: 'is more than its block stands out' }]
  const lands = holesOf(item, path)
  const inMouth = item.holes.findIndex((h) => Math.abs(h.x) - h.diameter / 2 < item.opening / 2)
  if (inMouth >= 0) return [{ path: `${path}.holes[${inMouth}]`, message: 'does not lie within its lands' }]
  return openingFaults(faceRing(across, out), lands)
}
