/** Four straps of a kind at once, spread round the axis, each where it holds. */
import { clampOf, usualStrap } from '../../../src-core/hardware/choice.ts'
import type { ClampPattern } from '../../../src-core/hardware/usualClamp.ts'
import { isClamp, type Job } from '../../../src-core/job/schema.ts'
import { directionOf } from '../../../src-core/geometry/angles.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { placeInSlot, spreadRound } from './clampPlace.ts'
import { without } from './edit.ts'
import { addPiece } from './hardware.ts'

export interface StrapsPut {
  readonly job: Job
  /** How many were to be put on. */
  readonly wanted: number
  readonly ids: readonly string[]
  /** Slots in which none holds, with the reason. */
  readonly refused: readonly { readonly slot: string; readonly reason: string }[]
}

export const WANTED = 4

/** The plate's usual strap, as the first clamp there if there is one. */
export function usualPattern(job: Job, setupId: string): ClampPattern {
  const setup = job.setups.find((s) => s.id === setupId)
  const same = setup?.hardware.find((h) => h.kind === 'clamp')
  if (same?.kind === 'clamp') return without(same, 'id', 'at', 'facing', 'order')
  return clampOf(usualStrap(job.plate, job.displayUnits), (setup?.packing ?? 0) > 0)!
}

/** Puts four straps on, or as many as hold. Throws RangeError where the setup cannot be mounted. */
export function putStraps(job: Job, setupId: string, pattern: ClampPattern, count = WANTED): StrapsPut {
  const refused: { slot: string; reason: string }[] = []
  const ids: string[] = []
  let now = job
  let slots = [...job.plate.slots]
  while (ids.length < count && slots.length > 0) {
    const mounted = mountSetup(now, setupId)
    const taken = mounted.pieces.filter((p) => isClamp(p.item)).map((p) => directionOf(p.at))
    // What is still wanted is spread afresh each time, for a slot may have fallen out.
    const [slot] = spreadRound(slots, taken, count - ids.length)
    if (!slot) break
    slots = slots.filter((s) => s !== slot)
    const place = placeInSlot(mounted, slot, pattern)
    if ('clamp' in place) {
      const put = addPiece(now, setupId, place.clamp)
      now = put.job
      ids.push(put.id)
    } else refused.push(place)
  }
  return { job: now, wanted: count, ids, refused }
}

/** What was done, and where nothing could be: a short sentence first. */
export function strapsWords({ ids, refused, wanted }: StrapsPut): string {
  const why = refused.slice(0, 3).map((r) => `slot ${r.slot}: ${r.reason}`)
  const more = refused.length > 3 ? `, and ${refused.length - 3} more` : ''
  const because = why.length > 0 ? ` Refused: ${why.join('; ')}${more}.` : ''
  if (ids.length === 0) return `No strap holds here.${because || ' The plate has no slots.'}`
  const put = ids.length === 1 ? `Strap ${ids[0]} is put on` : `Straps ${ids.join(', ')} are put on`
  return `${put}.${ids.length < wanted ? because : ''}`
}
