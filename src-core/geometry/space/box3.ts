/** Boxes in space with sides along the axes, mm. */
import type { Point3 } from '../types.ts'

export interface Box3 {
  readonly low: Point3
  readonly high: Point3
}

/** The least box that holds all of some boxes; from ∞ to −∞ about none. */
export function box3Around(boxes: readonly Box3[]): Box3 {
  const low = { x: Infinity, y: Infinity, z: Infinity }
  const high = { x: -Infinity, y: -Infinity, z: -Infinity }
  for (const b of boxes) {
    low.x = Math.min(low.x, b.low.x)
    low.y = Math.min(low.y, b.low.y)
    low.z = Math.min(low.z, b.low.z)
    high.x = Math.max(high.x, b.high.x)
    high.y = Math.max(high.y, b.high.y)
    high.z = Math.max(high.z, b.high.z)
  }
  return { low, high }
}

/** mm between two boxes; 0 where they touch or meet. */
export function box3Gap(a: Box3, b: Box3): number {
  const x = Math.max(0, a.low.x - b.high.x, b.low.x - a.high.x)
  const y = Math.max(0, a.low.y - b.high.y, b.low.y - a.high.y)
  const z = Math.max(0, a.low.z - b.high.z, b.low.z - a.high.z)
  return x === 0 && y === 0 && z === 0 ? 0 : Math.hypot(x, y, z)
}

/** Whether two boxes touch or meet. */
export const boxes3Touch = (a: Box3, b: Box3): boolean =>
  a.low.x <= b.high.x &&
  b.low.x <= a.high.x &&
  a.low.y <= b.high.y &&
  b.low.y <= a.high.y &&
  a.low.z <= b.high.z &&
  b.low.z <= a.high.z
