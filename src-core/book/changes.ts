/** One difference between two jobs. */
import type { Point } from '../geometry/types.ts'

export interface Change {
  /** What it belongs to, as the trade orders a job. */
  readonly group: 'job' | 'lathe' | 'plate' | 'stock' | 'part' | 'setup' | 'runs'
  /** The setup's id where the group is 'setup'. */
  readonly setup: string | null
  readonly kind: 'added' | 'removed' | 'changed'
  /** Like `setups[op10].hardware[c1].mass`: things with ids by their ids. */
  readonly path: string
  readonly message: string
  /** The piece, body or bore it is about, where there is one. */
  readonly item: string | null
  /** Where the thing was and is, mm in the plate frame of `setup`; null where it has no place. */
  readonly before: Point | null
  readonly after: Point | null
}
