/** Solids in space: outlines with holes of some thickness, in any pose, as convex pieces. */
import { TOLERANCE } from '../tolerance.ts'
import type { Point, Point3, Region } from '../types.ts'
import { box3Around, boxes3Touch, box3Gap, type Box3 } from './box3.ts'
import { convexPrism, type Convex } from './convex.ts'
import { convexParts } from './convexParts.ts'
import { overlapOf } from './depth.ts'
import { commonPoint, nearestPoints, type Nearest } from './distance.ts'
import { drawnIn } from './inset.ts'
import { regionOutward } from './outward.ts'
import type { Pose } from './pose.ts'

/** An outline's convex parts, as they are and drawn in, and its own points. */
interface Parts {
  readonly around: readonly Point[]
  readonly whole: readonly Point[][]
  readonly core: readonly Point[][]
}

const kept = new WeakMap<Region['outline'], { readonly holes: Region['holes']; readonly parts: Parts }>()

/** Kept by the outline, which is immutable: what a drag only moves is cut once. */
function partsOf(region: Region): Parts {
  const known = kept.get(region.outline)
  if (known && (known.holes === region.holes || known.holes.length + region.holes.length === 0))
    return known.parts
  const rings = regionOutward(region, TOLERANCE.spaceChord)
  const parts = {
    around: rings[0]!,
    whole: convexParts(rings),
    core: convexParts(drawnIn(rings, TOLERANCE.clashDepth)),
  }
  kept.set(region.outline, { holes: region.holes, parts })
  return parts
}

export class SpaceSolid {
  readonly box: Box3
  private readonly parts: readonly Parts[]
  private readonly z0: number
  private readonly z1: number
  private readonly pose: Pose
  private keptPieces: readonly Convex[] | null = null
  private keptCore: readonly Convex[] | null = null

  /** Of sound regions (`regionFaults`) in a pose's plane from height z0 to z1 along its normal, z1 > z0. */
  constructor(regions: readonly Region[], z0: number, z1: number, pose: Pose) {
    this.parts = regions.map(partsOf)
    this.z0 = z0
    this.z1 = z1
    this.pose = pose
    this.box = box3Around(this.parts.map((p) => convexPrism(p.around, z0, z1, pose).box))
  }

  /** Convex pieces that are all of its material and at most `TOLERANCE.spaceChord` more beside its arcs. */
  get pieces(): readonly Convex[] {
    return (this.keptPieces ??= this.prisms((p) => p.whole, 0))
  }

  /** What of it has `TOLERANCE.clashDepth` of material about it; less where it is too thin for that. */
  get core(): readonly Convex[] {
    return (this.keptCore ??= this.prisms(
      (p) => p.core,
      Math.min(TOLERANCE.clashDepth, (this.z1 - this.z0) / 4),
    ))
  }

  private prisms(of: (p: Parts) => readonly Point[][], skin: number): Convex[] {
    const { z0, z1, pose } = this
    return this.parts.flatMap((p) => of(p).map((q) => convexPrism(q, z0 + skin, z1 - skin, pose)))
  }
}

export interface SpaceClash {
  /** mm by which pieces of both reach into each other: the way out is at least that long. */
  readonly depth: number
  /** A place in both. */
  readonly at: Point3
}

/**
 * Where two solids stand in one place, at the pieces that reach into each other most; null where neither reaches more
 * than `TOLERANCE.clashDepth` into the other. Moving both together changes nothing, nor does their order.
 */
export function clashOf(first: SpaceSolid, second: SpaceSolid): SpaceClash | null {
  if (!boxes3Touch(first.box, second.box)) return null
  const found = [...cuts(first, second), ...cuts(second, first)]
  return found.reduce<SpaceClash | null>((a, b) => (a && a.depth >= b.depth ? a : b), null)
}

/** Where the core of one solid is in another. */
function cuts({ core }: SpaceSolid, { pieces, box }: SpaceSolid): SpaceClash[] {
  return core.flatMap((a) => {
    if (!boxes3Touch(a.box, box)) return []
    return pieces.flatMap((b) => {
      const at = boxes3Touch(a.box, b.box) ? commonPoint(a, b) : null
      return at ? [{ at, depth: overlapOf(a, b).depth + TOLERANCE.clashDepth }] : []
    })
  })
}

/** The nearest points of two solids. */
export function gapBetween(first: SpaceSolid, second: SpaceSolid): Nearest {
  let best: Nearest | null = null
  for (const a of first.pieces) {
    for (const b of second.pieces) {
      if (best && box3Gap(a.box, b.box) >= best.distance) continue
      const found = nearestPoints(a, b)
      if (!best || found.distance < best.distance) best = found
    }
  }
  return best ?? { distance: Infinity, onA: first.box.low, onB: second.box.low }
}
