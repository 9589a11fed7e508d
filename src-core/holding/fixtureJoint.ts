/** The joint of a sub-plate, an angle plate or a vee on the plate: it carries itself, all that stands on it, and with the part on it the cut. */
import type { CuttingAdvice } from '../cutting/advice.ts'
import { called } from '../findings/finding.ts'
import { flattenRing } from '../geometry/flatten.ts'
import { boxesMeet, boxOf } from '../geometry/polygonBox.ts'
import { polygonArea, polygonIntersection } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { KIND_WORDS } from '../hardware/words.ts'
import { isShelf, type Fixture, type Shelf } from '../job/schema.ts'
import { addMass, type MassMoments } from '../mass/massMoments.ts'
import { capital } from '../words/capital.ts'
import { fixturesOf, standsOnFixture, tappedAt } from '../mounting/fixtures.ts'
import { keptPer } from '../mounting/kept.ts'
import { ringPolygons } from '../mounting/material.ts'
import { standOnPlate } from '../mounting/plateFace.ts'
import { carries, seatShelf, shelfNamed } from '../mounting/shelf.ts'
import { SEAT_PLAY } from '../mounting/shelfSize.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import type { Assembly } from '../unbalance/assembly.ts'
import { CONTACT_CHORD, touchingOf, type BuiltJoint } from './builtJoint.ts'
import type { ClampState } from './clampState.ts'
import { ContactHull } from './contact.ts'
import { hardwareFriction } from './friction.ts'
import { faceOf, pressesOf } from './partJoint.ts'
import { studPresses, type Press } from './presses.ts'
import { plateSeat } from './seat.ts'
import { studsOf } from './studJoint.ts'
import { ownLoadings, partLoadings } from './working.ts'

/** @param states of the clamps on the part. Those that are bolted to the plate press a sub-plate too. */
export function fixtureJoint(
  mounted: Mounted,
  piece: MountedPiece,
  item: Fixture | Shelf,
  assembly: Assembly,
  cutting: CuttingAdvice | null,
  states: readonly ClampState[],
): BuiltJoint {
  const base = {
    id: item.id,
    kind: 'piece' as const,
    what: `${KIND_WORDS[item.kind]} ${item.id} on the plate`,
    name: `${capital(KIND_WORDS[item.kind])} ${called(item)}`,
    quiet: false,
    at: piece.at,
  }
  const { setup } = mounted
  const carriesPart = isShelf(item)
    ? carries(setup.hardware, item, seatShelf(setup))
    : setup.seat?.on === item.id
  const touching = feetOf(mounted, piece)
  const hull = new ContactHull(touching)
  const { known, unknown, lacks: studs } = studsOf(mounted, piece, item.bolts)
  const over = carriesPart && !isShelf(item) ? states.filter((s) => !isOn(mounted, item, s.piece)) : []
  const unsure = [
    ...unknown.flatMap((s) => studPresses(s)),
    ...over.filter((s) => s.state === 'unknown').flatMap((s) => pressesOf(s, [], 0)),
  ]
  const presses: Press[] = over.filter((s) => s.state === 'holds').flatMap((s) => pressesOf(s, [], 0))
  const body = carriedBy(mounted, item, assembly, carriesPart)
  const loadings = carriesPart
    ? partLoadings(mounted, body, cutting, plateSeat(0))
    : ownLoadings(mounted.job.lathe, body)
  const lacks = [
    ...(item.bolts.length === 0 && presses.length === 0
      ? ['how it is bolted to the plate is not given']
      : []),
    ...(item.bolts.length > 0 && known.length === 0 ? studs : []),
    ...(touching.length === 0 ? ['nothing of it lies on the plate'] : []),
    ...(loadings ? [] : ['the force of its cut is not known']),
    ...(unsure.every((p) => hull.holds(p.at))
      ? []
      : ['how hard something presses beyond what it lies on is not known']),
  ]
  if (lacks.length > 0) return { ...base, input: null, lacks, unknown: [] }
  const friction = hardwareFriction(setup)
  const bare = presses.map((p) => ({ ...p, friction: undefined }))
  const input = {
    seat: plateSeat(0),
    touching,
    face: faceOf(1, touching),
    grip:
      known.length === 1 && bare.length === 0
        ? { stud: known[0]! }
        : { presses: [...known.flatMap(studPresses), ...bare] },
    friction,
    loadings: loadings ?? [],
  }
  const ids = [
    ...unknown.map((s) => s.id),
    ...over.filter((s) => s.state === 'unknown').map((s) => s.piece.item.id),
  ]
  return { ...base, input, lacks: [], unknown: [...new Set(ids)] }
}

/** Kept while all that a fixture stands on is the same. */
const feetOf = keptPer((mounted, piece) => touchingOf(footOf(mounted, piece)))

/** Its own face, less bore and holes, where it lies on the plate. */
function footOf({ job }: Mounted, { solids }: MountedPiece) {
  return solids
    .filter((s) => s.role === 'fixture' && s.z0 <= SEAT_PLAY)
    .flatMap(
      ({ ring, holes = [] }) =>
        standOnPlate(
          job.plate,
          [ring, ...holes].map((r) => flattenRing(r, CONTACT_CHORD)),
        ).on,
    )
}

/** Whether a piece is bolted to a fixture: by its station, or by a stud in one of its tapped holes. */
function isOn({ job, setup }: Mounted, fixture: Fixture, { item, fastenings }: MountedPiece): boolean {
  if ('at' in item && standsOnFixture(setup.hardware, item.at)?.id === fixture.id) return true
  return fastenings.some((f) => tappedAt(job.plate, fixturesOf(setup), f.at)?.fixture.id === fixture.id)
}

/** Whether a piece that is not bolted to it lies on its face. */
function liesOn(fixture: MountedPiece, { solids }: MountedPiece): boolean {
  const face = ringPolygons(fixture.footprint)
  const top = fixture.z1
  return solids.some((s) => {
    if (Math.abs(s.z0 - top) > SEAT_PLAY) return false
    const foot = ringPolygons(s.ring)
    return (
      boxesMeet(boxOf(foot), boxOf(face)) &&
      polygonArea(polygonIntersection(foot, face)) > TOLERANCE.clashArea
    )
  })
}

/** The fixture with all that it carries as one body. */
export function carriedBy(
  mounted: Mounted,
  item: Fixture | Shelf,
  assembly: Assembly,
  carriesPart: boolean,
): MassMoments {
  const self = mounted.pieces.findIndex((p) => p.item.id === item.id)
  let body = assembly.pieces[self]!
  if (carriesPart) body = addMass(body, assembly.mountedPart)
  mounted.pieces.forEach((p, i) => {
    if (i === self) return
    const carried = isShelf(item)
      ? p.shelf !== undefined &&
        carries(mounted.setup.hardware, item, shelfNamed(mounted.setup.hardware, p.shelf))
      : isOn(mounted, item, p) || liesOn(mounted.pieces[self]!, p)
    if (!carried) return
    body = addMass(body, assembly.pieces[i]!)
  })
  return body
}
