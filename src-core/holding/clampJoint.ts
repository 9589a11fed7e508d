/** A clamp's own joint: its strap, drawn down on work and heel, must not fly off itself. */
import { called } from '../findings/finding.ts'
import { polar } from '../geometry/angles.ts'
import { rectRing } from '../geometry/edges.ts'
import type { Point } from '../geometry/types.ts'
import type { Clamp } from '../job/schema.ts'
import { addMass, NO_MASS, type MassMoments } from '../mass/massMoments.ts'
import { placeInPlate } from '../mounting/shelf.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { solidMass } from '../unbalance/assembly.ts'
import { touchingOf, type BuiltJoint } from './builtJoint.ts'
import type { ClampState } from './clampState.ts'
import { hardwareFriction } from './friction.ts'
import { padFriction } from './opening.ts'
import { strapForce } from '../hardware/preload.ts'
import { massInPlate, seatAt } from './stand.ts'
import { ownLoadings } from './working.ts'

/** @param mounted as it looks from what the clamp stands on. Null for what has no strap. Of one that presses nothing for certain it is said as of a clamp, which leaves it not judged. */
export function clampJoint(mounted: Mounted, { piece, state, preload }: ClampState): BuiltJoint | null {
  const { item, toe } = piece
  if (item.kind !== 'clamp' || !toe) return null
  const base = {
    id: item.id,
    kind: 'clamp' as const,
    what: `clamp ${item.id} itself`,
    name: called(item),
    lacks: [],
    unknown: [],
    at: placeInPlate(mounted, piece.at),
  }
  const { toHeel, heel, rest } = toe
  if (state !== 'holds' || !preload || toHeel === null || heel === null || !rest)
    return { ...base, quiet: true, input: null }
  const friction = hardwareFriction(mounted.setup)
  const heelFriction = item.heel ? padFriction(heel, Math.min(...item.heel.size), friction) : friction
  const { low, high } = preload
  // Of the bolt's force the heel has what the toe has not.
  const atToe = (force: number) => strapForce(force, toe.toWork, toHeel)
  const press = (at: Point, share: (force: number) => number, mu: number) => ({
    id: item.id,
    at,
    force: share(low),
    high: share(high),
    friction: mu,
  })
  const strap = {
    toe: press(toe.at, atToe, friction),
    heel: press(along(piece, -toHeel), (force) => force - atToe(force), heelFriction),
    bolt: piece.at,
  }
  const z = piece.z0
  const input = {
    seat: seatAt(mounted, z),
    touching: touchingOf([...rest.on, heelFace(piece, item, toHeel)]),
    face: 'pads' as const,
    grip: { strap },
    friction,
    loadings: ownLoadings(mounted.job.lathe, massInPlate(mounted, strapBody(piece, z))),
  }
  return { ...base, quiet: false, input }
}

const along = ({ at, facing }: MountedPiece, by: number): Point => {
  const step = polar(by, facing)
  return { x: at.x + step.x, y: at.y + step.y }
}

/** Where the strap lies on its heel. */
function heelFace(piece: MountedPiece, { strap, heel }: Clamp, toHeel: number): Point[] {
  const [length, width] = heel?.size ?? [0, 0]
  const tail = Math.min(toHeel + length / 2, strap.length - strap.boltFrom)
  const from = Math.min(toHeel - length / 2, tail)
  const corners = rectRing(
    along(piece, -(from + tail) / 2),
    tail - from,
    Math.min(width, strap.width),
    piece.facing,
  )
  return corners.map(({ x, y }) => ({ x, y }))
}

/**
 * What flies off together, at height z of the strap's underside: strap, stud, nut and washer, and the heel as if it
 * hung there, for it goes with the strap and is held between it and the plate.
 */
function strapBody({ solids }: MountedPiece, z: number): MassMoments {
  let body = NO_MASS
  for (const solid of solids) {
    if (solid.role === 'packing') continue
    const mass = solidMass(solid)
    body = addMass(
      body,
      solid.role === 'heel'
        ? { ...mass, z: mass.m * z, zz: mass.m * z * z, xz: mass.x * z, yz: mass.y * z }
        : mass,
    )
  }
  return body
}
