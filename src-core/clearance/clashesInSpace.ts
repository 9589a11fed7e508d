/**
 * What stands in one place where not all of it stands upright: hardware against hardware of which one lies, all hardware
 * against the part, and what lies against the boring bar's path. Solids are convex pieces in space, told apart exactly.
 */
import { called, finding, type Finding } from '../findings/finding.ts'
import { circleRing } from '../geometry/edges.ts'
import { UPRIGHT } from '../geometry/space/pose.ts'
import { clashOf, deepest, SpaceSolid, type SpaceClash } from '../geometry/space/solid.ts'
import { dot3 } from '../geometry/space/vector.ts'
import type { Point3 } from '../geometry/types.ts'
import { isShelf, type Hardware } from '../job/schema.ts'
import { poseOfShelf, shelfOfBlock, seatShelf, shelfUnder } from '../mounting/shelf.ts'
import { missesShelf, SEAT_PLAY } from '../mounting/shelfSize.ts'
import type { Mounted, MountedPiece, MountedSolid } from '../mounting/types.ts'
import type { Formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import { goesThrough, solidInSpace } from './inSpace.ts'
import { partInSpace } from './partInSpace.ts'

interface Found extends SpaceClash {
  readonly solid: MountedSolid
}

export const clashesInSpace = (mounted: Mounted, fmt: Formatter): Finding[] => [
  ...mounted.pieces.flatMap((a, i) =>
    mounted.pieces.slice(i + 1).flatMap((b) => pieceAgainstPiece(a, b, fmt)),
  ),
  ...mounted.pieces.flatMap((piece) => pieceAgainstPart(mounted, piece, fmt)),
]

/** `the heel of c1`; a piece of one solid, and what a part stands on, by its name alone. */
const words = ({ solids, item }: MountedPiece, { role }: MountedSolid): string =>
  solids.length === 1 || role === 'twin' || role === 'fixture'
    ? called(item)
    : `the ${role} of ${called(item)}`

const place = ({ depth, z0, z1 }: SpaceClash, fmt: Formatter): string =>
  `${fmt.length(depth)} into each other, between ${fmt.length(z0)} and ${fmt.length(z1)} from the plate`

function pieceAgainstPiece(a: MountedPiece, b: MountedPiece, fmt: Formatter): Finding[] {
  const found = a.solids.flatMap((p) =>
    b.solids.flatMap((q) => {
      if (!p.lies && !q.lies) return []
      if (goesThrough(a, p, b, q) || goesThrough(b, q, a, p)) return []
      const clash = clashOf(solidInSpace(p), solidInSpace(q))
      return clash ? [{ ...clash, p, q }] : []
    }),
  )
  const worst = deepest(found)
  if (!worst) return []
  const message = `${capital(words(a, worst.p))} and ${words(b, worst.q)} stand in the same place: ${place(worst, fmt)}. Move one of them by that at least.`
  return [finding('stop', 'hardware-clash', a.item.id, message, worst.at)]
}

/** Boxes that hold press on the part, and studs are judged by their bolt's own check, as where all is flat. */
function pieceAgainstPart(mounted: Mounted, piece: MountedPiece, fmt: Formatter): Finding[] {
  const { item, solids } = piece
  if (item.kind === 'press') return []
  const found = solids.flatMap((solid): Found[] => {
    if (solid.role === 'stud' && item.kind !== 'fixture' && item.kind !== 'twin') return []
    const own = solidInSpace(solid)
    return partInSpace(mounted).flatMap((part) => {
      const clash = clashOf(own, part.solid)
      return clash ? [{ ...clash, solid }] : []
    })
  })
  const worst = deepest(found)
  if (!worst) return []
  const message = `${capital(words(piece, worst.solid))} runs into the part: ${place(worst, fmt)}. ${cure(mounted, item, worst, fmt)}`
  return [finding('stop', 'part-clash', item.id, message, worst.at)]
}

/** Cosine of the angle to a direction within which what is moved goes that way. */
const THAT_WAY = 0.7

/** `way` takes the part out of the piece. */
function cure(mounted: Mounted, item: Hardware, { way, depth }: SpaceClash, fmt: Formatter): string {
  const { job, setup } = mounted
  const by = fmt.length(depth)
  const seat = seatShelf(setup)
  if (!isShelf(item))
    return shelfUnder(setup.hardware, item)
      ? 'Slide it along or out, or press elsewhere.'
      : 'Move it clear or change its height.'
  if (seat?.id !== item.id) return 'Move it clear of the part.'
  const outward: Point3 = poseOfShelf(job.plate, item, setup.hardware).n
  if (!liesOnce(mounted, dot3(way, outward) > THAT_WAY ? depth : 0))
    return `First let the part lie on ${item.id}.`
  const below = shelfOfBlock(setup.hardware, item)
  if (below && dot3(way, outward) > THAT_WAY) return `Set ${below.id} ${by} further from the axis.`
  if (dot3(way, outward) > THAT_WAY) return `Set it ${by} further from the axis, or pack the part up on it.`
  if (way.z > THAT_WAY) return `Let the part stand ${by} further out from the plate.`
  return `Seat the part elsewhere on it: ${by} clears it there.`
}

/** Whether the part lies on its shelf, or would once that is lower by as much. What else sets it right is said of that. */
function liesOnce({ shelves }: Mounted, lower: number): boolean {
  const view = shelves?.find((v) => v.shelf?.carriesPart)
  if (view?.shelf?.item.kind === 'vee') return view.shelf.round?.lies === true
  const misses = view ? missesShelf(view) : null
  const square = view?.shelf?.slanted.length === 0
  return misses === null || (square && Math.abs(misses + lower) <= SEAT_PLAY)
}

/** mm that the boring bar's path goes on in front of a bore: past whatever stands on a faceplate. */
const FAR = 10_000

/** What lies in the boring bar's path. */
export function barPathInSpace({ workBore, pieces }: Mounted, fmt: Formatter): Finding[] {
  if (!workBore) return []
  const { bore, z0 } = workBore
  const disc = { outline: circleRing({ x: 0, y: 0 }, bore.diameter), holes: [] }
  const path = new SpaceSolid([disc], z0, z0 + FAR, UPRIGHT)
  return pieces.flatMap(({ item, solids }) => {
    const hits = solids.flatMap((s) => (s.lies ? (clashOf(path, solidInSpace(s)) ?? []) : []))
    const hit = deepest(hits)
    if (!hit) return []
    const message = `${called(item)} stands in the boring bar's path: inside the ${fmt.length(bore.diameter)} circle of bore ${bore.id}, between ${fmt.length(hit.z0)} and ${fmt.length(hit.z1)} from the plate. Move it outward.`
    return [finding('stop', 'in-bar-path', item.id, message, hit.at)]
  })
}
