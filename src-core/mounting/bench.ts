import type { Point } from '../geometry/types.ts'
import type { Job, Setup } from '../job/schema.ts'
import { fixturesOf, tappedAt } from './fixtures.ts'
import type { MountedPart } from './material.ts'

/** Mounts pieces on the plate of a job, before a part that is mounted already. */
export interface Bench {
  readonly job: Job
  readonly setup: Setup
  readonly part: MountedPart
  /** mm from the plate's face to what the part or its packing stands on, to the part's seat and to its front. */
  readonly ground: number
  readonly seat: number
  readonly front: number
}

/** z of the face of the sub-plate that a bolt at a point is screwed into; null where it goes into the plate. */
export const tappedFace = ({ job, setup }: Bench, p: Point): number | null =>
  tappedAt(job.plate, fixturesOf(setup), p)?.fixture.thickness ?? null
