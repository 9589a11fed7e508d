/** The part's face at its seat. */
import { boxesMeet, type Box, type Polygons } from '../geometry/polygonBox.ts'
import { polygonUnion } from '../geometry/polygon.ts'
import { isPrism } from '../job/schema.ts'
import { underside } from '../mesh/underside.ts'
import { flatBodies, isSound, lessToCut, materialBetween } from '../mounting/material.ts'
import { placePoints } from '../mounting/place.ts'
import { SEAT_PLAY } from '../mounting/shelfSize.ts'
import type { Mounted } from '../mounting/types.ts'

/**
 * The part's material at its seat near a box, less what the bores that this setup cuts take away; none where an outline
 * is faulty.
 */
export function partFace(mounted: Mounted, near: Box): Polygons {
  if (!isSound(mounted)) return []
  const seat = mounted.seat
  const all = [...mounted.bodies, ...mounted.turned]
  const prisms = all.flatMap((b, i) => (isPrism(b.body) ? [flatBodies(mounted)[i]!] : []))
  let face = materialBetween(
    mounted,
    prisms.filter((b) => boxesMeet(b.box, near)),
    seat,
    seat + SEAT_PLAY,
    near,
  )
  for (const { body, z0 } of mounted.bodies) {
    if (isPrism(body) || body.effect !== 'adds' || Math.abs(z0 - seat) > SEAT_PLAY) continue
    // Of a mesh only what is level at its lowest.
    const flat = underside(body.mesh, SEAT_PLAY).map((ring) => placePoints(mounted.placement, ring))
    face = face.length === 0 ? flat : polygonUnion(face, flat)
  }
  return lessToCut(mounted, face, { z0: seat, z1: seat + SEAT_PLAY }, near)
}
