/** Joints of what is bolted to the plate by studs of its own: weights, stops and boxes. */
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { called } from '../findings/finding.ts'
import { flattenRing } from '../geometry/flatten.ts'
import { inRegion } from '../geometry/nearest.ts'
import { polygonIntersection } from '../geometry/polygon.ts'
import { boxOf, type Polygons } from '../geometry/polygonBox.ts'
import { washerMeanRadius } from '../hardware/washers.ts'
import { isBox, type Hardware, type HardwareKind, type Plate } from '../job/schema.ts'
import type { MassMoments } from '../mass/massMoments.ts'
import type { FasteningFields } from '../mounting/fastening.ts'
import { standAt } from '../mounting/fixtures.ts'
import { standOnPlate } from '../mounting/plateFace.ts'
import { placeInPlate } from '../mounting/shelf.ts'
import { SEAT_PLAY } from '../mounting/shelfSize.ts'
import type { Mounted, MountedFastening, MountedPiece, MountedSolid } from '../mounting/types.ts'
import { CONTACT_CHORD, touchingOf, type BuiltJoint } from './builtJoint.ts'
import { ContactHull } from './contact.ts'
import { hardwareFriction } from './friction.ts'
import { isCarried, packingOf } from './packing.ts'
import { preloadOf } from './preloadOf.ts'
import { studPresses, type Stud } from './presses.ts'
import { seatAt, standWords } from './stand.ts'
import { ownLoadings } from './working.ts'

const KIND_WORDS: Partial<Record<HardwareKind, string>> = {
  stop: 'stop',
  bracket: 'bracket',
  counterweight: 'counterweight',
}

/** @param mounted as it looks from what the piece stands on. @param body mass moments of the whole piece, plate frame. Null for what is held otherwise: loose packing, clamps, pins. */
export function studJoint(mounted: Mounted, piece: MountedPiece, body: MassMoments): BuiltJoint | null {
  const fields = studFields(piece.item)
  if (fields === null) return null
  const { item } = piece
  const base = {
    id: item.id,
    kind: item.kind === 'weight' ? ('weight' as const) : ('piece' as const),
    what:
      item.kind === 'weight'
        ? `weight ${item.id} on its stud`
        : `${KIND_WORDS[item.kind] ?? 'piece'} ${item.id} on ${standWords(mounted)}`,
    name: called(item),
    quiet: false,
    at: placeInPlate(mounted, piece.at),
  }
  const foot = lowestOf(piece)
  const area = foot.flatMap((s) => footOf(mounted, s))
  if (fields.length === 0 || area.length === 0) {
    const lacks =
      fields.length === 0
        ? `how it is bolted to ${standWords(mounted)} is not given`
        : 'what it stands on is not known'
    return { ...base, input: null, lacks: [lacks], unknown: [] }
  }
  const touching = touchingOf(area)
  const { known, unknown, lacks } = studsOf(mounted, piece, fields)
  // One beyond what touches might tip it off.
  const hull = new ContactHull(touching)
  const tips = unknown.some((s) => !studPresses(s).every((p) => hull.holds(p.at)))
  if (known.length === 0 || tips) return { ...base, input: null, lacks, unknown: [] }
  const input = {
    seat: seatAt(mounted, Math.max(0, foot[0]!.z0)),
    touching,
    face: 'flat' as const,
    grip: known.length === 1 ? { stud: known[0]! } : { presses: known.flatMap(studPresses) },
    friction: hardwareFriction(mounted.setup),
    loadings: ownLoadings(mounted.job.lathe, body),
  }
  return { ...base, input, lacks, unknown: unknown.map((s) => s.id) }
}

/** What tightens each of its studs; null where it has none by its kind. */
function studFields(item: Hardware): readonly FasteningFields[] | null {
  if (item.kind === 'weight' || item.kind === 'stop') return [item]
  if (!isBox(item) || item.kind === 'press') return null
  return item.held?.length || item.kind !== 'packing' ? (item.held ?? []) : null
}

export interface Studs {
  readonly known: readonly Stud[]
  readonly unknown: readonly Stud[]
  readonly lacks: readonly string[]
}

/** A piece's studs, those of known preload and length apart. @param fields what tightens each. */
export function studsOf(
  { job }: Mounted,
  { item, fastenings, solids }: MountedPiece,
  fields: readonly FasteningFields[],
): Studs {
  const doubt = uncertaintiesOf(job)
  const known: Stud[] = []
  const unknown: Stud[] = []
  const lacks = new Set<string>()
  fastenings.forEach((fastening, i) => {
    const { preload, missing } = preloadOf(fields[i]!, doubt)
    const lacking = [
      ...missing,
      ...(fastening.length === null ? ['length of the stud not given'] : []),
      ...(pressesOn(solids, fastening) ? [] : ['its nut has nothing of it under it']),
    ]
    const stud = studOf(item.id, fastening, preload)
    if (preload && lacking.length === 0) known.push(stud)
    else unknown.push(stud)
    for (const l of lacking) lacks.add(l)
  })
  return { known, unknown, lacks: [...lacks] }
}

/** Whether a stud goes through the solid that its washer lies on; in that of a fixture washers are sunk. */
const pressesOn = (solids: readonly MountedSolid[], { at, grip }: MountedFastening): boolean =>
  solids.some(
    ({ role, ring, holes = [], z0, z1 }) =>
      (role === 'fixture' ? z0 < grip && grip <= z1 + SEAT_PLAY : Math.abs(z1 - grip) <= SEAT_PLAY) &&
      (role === 'fixture' || CARRYING.has(role)) &&
      inRegion({ outline: ring, holes }, at),
  )

/** A tightened stud as a press through its washer's ring; without force where its preload is not known. */
export function studOf(
  id: string,
  { at, thread, washer }: MountedFastening,
  force: { readonly low: number; readonly high: number } | null,
): Stud {
  const meanRadius = thread ? washerMeanRadius(thread, washer.diameter) : washer.diameter / 4
  return { id, at, force: force?.low ?? 0, high: force?.high ?? 0, meanRadius }
}

const CARRYING: ReadonlySet<MountedSolid['role']> = new Set(['weight', 'block', 'packing'])

function lowestOf({ solids }: MountedPiece): MountedSolid[] {
  const carrying = solids.filter((s) => CARRYING.has(s.role))
  const lowest = Math.min(...carrying.map((s) => s.z0))
  return carrying.filter((s) => s.z0 === lowest)
}

/** What of a foot is carried, by the plate's face (a slot that it bridges is no matter) or by packing under it. */
function footOf(mounted: Mounted, { ring, z0 }: MountedSolid): Polygons {
  const { plate } = mounted.job
  const own = [flattenRing(ring, CONTACT_CHORD)]
  if (Math.abs(z0) <= SEAT_PLAY)
    return !mounted.shelf && isClearOf(plate, own) ? own : standOnPlate(plate, own).on
  const packing = packingOf(mounted)
  const face = standAt(mounted, own, z0)
  if (face) return face.on
  return packing
    .filter((p) => Math.abs(p.solid.z1 - z0) <= SEAT_PLAY && isCarried(packing, p))
    .flatMap((p) => polygonIntersection(own, p.polygons))
}

/** Whether a foot lies within the plate's rim and beside its bore. */
function isClearOf({ diameter, bore }: Plate, foot: Polygons): boolean {
  const { x0, y0, x1, y1 } = boxOf(foot)
  const beside = x0 > bore / 2 || x1 < -bore / 2 || y0 > bore / 2 || y1 < -bore / 2
  return beside && foot.every((ring) => ring.every((p) => Math.hypot(p.x, p.y) <= diameter / 2))
}
