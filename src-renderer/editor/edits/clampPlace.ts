/** Where strap clamps go: places in slots where the toe lies wholly on solid material and nothing is in the way. */
import { directionOf, opposite, polar, turnBetween, wholeTurn } from '../../../src-core/geometry/angles.ts'
import { breakthroughFindings } from '../../../src-core/clearance/breakthrough.ts'
import { clashFindings } from '../../../src-core/clearance/clashes.ts'
import { clampStates } from '../../../src-core/holding/clampState.ts'
import { farthestFrom } from '../../../src-core/geometry/farthest.ts'
import { boxAround, boxesMeet, type Box } from '../../../src-core/geometry/polygonBox.ts'
import { toeLength } from '../../../src-core/hardware/toe.ts'
import type { ClampPattern } from '../../../src-core/hardware/usualClamp.ts'
import { isClamp, type Clamp, type Slot } from '../../../src-core/job/schema.ts'
import { mountClamp } from '../../../src-core/mounting/clamp.ts'
import { stationPoint } from '../../../src-core/mounting/station.ts'
import { findThread } from '../../../src-core/hardware/threads.ts'
import { partAt } from '../../../src-core/mounting/partAt.ts'
import type { Mounted, MountedPiece } from '../../../src-core/mounting/types.ts'
import { toeLies } from '../../../src-core/mounting/toeLies.ts'
import { inches } from '../../../src-core/units/convert.ts'
import { clause } from '../../../src-core/words/clause.ts'
import { ringBox } from '../draw/rings.ts'
import { roundTo } from '../snap.ts'
import { without } from './edit.ts'

type Placed = Omit<Clamp, 'id'>
/** A clamp where it holds, or why it holds nowhere in the slot. */
export type ClampPlace = { readonly clamp: Placed } | { readonly slot: string; readonly reason: string }

/** mm that the stud stays off the part's edge beyond its own radius, and a clamp off the bed. Own choice. */
const CLEAR = 3
/** Degrees off its slot that a strap is tried at, straight first. */
const TURNS = [0, 20, -20, 40, -40]
/** mm between the places along a slot that are tried, and how their radii are rounded: what a rule shows. */
const STEPS = { mm: { by: 2, to: 0.1 }, in: { by: inches(1 / 16), to: 1e-4 } } as const
/** Stands for the new clamp while it is tried. */
const TRIED = ' '

/** Of the slots in which it holds, the one farthest round from the clamps that are there; else why not, slot by slot. */
export function placeClamp(mounted: Mounted, pattern: ClampPattern): ClampPlace | null {
  const angles = mounted.pieces.filter((p) => isClamp(p.item)).map((p) => directionOf(p.at))
  const gap = (slot: Slot) => gapTo(angles, slot.angle)
  let refused: ClampPlace | null = null
  for (const slot of [...mounted.job.plate.slots].sort((a, b) => gap(b) - gap(a))) {
    const place = placeInSlot(mounted, slot, pattern)
    if ('clamp' in place) return place
    refused ??= place
  }
  return refused
}

const gapTo = (angles: readonly number[], angle: number): number =>
  Math.min(360, ...angles.map((a) => Math.abs(turnBetween(a, angle))))

/** `count` slots as evenly round the axis as they come: from each in turn, always the farthest from those taken. */
export function spreadRound(slots: readonly Slot[], taken: readonly number[], count: number): Slot[] {
  let best: Slot[] = []
  let widest = -1
  for (const first of slots) {
    const chosen = [first]
    while (chosen.length < Math.min(count, slots.length)) {
      const angles = [...taken, ...chosen.map((s) => s.angle)]
      const rest = slots.filter((s) => !chosen.includes(s))
      chosen.push(rest.reduce((a, b) => (gapTo(angles, b.angle) > gapTo(angles, a.angle) + 1e-9 ? b : a)))
    }
    const least = Math.min(
      ...chosen.map((s) => gapTo([...taken, ...chosen.filter((o) => o !== s).map((o) => o.angle)], s.angle)),
    )
    if (least > widest + 1e-9) [best, widest] = [chosen, least]
  }
  return best
}

