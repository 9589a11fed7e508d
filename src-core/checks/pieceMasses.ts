/** Masses of hardware that do not suit its size. */
import { called, finding, type Finding } from '../findings/finding.ts'
import { ringMoments } from '../geometry/ringMoments.ts'
import { SOLID_DENSITY } from '../job/materials.ts'
import type { Job } from '../job/schema.ts'
import { PER_MM3 } from '../mass/slabs.ts'
import type { Mounted, MountedSolid } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'

/** kg/m³ of a bracket or the like, which fills its outline badly. Own choice. */
const HOLLOW = { least: 100, most: 19_500 } as const

/**
 * Of the plate's disc less its bore, which slots and a hub behind it change, and of sub-plates, angle plates and vees, which
 * are drawn without their slots: aluminium to twice iron; own choice.
 */
const CAST = { least: 1_500, most: 15_000 } as const

const RANGES: Partial<Record<MountedSolid['role'], { readonly least: number; readonly most: number }>> = {
  weight: SOLID_DENSITY,
  packing: SOLID_DENSITY,
  block: HOLLOW,
  fixture: CAST,
}

/** The plate's mass against its size. */
export function plateMassFindings({ plate, displayUnits }: Job): Finding[] {
  const fmt = formatter(displayUnits)
  const area = (Math.PI / 4) * (plate.diameter ** 2 - plate.bore ** 2)
  const density = plate.mass / (area * plate.thickness * PER_MM3)
  if (density >= CAST.least && density <= CAST.most) return []
  const message = `The plate's mass does not suit its size: ${fmt.mass(plate.mass)} in a disc of ${fmt.length(plate.diameter)} by ${fmt.length(plate.thickness)} is ${densityWords(fmt, density)}. Weigh or measure it again.`
  return [finding('caution', 'mass-unlikely', 'plate', message)]
}

/** The mass is typed or weighed, the size is drawn: where the two cannot both be right, one is a slip. */
export function pieceMassFindings({ job, pieces }: Mounted): Finding[] {
  const fmt = formatter(job.displayUnits)
  return pieces.flatMap(({ item, at, solids }) => {
    const odd = filledBy(solids).find(({ role, mass, volume }) => {
      const range = RANGES[role]
      const density = mass / (volume * PER_MM3)
      return range && Number.isFinite(density) && (density < range.least || density > range.most)
    })
    if (!odd) return []
    const density = densityWords(fmt, odd.mass / (odd.volume * PER_MM3))
    const message = `The mass of ${called(item)} does not suit its size: ${fmt.mass(odd.mass)} in its outline and height is ${density}. Weigh it again, or correct the size.`
    return [finding('caution', 'mass-unlikely', item.id, message, at)]
  })
}

/** What nothing weighs has no figure worth reading. */
const densityWords = (fmt: Formatter, density: number): string =>
  density < 1e6 ? fmt.density(density) : 'far more than any metal'

/** A mass, kg, in a volume, mm³. */
interface Filled {
  readonly role: MountedSolid['role']
  readonly mass: number
  readonly volume: number
}

/** Solid by solid; the walls and webs of a fixture are one casting. */
function filledBy(solids: readonly MountedSolid[]): Filled[] {
  const all = solids.map((s): Filled => ({ role: s.role, mass: s.mass, volume: volumeOf(s.lies ?? s) }))
  const casting = all.filter((f) => f.role === 'fixture')
  if (casting.length < 2) return all
  const sum = (of: (f: Filled) => number) => casting.reduce((total, f) => total + of(f), 0)
  const whole: Filled = { role: 'fixture', mass: sum((f) => f.mass), volume: sum((f) => f.volume) }
  return [whole, ...all.filter((f) => f.role !== 'fixture')]
}

function volumeOf({ ring, holes = [], z0, z1 }: Pick<MountedSolid, 'ring' | 'holes' | 'z0' | 'z1'>): number {
  const area = (r: MountedSolid['ring']) => Math.abs(ringMoments(r).area)
  return (area(ring) - holes.reduce((total, h) => total + area(h), 0)) * (z1 - z0)
}
