/**
 * Where strap clamps go, on the plate or on a shelf looked at as a plate: places in slots where the toe lies wholly on solid
 * material and nothing is in the way.
 */
import { polar, wholeTurn } from '../../../src-core/geometry/angles.ts'
import { breakthroughFindings } from '../../../src-core/clearance/breakthrough.ts'
import { clashFindings } from '../../../src-core/clearance/clashes.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import type { Finding } from '../../../src-core/findings/finding.ts'
import { pieceRulings } from '../../../src-core/holding/pieceRulings.ts'
import { clampStates } from '../../../src-core/holding/clampState.ts'
import { partStand } from '../../../src-core/holding/stand.ts'
import { reachOf as solidReach } from '../../../src-core/clearance/inSpace.ts'
import { boxAround, boxesMeet, inBox, type Box } from '../../../src-core/geometry/polygonBox.ts'
import { heelDistance, toeLength } from '../../../src-core/hardware/toe.ts'
import { narrowClamps, type ClampPattern } from '../../../src-core/hardware/usualClamp.ts'
import type { Clamp, Slot } from '../../../src-core/job/schema.ts'
import { mountClamp } from '../../../src-core/mounting/clamp.ts'
import { carriedBack } from '../../../src-core/mounting/carriedBack.ts'
import { findThread } from '../../../src-core/hardware/threads.ts'
import { flatBodies } from '../../../src-core/mounting/material.ts'
import type { FacePlate } from '../../../src-core/mounting/plateFace.ts'
import { partAt } from '../../../src-core/mounting/partAt.ts'
import type { Mounted, MountedPiece } from '../../../src-core/mounting/types.ts'
import { toeLies } from '../../../src-core/mounting/toeLies.ts'
import { uncapital } from '../../../src-core/words/capital.ts'
import { clause } from '../../../src-core/words/clause.ts'
import { ringBox } from '../draw/rings.ts'
import { roundTo } from '../snap.ts'
import { stationOnShelf } from './onShelf.ts'
import { clampTracks, farthestFirst, slotTrack, type ClampTrack } from './clampTracks.ts'
import { without } from './edit.ts'

type Placed = Omit<Clamp, 'id'>
/** A clamp where it holds, or why it holds nowhere in the slot. */
export type ClampPlace = { readonly clamp: Placed } | { readonly where: string; readonly reason: string }

/** mm that the stud stays off the part's edge beyond its own radius, and a clamp off the bed. Own choice. */
const CLEAR = 3
/** Degrees off where its track points it that a strap is tried at, straight first. */
const TURNS = [0, 20, -20, 40, -40]
/** Stands for the new clamp while it is tried. */
const TRIED = ' '

/** @param mounted the whole setup. Of the tracks in which it holds, the one farthest from the clamps that are there; else why not in the first. */
export function placeClamp(mounted: Mounted, pattern: ClampPattern): ClampPlace | null {
  let refused: ClampPlace | null = null
  const stand = partStand(mounted)
  const hopeless = new Set<string>()
  for (const track of farthestFirst(stand, clampTracks(stand))) {
    if (hopeless.has(track.name)) continue
    const place = placeInTrack(mounted, track, pattern)
    if ('clamp' in place) return place
    refused ??= place
    hopeless.add(track.name)
  }
  return refused
}

/** Along a slot of the plate: the place that is nearest the axis, the strap along the slot or as little out of it as will do. */
export const placeInSlot = (mounted: Mounted, slot: Slot, pattern: ClampPattern): ClampPlace =>
  placeInTrack(mounted, slotTrack(mounted.job, slot), pattern)

/**
 * The first place of a track in which it holds, pointed as the track does or as little out of that as will do; on a shelf,
 * which is narrow, with the heel nearer or by a shorter strap where the one that is asked for has no room.
 */
export function placeInTrack(mounted: Mounted, track: ClampTrack, pattern: ClampPattern): ClampPlace {
  const stand = partStand(mounted)
  const roomy = { ...track, places: track.places.filter((p) => boltHasRoom(stand, pattern, p.point)) }
  let refused: Refusal = roomy.places.length < track.places.length ? COVERED : OFF
  for (const tried of stand.shelf ? narrowClamps(pattern, mounted.job.displayUnits) : [pattern]) {
    const found = tryTrack(mounted, stand, roomy, tried)
    if ('clamp' in found) return found
    if (found.rank < refused.rank) refused = found
  }
  return { where: track.name, reason: refused.reason }
}

function tryTrack(
  mounted: Mounted,
  stand: Mounted,
  track: ClampTrack,
  pattern: ClampPattern,
): { readonly clamp: Placed } | Refusal {
  let refused: Refusal = { ...OFF, rank: Infinity }
  for (const turn of TURNS) {
    let onPart = false
    for (const { at, point, faces } of track.places) {
      const clamp: Placed = { ...pattern, at, facing: wholeTurn(roundTo(faces + turn, 0.1)) }
      const found = reaches(stand, clamp, point) ?? tryPlace(stand, mounted, clamp)
      if (found === null) return { clamp: inJob(stand, withoutDoubledPacking(stand, clamp)) }
      if (found.rank < refused.rank) refused = found
      // Farther out it only reaches less.
      if (track.goesOut && onPart && found.rank === OFF.rank) break
      onPart = found.rank < OFF.rank
    }
  }
  return refused
}

interface Refusal {
  /** How near it came to holding: the lowest is told. */
  readonly rank: number
  readonly reason: string
}

const OFF: Refusal = { rank: 4, reason: 'the strap does not reach the part' }
const COVERED: Refusal = { rank: 5, reason: 'its bolt has no room beside the part' }

