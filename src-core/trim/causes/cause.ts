import type { Point } from '../../geometry/types.ts'
import type { Job } from '../../job/schema.ts'
import type { Mounted } from '../../mounting/types.ts'
import type { Formatter } from '../../units/format.ts'
import { uncertaintiesOf } from '../../doubt/defaults.ts'
import { mountSetup } from '../../mounting/mount.ts'
import { assemble } from '../../unbalance/assembly.ts'

/** What every cause is tried on. Vectors in g·mm, plate frame. */
export interface Bench {
  readonly job: Job
  readonly setupId: string
  readonly mounted: Mounted
  readonly computed: Point
  /** Measured less computed. */
  readonly missing: Point
  readonly fmt: Formatter
}

/** One thing that would make the model's unbalance another. */
export interface Cause {
  readonly cause: 'density' | 'core' | 'nut' | 'piece' | 'place' | 'unknown'
  readonly item: string
  readonly message: string
  /** By how much it changes the computed unbalance. */
  readonly change: Point
  /** How many figures were fitted to the difference: 0 for a thing forgotten, 2 for a place. */
  readonly assumed: 0 | 1 | 2
}

/** The static unbalance of a changed job, less that of the bench's. */
export function changeBy({ setupId, computed }: Bench, job: Job): Point {
  const { unbalance } = assemble(mountSetup(job, setupId), uncertaintiesOf(job))
  return { x: unbalance.x - computed.x, y: unbalance.y - computed.y }
}

/** How often a change goes into the missing vector, by least squares; 0 for a change that does nothing. */
export function timesIn(missing: Point, change: Point): number {
  const square = change.x * change.x + change.y * change.y
  return square > 0 ? (missing.x * change.x + missing.y * change.y) / square : 0
}
