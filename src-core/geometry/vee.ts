/** Where a round lies in a vee. Heights are over the apex, where the flanks' planes meet; mm. */
import { toRadians } from './angles.ts'

export interface VeeShape {
  /** Included angle between the flanks, degrees, between 0 and 180. */
  readonly angle: number
  /** Width of the mouth, from land to land. */
  readonly opening: number
  /** Width of the slot at the root; left out: none. */
  readonly root?: number
}

export interface VeeRest {
  /** What it touches: the flanks; the edges of the mouth, for it is too large; the root, for it is too small. */
  readonly on: 'flanks' | 'edges' | 'root'
  /** Height of the round's middle, as it lies: on the flanks (D/2)/sin(half the angle). */
  readonly centre: number
  /** Height of the lands. */
  readonly lands: number
  /** Between the two lines in which it touches. */
  readonly apart: number
}

/** How a round of a diameter lies in a vee. */
export function restInVee({ angle, opening, root = 0 }: VeeShape, diameter: number): VeeRest {
  const half = toRadians(angle) / 2
  const radius = diameter / 2
  const lands = opening / 2 / Math.tan(half)
  const apart = diameter * Math.cos(half)
  const onEdges = (width: number) => {
    const from = width / 2 / Math.tan(half)
    return {
      centre: from + Math.sqrt(Math.max(0, radius * radius - (width * width) / 4)),
      lands,
      apart: width,
    }
  }
  if (apart > opening) return { on: 'edges', ...onEdges(opening) }
  if (apart < root) return { on: 'root', ...onEdges(Math.min(root, diameter)) }
  return { on: 'flanks', centre: radius / Math.sin(half), lands, apart }
}

/** Diameters that lie on the flanks and stand out over the lands, so that a strap across the vee presses them: from and to. */
export function roundsFor({ angle, opening, root = 0 }: VeeShape): {
  readonly from: number
  readonly to: number
} {
  const half = toRadians(angle) / 2
  const lands = opening / 2 / Math.tan(half)
  // (D/2)(1 + 1/sin) is the height of its top.
  const proud = (2 * lands * Math.sin(half)) / (1 + Math.sin(half))
  return { from: Math.max(proud, root / Math.cos(half)), to: opening / Math.cos(half) }
}
