/** What can be wrong with a ring or a region. */
import type { Point } from './types.ts'

export type RingFaultKind =
  | 'too-few-vertices'
  | 'not-finite'
  | 'repeated-vertex'
  | 'no-area'
  | 'crosses-itself'
  | 'hole-crosses-outline'
  | 'hole-outside-outline'
  | 'holes-cross'
  | 'hole-inside-hole'

export interface RingFault {
  readonly kind: RingFaultKind
  /** 0 is the outline, 1 … its holes. */
  readonly ring: number
  /** Vertex at whose edge the fault lies. */
  readonly vertex: number
  readonly at: Point
}
