/** Four straps of a kind at once, spread over what carries the part, each where it holds. */
import { clampOf, usualStrap } from '../../../src-core/hardware/choice.ts'
import type { ClampPattern } from '../../../src-core/hardware/usualClamp.ts'
import { partStand } from '../../../src-core/holding/stand.ts'
import type { Clamp, Job, Setup, Shelf } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { seatShelf, shelfOfBlock, slotsOf } from '../../../src-core/mounting/shelf.ts'
import { placeInTrack } from './clampPlace.ts'
import { clampTracks, nextTrack } from './clampTracks.ts'
import { without } from './edit.ts'
import { addPiece } from './hardware.ts'
import { noStrapWords } from './onShelf.ts'
import { strapRound } from './veeBlock.ts'

export interface StrapsPut {
  readonly job: Job
  /** How many were to be put on. */
  readonly wanted: number
  readonly ids: readonly string[]
  /** Slots and holes in which none holds, with the reason. */
  readonly refused: readonly { readonly where: string; readonly reason: string }[]
  /** The shelf that carries the part, if one does. */
  readonly shelf: Shelf | null
}

export const WANTED = 4

/** The usual strap for what carries the part, as the first clamp that stands there if there is one. */
export function usualPattern(job: Job, setupId: string): ClampPattern {
  const setup = job.setups.find((s) => s.id === setupId)
  const shelf = setup ? strapShelf(setup) : null
  const same = setup?.hardware.find((h) => h.kind === 'clamp' && (!shelf || isOn(shelf, h)))
  if (same?.kind === 'clamp') return without(same, 'id', 'at', 'facing', 'order')
  return clampOf(usualStrapOn(job, setup), (setup?.packing ?? 0) > 0)!
}

/** The usual strap for the slots or holes of what carries the part. */
export function usualStrapOn(job: Job, setup: Setup | undefined) {
  const shelf = setup ? strapShelf(setup) : null
  const openings = shelf ? { slots: slotsOf(shelf), holes: shelf.holes } : job.plate
  return usualStrap(openings, job.displayUnits)
}

/** What straps over the part stand on: the shelf of its seat, or the one below a loose block. */
function strapShelf(setup: Setup): Shelf | null {
  const seat = seatShelf(setup)
  return seat && (shelfOfBlock(setup.hardware, seat) ?? seat)
}

const isOn = (shelf: Shelf, { at }: Pick<Clamp, 'at'>): boolean => 'on' in at && at.on === shelf.id

/** Puts four straps on, or as many as hold. Throws RangeError where the setup cannot be mounted. */
export function putStraps(job: Job, setupId: string, pattern: ClampPattern, count = WANTED): StrapsPut {
  const whole = mountSetup(job, setupId)
  const first = partStand(whole)
  const shelf = first.shelf?.item ?? null
  if (shelf?.kind === 'vee') {
    const put = strapRound(job, setupId, whole, shelf)
    return { ...put, wanted: Math.max(1, put.ids.length), refused: [], shelf }
  }
  const refused: { where: string; reason: string }[] = []
  const ids: string[] = []
  let now = job
  let tracks = clampTracks(first)
  while (ids.length < count && tracks.length > 0) {
    const mounted = mountSetup(now, setupId)
    // What is still wanted is spread afresh each time, for a slot may have fallen out.
    const track = nextTrack(partStand(mounted), tracks, count - ids.length)
    if (!track) break
    const place = placeInTrack(mounted, track, pattern)
    // From its other end a slot is no better.
    tracks = tracks.filter((t) => t !== track && ('clamp' in place || t.name !== track.name))
    if ('clamp' in place) {
      const put = addPiece(now, setupId, place.clamp)
      now = put.job
      ids.push(put.id)
    } else refused.push(place)
  }
  return { job: now, wanted: count, ids, refused, shelf }
}

/** What was done, and where nothing could be: a short sentence first. */
export function strapsWords({ ids, refused, wanted, shelf }: StrapsPut): string {
  const why = refused.slice(0, 3).map((r) => `${r.where}: ${r.reason}`)
  const more = refused.length > 3 ? `, and ${refused.length - 3} more` : ''
  const because = why.length > 0 ? ` Refused: ${why.join('; ')}${more}.` : ''
  if (ids.length === 0)
    return `No strap holds ${shelf ? `on ${shelf.id}` : 'here'}.${because || nowhere(shelf)}`
  const put = ids.length === 1 ? `Strap ${ids[0]} is put on` : `Straps ${ids.join(', ')} are put on`
  return `${put}.${ids.length < wanted ? because : ''}`
}

function nowhere(shelf: Shelf | null): string {
  if (shelf?.kind === 'vee') return ` ${noStrapWords(shelf)}`
  return shelf ? ` Its shelf has no slots.` : ' The plate has no slots.'
}
