/** Whether a sub-plate's bore and holes lie within its outline and apart. */
import { circleRing, rectRing } from '../geometry/edges.ts'
import type { Ring } from '../geometry/types.ts'
import { regionFaults } from '../geometry/validate.ts'
import type { JobFault } from './fault.ts'
import type { Fixture, Footprint } from './schema.ts'

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
