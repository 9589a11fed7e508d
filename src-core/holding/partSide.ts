/** The part's sides as what stands beside it meets them: its material in layers from the seat up. */
import type { Box, Polygons } from '../geometry/polygonBox.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { isPrism } from '../job/schema.ts'
import { flatBodies, lessToCut, materialBetween } from '../mounting/material.ts'
import type { Mounted } from '../mounting/types.ts'

/** mm by which a stop or pin may stand off and still be hard against the part: a sheet of paper. Own choice. */
export const TOUCH = 0.05
/** mm of height that a stop or pin must share with the part at the least. Own choice. */
export const LEAST_SHARED = 1

export interface Layer {
  readonly z0: number
  readonly z1: number
  /** What is there before and after this setup's cut; bodies from a mesh have no known sides and are left out. */
  readonly material: Polygons
}

/** Layers of the part between its seat and a height, undermost first, near a box. */
export function layersOf(mounted: Mounted, top: number, near: Box): Layer[] {
  const seat = mounted.seat
  const all = [...mounted.bodies, ...mounted.turned]
  const bodies = flatBodies(mounted).filter((_, i) => isPrism(all[i]!.body))
  const ends = [...all, ...mounted.bores].flatMap((b) => [b.z0, b.z1])
  const inner = ends.filter((z) => z > seat + TOLERANCE.height && z < top - TOLERANCE.height)
  const levels = [seat, ...[...new Set(inner)].sort((a, b) => a - b), top]
  return levels.slice(1).flatMap((z1, i): Layer[] => {
    const z0 = levels[i]!
    if (z1 - z0 <= TOLERANCE.height) return []
    const material = materialBetween(mounted, bodies, z0, z1, near)
    return [{ z0, z1, material: lessToCut(mounted, material, { z0, z1 }, near) }]
  })
}
