/** Forces of a single cutting edge and of a reamer. */
import { specificCuttingForce, type CuttingGroup } from './groups.ts'

/**
 * N: tangential force of a single-point cut, F_c = k_c·a_p·f (Kienzle), depth of cut and feed in mm, cutting edge
 * angle 90° so that the chip is as thick as the feed.
 */
export const boringForce = (group: CuttingGroup, depth: number, feed: number): number =>
  specificCuttingForce(group, feed) * depth * feed

/** N·m: torque of a tangential force (N) at a bore's radius, diameter in mm. */
export const boringTorque = (force: number, diameter: number): number => (force * diameter) / 2000

/** Edges that a machine reamer is taken to have: more share the feed in thinner chips. From memory, 6 to 10 are usual. */
const REAMER_EDGES = 8

/**
 * N: tangential force of all of a reamer's edges together, each of which takes its share of the feed in a chip as much
 * thinner; the edges lie opposite one another, so that nothing is left of it square to the axis.
 */
export const reamingForce = (group: CuttingGroup, depth: number, feed: number): number =>
  specificCuttingForce(group, feed / REAMER_EDGES) * depth * feed

/**
 * By how much the force of an interrupted cut counts for more: the edge strikes. Rule of thumb, Evenswing's own; no
 * published figure was found.
 */
export const INTERRUPTED = 1.5
