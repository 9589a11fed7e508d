/** A setup resolved into the plate frame: what is where, before anything is weighed or judged. mm, degrees. */
import type { Point, Point3, Region, Ring } from '../geometry/types.ts'
import type { Body, Bore, Hardware, Job, Setup } from '../job/schema.ts'

/** Turn counter-clockwise by `turn` degrees, then move by (x, y): part frame to plate frame. */
export interface Placement {
  readonly turn: number
  readonly x: number
  readonly y: number
}

export interface MountedBody {
  readonly body: Body
  /** In the plate frame; for a mesh its silhouette, which may be several regions. */
  readonly regions: readonly Region[]
  /** z of back and front above the plate's face. */
  readonly z0: number
  readonly z1: number
}

export interface Bolt {
  readonly at: Point
  readonly diameter: number
}

export interface MountedPiece {
  readonly item: Hardware
  /** The station: the slot's radius or the hole or point that `at` names. */
  readonly at: Point
  readonly footprint: Ring
  readonly z0: number
  readonly z1: number
  readonly massCentre: Point3
  /** Null for packing, which lies loose under the part. */
  readonly bolt: Bolt | null
}

export interface MountedBore {
  readonly bore: Bore
  readonly centre: Point
  /** z range that cutting it takes away. */
  readonly z0: number
  readonly z1: number
  /** 'open': cut in an earlier setup. 'to cut': this setup's cut. 'uncut': left for later. */
  readonly state: 'open' | 'to cut' | 'uncut'
  /** Goes through the lowest body it meets. */
  readonly through: boolean
}

export interface Mounted {
  readonly job: Job
  readonly setup: Setup
  readonly placement: Placement
  readonly bodies: readonly MountedBody[]
  readonly bores: readonly MountedBore[]
  readonly pieces: readonly MountedPiece[]
  /** The bore on the axis or being cut, if any: `cut.bore`, else the centred one. */
  readonly workBore: MountedBore | null
  /** Front of the part, z. */
  readonly partFront: number
}
