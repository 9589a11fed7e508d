/** The setup for the next bore: what still holds stays on the plate, what does not comes off. */
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { isCounterweight, type Hardware, type Job } from '../../../src-core/job/schema.ts'
import { cutsToFinish } from './cuts.ts'
import { editSetup } from './edit.ts'
import { removePiece } from './hardware.ts'
import { setCentre } from './mounting.ts'
import { duplicateSetup } from './setups.ts'

export interface NextSetup {
  readonly job: Job
  readonly id: string
  /** Ids of what stays on the plate. */
  readonly kept: readonly string[]
  /** Clamps, packing and the like that would foul, miss the part or stand wrong. */
  readonly taken: readonly string[]
  /** Counterweights all come off: they were for another heavy side. */
  readonly weights: readonly string[]
}

/** The bore most likely meant: the first that no setup has on its axis, else the first. Null where the part has none. */
export function nextBore(job: Job): string | null {
  const { bores } = job.part
  const centred = new Set(job.setups.map((s) => ('bore' in s.centre ? s.centre.bore : '')))
  return (bores.find((b) => !centred.has(b.id)) ?? bores[0])?.id ?? null
}

/**
 * A setup like the one given, with another bore on the axis and what brings that to size as its cuts. Whether a piece
 * still holds is what the checks say of it there: one with a stop of its own is taken off, the worst first, and the rest is
 * judged again without it. Unchanged, with no id, where the part has no such bore.
 */
export function nextSetup(job: Job, setupId: string, boreId: string): NextSetup | null {
  const bore = job.part.bores.find((b) => b.id === boreId)
  if (!bore) return null
  const copy = duplicateSetup(job, setupId)
  const { id } = copy
  let next = editSetup(setCentre(copy.job, id, { bore: boreId }), id, (s) => {
    s.cuts = cutsToFinish(bore, job.displayUnits)
  })
  const weights = hardwareOf(next, id)
    .filter(isCounterweight)
    .map((h) => h.id)
  for (const weight of weights) next = removePiece(next, id, weight)
  const taken: string[] = []
  for (let wrong = firstWrong(next, id); wrong !== null; wrong = firstWrong(next, id)) {
    next = removePiece(next, id, wrong)
    taken.push(wrong)
  }
  return { job: next, id, kept: hardwareOf(next, id).map((h) => h.id), taken, weights }
}

/** The setup bare: nothing on the plate but the part. */
export function takeAllOff(job: Job, setupId: string): Job {
  let next = job
  for (const { id } of hardwareOf(job, setupId)) next = removePiece(next, setupId, id)
  return next
}

const hardwareOf = (job: Job, setupId: string): readonly Hardware[] =>
  job.setups.find((s) => s.id === setupId)?.hardware ?? []

/** A piece that a check finds wrong whatever the speed; null where none is, or the job cannot be mounted. */
function firstWrong(job: Job, setupId: string): string | null {
  const ids = new Set(hardwareOf(job, setupId).map((h) => h.id))
  const { findings } = analyse(job, setupId)
  return findings.find((f) => f.severity === 'stop' && f.fromRpm === 0 && ids.has(f.item))?.item ?? null
}
