/** Stacks at a station as families that divide into smaller ones, down to one stack on one stretch of free radii. */
import { together, type Entry, type EntrySolid, type Family } from './entries.ts'
import type { Station } from './free.ts'
import { intersectIntervals, type Interval } from './intervals.ts'
import { outwardEdge, type Shape } from './shape.ts'
import type { StackJoints } from './stackJoint.ts'
import type { StackNode, StackSpace } from './stackSpace.ts'
import type { Studs } from './studs.ts'

/** What is asked of the model for free radii: kept there, for every stack of a slot asks again. */
export type FreeFor = (station: Station, shape: Shape, z0: number, z1: number) => readonly Interval[]

export interface StackParts {
  readonly space: StackSpace
  readonly studs: Studs
  readonly joints: StackJoints
  readonly freeFor: FreeFor
  /** A number for each pair of stack shape and circle of nut and washer. */
  readonly formOf: (shape: number, across: number) => number
}

/** All stacks below a node at a station; null where none can stand or hold there. */
export function stackFamily(
  parts: StackParts,
  station: Station,
  line: number,
  node: StackNode,
): Family | null {
  if (node.left === 0) return together(entriesOf(parts, station, line, node))
  const { space, studs, freeFor } = parts
  const range = studs.massRange(station, node.hole, node.height0, node.height1)
  if (!range) return null
  const shape = node.shape < 0 ? null : space.shapes[node.shape]!.shape
  const ranges = shape ? freeFor(station, shape, 0, node.height0) : [{ lo: station.from, hi: station.to }]
  if (ranges.length === 0) return null
  const r0 = ranges[0]!.lo
  const r1 = ranges[ranges.length - 1]!.hi
  const low = node.mass0 + range[0]
  const a0 = low * r0 + node.moment0.x
  const a1 = (node.mass1 + range[1]) * r1 + node.moment1.x
  const most = mostOf(parts, station, node, low)
  if (a0 > most) return null
  let below: readonly Family[] | null = null
  return {
    line,
    a0,
    a1: Math.min(a1, most),
    p0: node.moment0.y,
    p1: node.moment1.y,
    mass: low,
    reach: r1 + Math.max(Math.abs(node.moment0.x), Math.abs(node.moment1.x)) / low,
    counts: node.counts,
    entry: null,
    below: () =>
      (below ??= space.below(node).flatMap((next) => stackFamily(parts, station, line, next) ?? [])),
  }
}

/** g·mm that no stack of the node's can add and be held. */
function mostOf({ studs, joints }: StackParts, station: Station, node: StackNode, mass: number): number {
  const strongest = studs.strongest(station, node.hole)
  return strongest ? joints.mostAmount(mass, strongest, 0, Infinity) : 0
}

/** A whole stack on each stud that may hold it, on each stretch of radii where it is clear and may be held. */
function entriesOf(parts: StackParts, station: Station, line: number, pieces: StackNode): Entry[] {
  const { space, studs, joints, freeFor, formOf } = parts
  const shape = space.shapes[pieces.shape]!.shape
  const standing = freeFor(station, shape, 0, pieces.height)
  if (standing.length === 0) return []
  return studs.for(station, pieces.hole, pieces.height).flatMap((stud) => {
    const top: Shape = { kind: 'disc', radius: stud.across / 2 }
    const above = freeFor(station, top, pieces.height, stud.front)
    const mass = pieces.mass + stud.mass
    const solids: EntrySolid[] = [
      { shape, z0: 0, z1: pieces.height },
      { shape: top, z0: pieces.height, z1: stud.front },
    ]
    const shift = pieces.moment.x / mass
    const { foot, centre } = space.standing(pieces)
    const height = (pieces.mass * centre + stud.mass * stud.centre) / mass
    // The edge straight outward is the one that tips only where the mass is over the line.
    const edge = pieces.moment.x === 0 && pieces.moment.y === 0 ? outwardEdge(foot) : 0
    const most = joints.mostAmount(mass, stud, height, edge > 0 ? edge : Infinity)
    return intersectIntervals(standing, above).flatMap(({ lo, hi }): Entry[] => {
      const entry: Entry = {
        line,
        stack: { pieces, stud },
        mass,
        r0: lo,
        r1: Math.min(hi, most / mass - shift),
        shift,
        across: pieces.moment.y,
        solids,
        form: formOf(pieces.shape, stud.across),
      }
      return entry.r1 < lo ? [] : [entry]
    })
  })
}