/** The place in a slot that is nearest the axis, the strap along the slot or as little out of it as will do. */
export function placeInSlot(mounted: Mounted, slot: Slot, pattern: ClampPattern): ClampPlace {
  let refused = { rank: Infinity, reason: 'the strap does not reach the part' }
  const { by, to } = STEPS[mounted.job.displayUnits]
  for (const turn of TURNS) {
    const facing = wholeTurn(roundTo(opposite(slot.angle) + turn, 0.1))
    let onPart = false
    for (let radius = slot.from; radius <= slot.to; radius += by) {
      const clamp: Placed = { ...pattern, at: { slot: slot.id, radius: roundTo(radius, to) }, facing }
      const found = hasRoom(mounted, clamp) ?? tryPlace(mounted, clamp)
      if (found === null) return { clamp: withoutDoubledPacking(mounted, clamp) }
      if (found.rank < refused.rank) refused = found
      // Farther out it only reaches less.
      if (onPart && found.rank === OFF.rank) break
      onPart = found.rank < OFF.rank
    }
  }
  return { slot: slot.id, reason: refused.reason }
}

interface Refusal {
  /** How near it came to holding: the lowest is told. */
  readonly rank: number
  readonly reason: string
}

const OFF: Refusal = { rank: 4, reason: 'the strap does not reach the part' }
const COVERED: Refusal = { rank: 5, reason: 'its bolt has no room beside the part' }

/** Bolt beside the part and the middle of the toe on it, which is soon asked. */
function hasRoom(mounted: Mounted, { at, facing, strap, stud }: Placed): Refusal | null {
  const bolt = stationPoint(mounted.job.plate, at, mounted.setup.hardware)
  const radius = (findThread(stud.thread ?? '')?.diameter ?? strap.opening) / 2
  if (partAt(mounted, bolt).off < radius + CLEAR) return COVERED
  const reach = polar(strap.boltFrom - toeLength(strap) / 2, facing)
  return partAt(mounted, { x: bolt.x + reach.x, y: bolt.y + reach.y }).off > 0 ? OFF : null
}

/** Null where it holds; cheap questions first. */
function tryPlace(mounted: Mounted, clamp: Placed): Refusal | null {
  const piece = mountNew(mounted, clamp)
  const toe = piece.toe!
  const lies = toeLies(mounted, toe)
  if (lies !== null) return { rank: 1, reason: `the toe would lie over ${lies}` }
  if (reachOf(piece) > mounted.job.lathe.swingOverBed / 2 - CLEAR)
    return { rank: 2, reason: 'the clamp would come too near the bed' }
  const alone = stopOf(mounted, [piece])
  if (alone) return { rank: 0, reason: alone }
  const box = boxOfPiece(piece)
  const others = mounted.pieces.filter((p) => p.item.kind !== 'packing' && boxesMeet(box, boxOfPiece(p)))
  const clash = stopOf(mounted, [piece, ...others])
  if (clash) return { rank: 0, reason: clash }
  const against = saidAgainst(mounted, piece)
  return against ? { rank: 0, reason: against } : null
}

/** What the check of a clamp has against it there; null where it has nothing. */
function saidAgainst(mounted: Mounted, piece: MountedPiece): string | null {
  const states = clampStates({ ...mounted, pieces: [...mounted.pieces, piece] })
  const stop = states.find((s) => s.piece === piece)?.findings.find((f) => f.severity === 'stop')
  switch (stop?.code) {
    case undefined:
      return null
    case 'toe-off':
      return 'the toe would lie over an edge of the part'
    case 'toe-bends-part':
      return 'nothing carries the part under the toe'
    default:
      return clause(stop!.message.split(/(?<=\.)\s/)[0]!)
  }
}

const mountNew = (
  { job, setup, placement, bodies, turned, bores, ground, seat, partFront }: Mounted,
  clamp: Placed,
): MountedPiece =>
  mountClamp(
    { job, setup, part: { placement, bodies, turned, bores }, ground, seat, front: partFront },
    { ...clamp, id: TRIED },
  )

const boxOfPiece = (piece: MountedPiece): Box => boxAround(piece.solids.map((s) => ringBox(s.ring)))

const reachOf = (piece: MountedPiece): number =>
  Math.max(...piece.solids.map((s) => farthestFrom(s.ring, { x: 0, y: 0 }).distance))

function stopOf(mounted: Mounted, pieces: readonly MountedPiece[]): string | null {
  const tried = { ...mounted, pieces }
  const stop = [...clashFindings(tried), ...breakthroughFindings(tried)].find(
    (f) => f.severity === 'stop' && f.item === TRIED,
  )
  if (!stop) return null
  switch (stop.code) {
    case 'in-bar-path':
      return 'the strap would lie over the bore'
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
