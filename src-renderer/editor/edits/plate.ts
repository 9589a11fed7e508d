/** The plate's slots and holes. What stands in one that is taken away stays where it is, at a plain point. */
import { sizeFor } from '../../../src-core/units/convert.ts'
import { wholeTurn } from '../../../src-core/geometry/angles.ts'
import { stationPoint } from '../../../src-core/mounting/station.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { editJob } from './edit.ts'
import { roundTo } from '../snap.ts'

export const removeSlot = (job: Job, id: string): Job => freeStation(job, { slot: id })
export const removeHole = (job: Job, id: string): Job => freeStation(job, { hole: id })

function freeStation(job: Job, gone: { slot: string } | { hole: string }): Job {
  return editJob(job, (draft) => {
    for (const setup of draft.setups) {
      for (const piece of setup.hardware) {
        if (!('at' in piece)) continue
        const stands =
          'slot' in gone
            ? 'slot' in piece.at && piece.at.slot === gone.slot
            : 'hole' in piece.at && !('on' in piece.at) && piece.at.hole === gone.hole
        if (!stands) continue
        const at = stationPoint(job.plate, piece.at, [])
        piece.at = { x: roundTo(at.x, 0.001), y: roundTo(at.y, 0.001) }
      }
    }
    if ('slot' in gone) draft.plate.slots = draft.plate.slots.filter((s) => s.id !== gone.slot)
    else draft.plate.holes = draft.plate.holes.filter((h) => h.id !== gone.hole)
  })
}

/** Evenly spaced slots, all alike, in place of the ones there are. */
export function spaceSlots(job: Job, count: number, first: number): Job {
  const pattern = job.plate.slots[0] ?? {
    from: job.plate.diameter * 0.2,
    to: job.plate.diameter * 0.45,
    width: sizeFor(job.displayUnits, 14, 9 / 16),
    kind: 'through' as const,
  }
  let next = job
  for (const slot of job.plate.slots.slice(count)) next = removeSlot(next, slot.id)
  return editJob(next, (draft) => {
    const kept = draft.plate.slots
    draft.plate.slots = Array.from({ length: count }, (_, i) => ({
      ...(kept[i] ?? { ...pattern, id: freeName(i, kept) }),
      angle: roundTo(wholeTurn(first + (i * 360) / count), 0.001),
    }))
  })
}

function freeName(i: number, kept: readonly { id: string }[]): string {
  let n = i + 1
  while (kept.some((s) => s.id === `S${n}`)) n++
  return `S${n}`
}
