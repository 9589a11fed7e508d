/** The plate, its slots and the part on it as SVG paths, in plate coordinates (y up: the drawing's group flips it). */
import { slotRing } from '../../src-core/mounting/plateFace.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import { plateRings } from '../scene/plate.ts'
import { svgPath } from './svgPath.ts'

interface Path<Key> {
  readonly key: Key
  readonly d: string
}
export interface PlatePaths {
  readonly plate: string
  readonly slots: readonly Path<string>[]
  /** What the part is made of, body by body; a picture this small shows no pockets. */
  readonly part: readonly Path<Mounted['bodies'][number]['shape']>[]
}

export const platePaths = ({ job, bodies }: Pick<Mounted, 'job' | 'bodies'>): PlatePaths => ({
  plate: svgPath(plateRings(job.plate)),
  slots: job.plate.slots.map((slot) => ({ key: slot.id, d: svgPath([slotRing(slot)]) })),
  part: bodies
    .filter((b) => b.body.effect === 'adds')
    .map((b) => ({ key: b.shape, d: svgPath(b.regions.flatMap((r) => [r.outline, ...r.holes])) })),
})
