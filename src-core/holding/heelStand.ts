/** Whether a clamp's heel stands and carries its strap, and whether the strap lies level between heel and toe. */
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { called, finding } from '../findings/finding.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { strapForce } from '../hardware/preload.ts'
import { WEAKEST_STEEL } from '../hardware/steels.ts'
import type { Clamp } from '../job/schema.ts'
import { ringPolygons } from '../mounting/material.ts'
import { standAt } from '../mounting/fixtures.ts'
import type { Mounted, MountedPiece, MountedToe } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { preloadOf } from './preloadOf.ts'
import { standWords } from './stand.ts'
import { standsOn } from './standing.ts'
import type { Ruling } from './ruling.ts'

/** Degrees out of level at which a strap is cautioned of, and at which it is stopped. Own choice. */
export const LEVEL = { caution: 3, stop: 8 } as const

export function heelRulings(mounted: Mounted, piece: MountedPiece): Ruling[] {
  const { item, toe } = piece
  if (item.kind !== 'clamp' || !toe || !item.heel || toe.toHeel === null) return []
  return [
    ...standRulings(mounted, piece, item),
    ...underStrap(mounted, piece, item, toe.toHeel),
    ...leverRulings(mounted, item, piece, toe, toe.toHeel),
    ...bearsRulings(mounted, item, piece, toe, toe.toHeel),
    ...levelRulings(mounted, item, piece, toe),
  ]
}

const stop = (
  { item, at }: MountedPiece,
  code: 'heel-not-carried' | 'heel-beyond-strap' | 'heel-at-bolt' | 'pressed-beyond-yield',
  message: string,
  makes: Ruling['makes'] = 'nothing',
): Ruling[] => [{ finding: finding('stop', code, item.id, message, at), makes }]

function standRulings(mounted: Mounted, piece: MountedPiece, item: Clamp): Ruling[] {
  const heel = piece.solids.find((s) => s.role === 'heel')
  if (!heel) return []
  const foot = ringPolygons(heel.ring)
  const stand = standAt(mounted, foot, heel.z0)
  if (!stand || stand.over.length === 0 || standsOn(stand.on, foot)) return []
  const fmt = formatter(mounted.job.displayUnits)
  const message = `The heel of ${called(item)} does not stand on ${standWords(mounted)}: it hangs over ${stand.over.join(' and ')}. Move the clamp or turn it, or use a wider heel that bridges it; ${fmt.percent(stand.share)} of the heel's foot is carried.`
  return stop(piece, 'heel-not-carried', message)
}

function underStrap(mounted: Mounted, piece: MountedPiece, item: Clamp, toHeel: number): Ruling[] {
  const { strap, heel } = item
  const fmt = formatter(mounted.job.displayUnits)
  const tail = strap.length - strap.boltFrom
  if (toHeel > tail + TOLERANCE.sum)
    return stop(
      piece,
      'heel-beyond-strap',
      `The heel of ${called(item)} stands beyond its strap: ${fmt.length(toHeel)} behind the bolt, where the strap ends ${fmt.length(tail)} behind it. Bring the heel ${fmt.length(toHeel - tail)} nearer, or use a longer strap.`,
    )
  const thread = piece.fastenings[0]?.thread
  const front = toHeel - heel!.size[0] / 2
  const stud = (thread?.diameter ?? strap.opening) / 2
  if (front < stud - TOLERANCE.sum)
    return stop(
      piece,
      'heel-at-bolt',
      `The heel of ${called(item)} stands in the way of its stud: ${fmt.length(stud - front)} too near. Move the heel back, or use a smaller one or a longer strap.`,
    )
  return []
}

/** The work gets F·b/(a + b): half of the bolt's pull where heel and work are as far, less where the heel is nearer. */
function leverRulings(
  mounted: Mounted,
  item: Clamp,
  piece: MountedPiece,
  toe: MountedToe,
  toHeel: number,
): Ruling[] {
  if (toe.toWork < toHeel) return []
  const fmt = formatter(mounted.job.displayUnits)
  const share = toHeel / (toe.toWork + toHeel)
  const message = `The heel of ${called(item)} gets more of the bolt's pull than the work. Bring the bolt nearer to the work, a third of the way from work to heel if you can: it stands ${fmt.length(toe.toWork)} from the work and ${fmt.length(toHeel)} from the heel, so the work gets ${fmt.percent(share)}.`
  return [{ finding: finding('caution', 'bolt-near-heel', item.id, message, piece.at), makes: null }]
}

/** mm² of a strap's underside that lies on its heel: what both have, less the slot where that runs over it. */
export function strapOnHeel({ strap, heel }: Clamp, toHeel: number): number {
  if (!heel) return 0
  const [length, width] = heel.size
  const behind = (from: number, to: number) =>
    Math.max(0, Math.min(to, toHeel + length / 2) - Math.max(from, toHeel - length / 2))
  const across = Math.min(width, strap.width)
  const bare = behind(0, strap.slotted + strap.opening / 2) * Math.min(across, strap.opening)
  return Math.max(0, behind(0, strap.length - strap.boltFrom) * across - bare)
}

/** The heel gets F·a/(a + b) of the bolt's pull, on what of it is under the strap. */
function bearsRulings(
  mounted: Mounted,
  item: Clamp,
  piece: MountedPiece,
  toe: MountedToe,
  toHeel: number,
): Ruling[] {
  const fmt = formatter(mounted.job.displayUnits)
  const area = strapOnHeel(item, toHeel)
  if (area <= TOLERANCE.clashArea && toHeel <= item.strap.length - item.strap.boltFrom)
    return stop(
      piece,
      'heel-not-carried',
      `The heel of ${called(item)} stands in the slot of its strap and carries nothing. Use a wider heel, or move it back.`,
    )
  const { preload } = preloadOf(item, uncertaintiesOf(mounted.job))
  if (!preload || area <= 0) return []
  // The same lever, seen from the other end.
  const high = strapForce(preload.high, toHeel, toe.toWork)
  if (high <= WEAKEST_STEEL.yieldsAt * area) return []
  const message = `The heel of ${called(item)} is crushed: it gets ${fmt.force(high)} on ${fmt.area(area)}. Use a wider heel, or tighten less; ${WEAKEST_STEEL.name} yields at ${fmt.stress(WEAKEST_STEEL.yieldsAt)}.`
  return stop(piece, 'pressed-beyond-yield', message, null)
}

function levelRulings(mounted: Mounted, item: Clamp, piece: MountedPiece, toe: MountedToe): Ruling[] {
  const size = Math.abs(toe.tilt)
  if (!(size > LEVEL.caution) || toe.heel === null || !toe.rest) return []
  const fmt = formatter(mounted.job.displayUnits)
  const wanted = toe.rest.z - toe.ground
  const off = Math.abs(toe.heel - wanted)
  const way = toe.tilt > 0 ? 'too high' : 'too low'
  const message = `The strap of ${called(item)} does not lie level: its heel is ${fmt.length(off)} ${way}. Make the heel ${fmt.length(wanted)} high; the strap slopes by ${fmt.angle(size)} (${LEVEL.caution}° is taken as level, ${LEVEL.stop}° at most).`
  const stopped = size > LEVEL.stop
  return [
    {
      finding: finding(stopped ? 'stop' : 'caution', 'strap-not-level', item.id, message, piece.at),
      makes: stopped ? 'nothing' : null,
    },
  ]
}
