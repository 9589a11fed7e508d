/** How far solids reach from the spindle axis, which is z, at the heights that matter. */
import { keptBy } from '../kept.ts'
import type { Point3 } from '../types.ts'
import { eachEdge, type Convex } from './convex.ts'

export interface Reach {
  /** mm from the z axis. */
  readonly radius: number
  readonly at: Point3
}

/**
 * The point of convex pieces farthest from the z axis between two heights, ends included; null where nothing of them is
 * between. Distance from a line is convex, so it is farthest at a corner or where an edge passes one of the heights.
 */
export const farthestReach = (pieces: readonly Convex[], from: number, to: number): Reach | null =>
  kept(pieces, `${from} ${to}`, () => lookFor(pieces, from, to))

/** Pairs of heights that are kept: obstacles at the lathe are few. */
const MOST = 32
/** Per list of pieces: most stay where they are while one thing is dragged. */
const kept = keptBy<readonly Convex[], string, Reach | null>(MOST)

function lookFor(pieces: readonly Convex[], from: number, to: number): Reach | null {
  let square = -1
  let at: Point3 | null = null
  const take = (x: number, y: number, z: number) => {
    const here = x * x + y * y
    if (here > square) {
      square = here
      at = { x, y, z }
    }
  }
  for (const piece of pieces) {
    const { low, high } = piece.box
    if (low.z > to || high.z < from) continue
    const x = Math.max(-low.x, high.x)
    const y = Math.max(-low.y, high.y)
    if (x * x + y * y <= square) continue
    eachEdge(piece, (ax, ay, az, bx, by, bz) => {
      if ((az > to && bz > to) || (az < from && bz < from)) return
      const end = (t: number, z: number) => {
        if (t <= 0) take(ax, ay, az)
        else if (t >= 1) take(bx, by, bz)
        else take(ax + t * (bx - ax), ay + t * (by - ay), z)
      }
      const rise = bz - az
      end(rise === 0 ? 0 : ((rise > 0 ? from : to) - az) / rise, rise > 0 ? from : to)
      end(rise === 0 ? 1 : ((rise > 0 ? to : from) - az) / rise, rise > 0 ? to : from)
    })
  }
  return at && { radius: Math.sqrt(square), at }
}