/** Whether the bolt stands beside the part. */
function boltHasRoom(stand: Mounted, { strap, stud }: ClampPattern, bolt: Point): boolean {
  const radius = (findThread(stud.thread ?? '')?.diameter ?? strap.opening) / 2
  return partAt(stand, bolt).off >= radius + CLEAR
}

/** Whether the middle of the toe is on the part, and on a shelf the middle of the heel on that, which is soon asked. */
function reaches(stand: Mounted, { facing, strap, heel }: Placed, bolt: Point): Refusal | null {
  const along = (by: number): Point => {
    const step = polar(by, facing)
    return { x: bolt.x + step.x, y: bolt.y + step.y }
  }
  const toe = along(strap.boltFrom - toeLength(strap) / 2)
  const near = flatBodies(stand).some((b) => b.adds && inBox(b.box, toe))
  if (!near || partAt(stand, toe).off > 0) return OFF
  const { face }: FacePlate = stand.job.plate
  if (!face || !heel) return null
  const on = inBox(ringBox(face.outline), along(-heelDistance(strap, heel)))
  return on ? null : { rank: 1, reason: `its heel would stand beyond ${face.rim}` }
}

/** Null where it holds; cheap questions first. @param stand what the part stands on, looked at as the plate. */
function tryPlace(stand: Mounted, whole: Mounted, clamp: Placed): Refusal | null {
  const piece = mountNew(stand, clamp)
  const toe = piece.toe!
  const lies = toeLies(stand, toe)
  if (lies !== null) return { rank: 1, reason: `the toe would lie over ${lies}` }
  // On a shelf a heel soon hangs over its edge.
  const own = stand.shelf ? pieceRulings(stand, piece).find((r) => r.finding.severity === 'stop') : undefined
  if (own) return { rank: own.finding.code === 'toe-off' ? 1 : 0, reason: reasonOf(own.finding) }
  const turning = stand.shelf ? carriedBack(stand.shelf, { ...inJob(stand, clamp), id: TRIED }, piece) : piece
  if (reachOf(turning) > whole.job.lathe.swingOverBed / 2 - CLEAR)
    return { rank: 2, reason: 'the clamp would come too near the bed' }
  const meets = meetsAnything(stand, piece) ?? (stand.shelf ? meetsAnything(whole, turning) : null)
  if (meets) return { rank: 0, reason: meets }
  const against = saidAgainst(stand, piece)
  return against ? { rank: 0, reason: against } : null
}

/** What is in its way, alone and among what is there. */
function meetsAnything(mounted: Mounted, piece: MountedPiece): string | null {
  const alone = stopOf(mounted, [piece])
  if (alone) return alone
  const box = boxOfPiece(piece)
  const others = mounted.pieces.filter((p) => p.item.kind !== 'packing' && boxesMeet(box, boxOfPiece(p)))
  return stopOf(mounted, [piece, ...others])
}

/** A clamp that is placed on what is looked at, with its station as the job says it. */
export const inJob = ({ shelf }: Mounted, clamp: Placed): Placed =>
  shelf ? { ...clamp, at: stationOnShelf(shelf.item, clamp.at) } : clamp

/** What the check of a clamp has against it there; null where it has nothing. */
function saidAgainst(mounted: Mounted, piece: MountedPiece): string | null {
  const states = clampStates({ ...mounted, pieces: [...mounted.pieces, piece] })
  const stop = states.find((s) => s.piece === piece)?.findings.find((f) => f.severity === 'stop')
  return stop ? reasonOf(stop) : null
}

function reasonOf(stop: Finding): string {
  switch (stop.code) {
    case 'toe-off':
      return 'the toe would lie over an edge of the part'
    case 'toe-bends-part':
      return 'nothing carries the part under the toe'
    default:
      return uncapital(clause(stop.message.split(/(?<=\.)\s/)[0]!.replaceAll(` (${TRIED})`, '')))
  }
}

const mountNew = (
  { job, setup, placement, bodies, turned, bores, ground, seat, partFront }: Mounted,
  clamp: Placed,
): MountedPiece =>
  mountClamp(
    { job, setup, part: { placement, bodies, turned, bores }, ground, seat, front: partFront },
    { ...clamp, name: 'the strap', id: TRIED },
  )

const boxOfPiece = (piece: MountedPiece): Box => boxAround(piece.solids.map((s) => ringBox(s.ring)))

const reachOf = (piece: MountedPiece): number => Math.max(...piece.solids.map((s) => solidReach(s).distance))

function stopOf(mounted: Mounted, pieces: readonly MountedPiece[]): string | null {
  // What stands on a shelf is looked at from there apart.
  const tried = { ...mounted, pieces, shelves: [] }
  const stop = [...clashFindings(tried), ...breakthroughFindings(tried)].find(
    (f) => f.severity === 'stop' && f.item === TRIED,
  )
  if (!stop) return null
  switch (stop.code) {
    case 'in-bar-path':
      return pieces[0]?.shelf ? 'it would stand in the path of the bar' : 'the strap would lie over the bore'
    case 'breakthrough-packing':
      return 'its packing would lie where the tool comes out'
    case 'hardware-clash':
      return 'other hardware is in the way'
    default:
      return 'the part is in the way'
  }
}

/** Packing that lies there already is not put there twice. */
export function withoutDoubledPacking(mounted: Mounted, clamp: Placed): Placed {
  if (!clamp.packing) return clamp
  const loose = mounted.pieces.filter((p) => p.item.kind === 'packing')
  const piece = mountNew(mounted, clamp)
  const own = { ...piece, solids: piece.solids.filter((s) => s.role === 'packing') }
  if (!stopOf(mounted, [own, ...loose])) return clamp
  return without(clamp, 'packing')
}
