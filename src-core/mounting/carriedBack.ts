/** What stands on a shelf, carried back from the shelf's frame to the plate's. */
import { angleOf, polar, toDegrees } from '../geometry/angles.ts'
import { keptLast } from '../geometry/kept.ts'
import { outOf, turnedBy, type Pose } from '../geometry/space/pose.ts'
import type { Point, Point3, Ring } from '../geometry/types.ts'
import type { Hardware } from '../job/schema.ts'
import { poseMass } from '../mass/massMoments.ts'
import { envelopeOf } from './lying.ts'
import { blockBefore } from './veeBlock.ts'
import type { Lying, Mounted, MountedPiece, MountedSolid } from './types.ts'

const carried = keptLast<MountedPiece, MountedPiece>()

/** In the plate's frame; kept as long as both stand so. @param item as it stands in the job. */
export function carriedBack(
  shelf: NonNullable<Mounted['shelf']>,
  item: Hardware,
  seen: MountedPiece,
): MountedPiece {
  const { origin } = shelf.pose
  return carried(seen, [item, shelf.item, origin.x, origin.y], () => carry(shelf, item, seen))
}

function carry(
  { item: shelf, pose }: NonNullable<Mounted['shelf']>,
  item: Hardware,
  seen: MountedPiece,
): MountedPiece {
  const solids = seen.solids.flatMap((s) =>
    item.kind === 'vee' && s.role === 'fixture' ? blockBefore(pose, item, seen.at) : [solidBack(pose, s)],
  )
  const main =
    solids[
      Math.max(
        0,
        seen.solids.findIndex((s) => s.ring === seen.footprint),
      )
    ]!
  const along = turnedBy(pose, { x: polar(1, seen.facing).x, y: 0, z: 0 })
  return {
    item,
    shelf: shelf.id,
    at: flat(outOf(pose, seen.at)),
    facing:
      item.kind === 'vee' || (along.x === 0 && along.y === 0) ? shelf.facing : toDegrees(angleOf(along)),
    footprint: main.ring,
    z0: main.z0,
    z1: main.z1,
    mass: seen.mass,
    massCentre: outOf(pose, seen.massCentre),
    bolt: null,
    solids,
    fastenings: seen.fastenings.map((f) => ({ ...f, at: flat(outOf(pose, { ...f.at, z: f.grip })) })),
    toe: null,
  }
}

const flat = ({ x, y }: Point3): Point => ({ x, y })

/** Upright on the shelf, lying in the plate's frame; a block along the shelf is its own upright box there. */
function solidBack(pose: Pose, { ring, holes, z0, z1, ...solid }: MountedSolid): MountedSolid {
  const lies: Lying = { pose, ring, ...(holes ? { holes } : {}), z0, z1 }
  const { moments } = solid
  const back = {
    ...solid,
    ...envelopeOf(lies),
    massCentre: outOf(pose, solid.massCentre),
    ...(moments ? { moments: poseMass(moments, pose) } : {}),
  }
  return isBlock(ring) && !holes ? back : { ...back, lies }
}

/** Whether a ring is a rectangle along its frame's axes. */
const isBlock = (ring: Ring): boolean =>
  ring.length === 4 &&
  ring.every((v, i) => {
    const w = ring[(i + 1) % 4]!
    return !v.bulge && (Math.abs(v.x - w.x) < 1e-9 || Math.abs(v.y - w.y) < 1e-9)
  })
