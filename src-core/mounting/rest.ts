import type { Polygons } from '../geometry/polygonBox.ts'

/** What a flat pad rests on when it is let down on the part from in front. */
export interface Rest {
  /** Height of what it meets first, mm from the plate's face. */
  readonly z: number
  /** Share of the pad's area that lies on material of that height, 0 to 1. */
  readonly share: number
  /** Where it lies on it. */
  readonly on: Polygons
}
