/** Masses of hardware that do not suit its size. */
import { called, finding, type Finding } from '../findings/finding.ts'
import { ringMoments } from '../geometry/ringMoments.ts'
import type { Job } from '../job/schema.ts'
import { PER_MM3 } from '../mass/slabs.ts'
import type { Mounted, MountedSolid } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'

/** kg/m³ between which solid packing and weights lie: wood and plastics below, tungsten above. Common knowledge. */
const SOLID = { least: 400, most: 19_500 } as const
/** Of a bracket or the like, which fills its outline badly. Own choice. */
const HOLLOW = { least: 100, most: 19_500 } as const

const RANGES: Partial<Record<MountedSolid['role'], typeof SOLID | typeof HOLLOW>> = {
  weight: SOLID,
  packing: SOLID,
  block: HOLLOW,
}

/** kg/m³ of the plate's disc, less its bore: slots take some of it, a hub behind adds. Aluminium to twice iron; own choice. */
const PLATE = { least: 1_500, most: 15_000 } as const

/** The plate's mass against its size. */
export function plateMassFindings({ plate, displayUnits }: Job): Finding[] {
  const fmt = formatter(displayUnits)
  const area = (Math.PI / 4) * (plate.diameter ** 2 - plate.bore ** 2)
  const density = plate.mass / (area * plate.thickness * PER_MM3)
  if (density >= PLATE.least && density <= PLATE.most) return []
  const message = `The plate's mass does not suit its size: ${fmt.mass(plate.mass)} in a disc of ${fmt.length(plate.diameter)} by ${fmt.length(plate.thickness)} is ${densityWords(fmt, density)}. Weigh or measure it again.`
  return [finding('caution', 'mass-unlikely', 'plate', message)]
}

/** The mass is typed or weighed, the size is drawn: where the two cannot both be right, one is a slip. */
export function pieceMassFindings({ job, pieces }: Mounted): Finding[] {
  const fmt = formatter(job.displayUnits)
  return pieces.flatMap(({ item, at, solids }) => {
    const odd = solids.find((s) => {
      const range = RANGES[s.role]
      const density = densityOf(s)
      return range && Number.isFinite(density) && (density < range.least || density > range.most)
    })
    if (!odd) return []
    const message = `The mass of ${called(item)} does not suit its size: ${fmt.mass(odd.mass)} in its outline and height is ${densityWords(fmt, densityOf(odd))}. Weigh it again, or correct the size.`
    return [finding('caution', 'mass-unlikely', item.id, message, at)]
  })
}

/** What nothing weighs has no figure worth reading. */
const densityWords = (fmt: Formatter, density: number): string =>
  density < 1e6 ? fmt.density(density) : 'far more than any metal'

/** kg/m³ over its outline and height. */
function densityOf({ ring, z0, z1, mass }: MountedSolid): number {
  return mass / (Math.abs(ringMoments(ring).area) * (z1 - z0) * PER_MM3)
}
