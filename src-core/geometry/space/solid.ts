/** Solids in space: outlines with holes of some thickness, in any pose, as convex pieces. */
import { ROUNDING, TOLERANCE } from '../tolerance.ts'
import type { Point, Point3, Region } from '../types.ts'
import { box3Around, boxes3Touch, box3Gap, type Box3 } from './box3.ts'
import { middleOf } from './common.ts'
import { convexPrism, prismBox, type Convex } from './convex.ts'
import { convexParts } from './convexParts.ts'
import { overlapOf } from './depth.ts'
import { commonPoint, nearestPoints, type Nearest } from './distance.ts'
import { drawnIn } from './inset.ts'
import { regionOutward } from './outward.ts'
import type { Pose } from './pose.ts'
import { dot3, scale3 } from './vector.ts'

/** An outline as points, and its convex parts, as they are and drawn in, once they are asked for. */
class Parts {
  readonly holes: Region['holes']
  readonly rings: readonly Point[][]
  private keptWhole: readonly Point[][] | null = null
  private keptCore: readonly Point[][] | null = null

  constructor(region: Region) {
    this.holes = region.holes
    this.rings = regionOutward(region, TOLERANCE.spaceChord)
  }

  get whole(): readonly Point[][] {
    return (this.keptWhole ??= convexParts(this.rings))
  }

  get core(): readonly Point[][] {
    return (this.keptCore ??= convexParts(drawnIn(this.rings, TOLERANCE.clashDepth)))
  }
}

const kept = new WeakMap<Region['outline'], Parts>()

/** Kept by the outline, which is immutable: what a drag only moves is cut once. */
function partsOf(region: Region): Parts {
  const { outline, holes } = region
  const known = kept.get(outline)
  if (known && (known.holes === holes || known.holes.length + holes.length === 0)) return known
  const parts = new Parts(region)
  kept.set(outline, parts)
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
    this.box = box3Around(this.parts.map((p) => prismBox(p.rings[0]!, z0, z1, pose)))
  }

  get axes(): readonly Point3[] {
    return [this.pose.u, this.pose.v, this.pose.n]
  }

  /** From where to where it reaches in a direction, from the frame's origin. */
  along(way: Point3): { readonly from: number; readonly to: number } {
    const { origin, u, v, n } = this.pose
    const [alongU, alongV, alongN] = [dot3(way, u), dot3(way, v), dot3(way, n)]
    const heights = [this.z0 * alongN, this.z1 * alongN]
    let [from, to] = [Infinity, -Infinity]
    for (const { rings } of this.parts)
      for (const p of rings[0]!) {
        const at = p.x * alongU + p.y * alongV
        from = Math.min(from, at)
        to = Math.max(to, at)
      }
    const start = dot3(way, origin)
    return { from: start + from + Math.min(...heights), to: start + to + Math.max(...heights) }
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
  /** Of length 1: the way by which the second solid's piece clears the first's soonest. */
  readonly way: Point3
  /** The middle of what those pieces have in common, and the heights between which it lies. */
  readonly at: Point3
  readonly z0: number
  readonly z1: number
}

/**
 * Where two solids stand in one place, at the pieces that reach into each other most; null where neither reaches more
 * than `TOLERANCE.clashDepth` into the other. Moving both together changes nothing, nor does their order.
 */
export function clashOf(first: SpaceSolid, second: SpaceSolid): SpaceClash | null {
  if (!boxes3Touch(first.box, second.box) || areApart(first, second)) return null
  const back = cuts(second, first).map((c) => ({ ...c, way: scale3(c.way, -1) }))
  const found = [...cuts(first, second), ...back]
  return deepest(found)
}

/**
 * Whether two solids at most touch along an axis of either. A core that is in the other solid reaches into it along every
 * axis, so that nothing is lost by it; and what is turned together stays apart by it however its boxes then overlap.
 */
function areApart(first: SpaceSolid, second: SpaceSolid): boolean {
  return [...first.axes, ...second.axes].some((way) => {
    const [a, b] = [first.along(way), second.along(way)]
    return Math.min(a.to, b.to) - Math.max(a.from, b.from) <= ROUNDING.length
  })
}

/** Of equal ones the first, so that it stays the same wherever all of it stands. */
export const deepest = <T extends { readonly depth: number }>(found: readonly T[]): T | null =>
  found.reduce<T | null>((a, b) => (a && a.depth >= b.depth - TOLERANCE.coincident ? a : b), null)

/** Where the core of one solid is in another. */
function cuts({ core }: SpaceSolid, { pieces, box }: SpaceSolid): SpaceClash[] {
  return core.flatMap((a) => {
    if (!boxes3Touch(a.box, box)) return []
    return pieces.flatMap((b) => {
      const point = boxes3Touch(a.box, b.box) ? commonPoint(a, b) : null
      if (!point) return []
      const { depth, way } = overlapOf(a, b)
      const common = middleOf(a, b) ?? { at: point, z0: point.z, z1: point.z }
      return [{ ...common, way, depth: depth + TOLERANCE.clashDepth }]
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
