/**
 * Whether the part is really there behind a contact: from a shelf, and of bodies that lie across, its slopes and rounds are
 * seen as stairs, which a stop might seem to meet where nothing is.
 */
import { roundCircle } from '../geometry/angles.ts'
import { inRegion } from '../geometry/nearest.ts'
import { into, outOf, type Pose } from '../geometry/space/pose.ts'
import type { Point, Point3 } from '../geometry/types.ts'
import { isPrism, liesAcross, type Body } from '../job/schema.ts'
import { acrossPose } from '../mass/across.ts'
import { unplacePoint } from '../mounting/place.ts'
import type { Mounted } from '../mounting/types.ts'
import { TOUCH } from './partSide.ts'
import type { StopContact } from './stopContact.ts'

/** mm behind a contact, and in from its ends, at which the part must be. */
const BEHIND = 2 * TOUCH
const INSIDE = 0.1
/** Directions about a pin that a hole guides. */
const ROUND = 36

/** @param pose of what the contact is seen from. @param guided how far round a pin the part must be, mm; of one in a hole. */
export function isReallyThere(
  whole: Mounted,
  pose: Pose,
  { at, into: way, low, high, half }: StopContact,
  guided: number,
): boolean {
  const [h0, h1] = [low + INSIDE, high - INSIDE]
  if (!(h1 > h0)) return false
  const heights = [h0, (h0 + h1) / 2, h1]
  const isThere = ({ x, y }: Point, wanted: boolean) =>
    heights.every((z) => isMaterial(whole, outOf(pose, { x, y, z })) === wanted)
  if (!way) return roundCircle(at, guided + BEHIND, ROUND).every((p) => isThere(p, true))
  // Behind the contact the part, before it none.
  return [-1, 0, 1].every((k) => {
    const along = k * Math.max(0, half - INSIDE)
    const off = (by: number): Point => ({
      x: at.x + by * way.x - along * way.y,
      y: at.y + by * way.y + along * way.x,
    })
    return isThere(off(-BEHIND), true) && isThere(off(BEHIND), false)
  })
}

/** Whether a place, plate frame, is in the part before and after this setup's cuts; never in what came as a mesh. */
export function isMaterial({ job, placement, seat, bores, turned }: Mounted, p: Point3): boolean {
  const q = { ...unplacePoint(placement, p), z: p.z - seat }
  const { bodies } = job.part
  const gone = [...bodies.filter((b) => b.effect === 'removes'), ...turned.map((b) => b.body)]
  return (
    bodies.some((b) => b.effect === 'adds' && isPrism(b) && holds(b, q)) &&
    !gone.some((b) => !isPrism(b) || holds(b, q)) &&
    !bores.some(
      ({ bore, centre, state, z0, z1 }) =>
        state !== 'uncut' &&
        p.z >= z0 &&
        p.z <= z1 &&
        Math.hypot(p.x - centre.x, p.y - centre.y) <= bore.diameter / 2,
    )
  )
}

/** Part frame. */
function holds(body: Body, q: Point3): boolean {
  if (!isPrism(body)) return false
  const own = liesAcross(body) ? into(acrossPose(body), q) : q
  return own.z >= body.base && own.z <= body.base + body.thickness && inRegion(body, own)
}
