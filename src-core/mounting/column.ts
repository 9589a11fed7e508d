import { inRegion } from '../geometry/nearest.ts'
import type { Point } from '../geometry/types.ts'
import type { MountedPart } from './material.ts'
import { unplacePoint } from './place.ts'
import type { MountedBody, MountedBore } from './types.ts'

/** From and to, mm over the plate's face. */
interface Span {
  readonly z0: number
  readonly z1: number
}

/** What is there of the part at a place seen from in front, and what is taken away of it. */
export interface Column {
  readonly solid: readonly Span[]
  readonly gone: readonly Span[]
}

/** Of a mesh its silhouette's prism counts. @param at plate frame. @param bores those that count as cut. */
export function columnAt(
  { placement, bodies, turned }: MountedPart,
  at: Point,
  bores: readonly MountedBore[],
): Column {
  // In the part's frame, where what is known of its outlines stays as it is moved.
  const own = unplacePoint(placement, at)
  const isThere = (b: MountedBody) => b.shape.regions.some((r) => inRegion(r, own))
  const there = bodies.filter(isThere)
  return {
    solid: there.filter((b) => b.body.effect === 'adds'),
    gone: [
      ...there.filter((b) => b.body.effect === 'removes'),
      ...turned.filter(isThere),
      ...bores.filter((b) => Math.hypot(at.x - b.centre.x, at.y - b.centre.y) < b.bore.diameter / 2),
    ],
  }
}

/** Whether material is left at a height, mm over the plate's face. */
export function isSolidAt({ solid, gone }: Column, z: number): boolean {
  const spans = (s: Span) => s.z0 < z && z < s.z1
  return solid.some(spans) && !gone.some(spans)
}
